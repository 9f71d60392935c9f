"""The log in words, and the long jobs."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.core.paginator import Paginator
from django.http import FileResponse, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import names_in
from seeding.entries.views.desk import desk
from seeding.journal.core.errors import NotFound
from seeding.journal.models import Act, Job
from seeding.journal.queries import first_break
from seeding.journal.queries import job as job_of
from seeding.journal.services import OPERATOR

PAGE = 50
VERBS = {
    "draw.committed": gettext_lazy("Draw committed"),
    "draw.secret-revealed": gettext_lazy("Secret of the draw revealed"),
    "draw.taken-back": gettext_lazy("Draw taken back"),
    "weight.drawn": gettext_lazy("Weight drawn"),
    "entry.weighed": gettext_lazy("Weigh-in recorded"),
    "weigh-in.recorded": gettext_lazy("Weigh-in recorded"),
    "weigh-in.applied": gettext_lazy("Weigh-in applied"),
    "entry.taken-out": gettext_lazy("Entry taken out"),
    "entry.came-late": gettext_lazy("Late entry"),
    "lines.swapped": gettext_lazy("Lines swapped"),
    "weight.redrawn": gettext_lazy("Weight drawn anew"),
    "cut-off.set": gettext_lazy("Cut-off of the weigh-in stated"),
    "entries.measured": gettext_lazy("Weighed for groups"),
    "groups.started": gettext_lazy("Division forms groups after weigh-in"),
    "groups.formed": gettext_lazy("Groups formed"),
    "groups.merged": gettext_lazy("Groups merged"),
    "group.split": gettext_lazy("Group split"),
    "group.moved": gettext_lazy("Moved to another group"),
    "gates.set": gettext_lazy("Publishing changed"),
    "roster.committed": gettext_lazy("Roster taken in"),
    "season.committed": gettext_lazy("Season taken in"),
    "season.given-back": gettext_lazy("Results given back to the season"),
    "season.bout-struck": gettext_lazy("Bout of the season struck"),
    "season.bout-put-back": gettext_lazy("Struck bout put back"),
    "season.both-stand": gettext_lazy("Two bouts of a day both stand"),
    "wrestlers.merged": gettext_lazy("Two wrestlers made one"),
    "wrestlers.kept-apart": gettext_lazy("Two wrestlers judged to be two"),
    "ranks.taken-in": gettext_lazy("Ranks, places or ballots taken in"),
    "seed.moved": gettext_lazy("Moved in the order of seeds"),
    "seed.move-taken-back": gettext_lazy("Move in the order of seeds taken back"),
    "order.adopted": gettext_lazy("Order adopted as seeds"),
}
Names = Mapping[tuple[str, int], str]


@dataclass(frozen=True, slots=True)
class Line:
    """One act as people read it."""

    seq: int
    at: datetime
    who: str
    verb: str
    about: str


def told(acts: Sequence[Act]) -> list[Line]:
    """The acts in words, with the names that their ids stand for today."""
    names = names_in(acts)
    return [
        Line(
            seq=act.seq,
            at=act.at,
            who=_("operator") if act.actor == OPERATOR else names.get(("actor", act.actor), "?"),
            verb=str(VERBS.get(act.verb) or _words(act.verb)),
            about="; ".join(_about(act, names)),
        )
        for act in acts
    ]


def _words(verb: str) -> str:
    """ "entry.added" as "Entry added"."""
    return verb.replace(".", " ").replace("-", " ").capitalize()


def _about(act: Act, names: Names) -> Iterator[str]:
    for kind, value in act.subject.items():
        if kind == "gates":
            yield ", ".join(f"{gate.replace('_', ' ')}: {_said(on)}" for gate, on in value.items())
        elif kind == "seeds":
            yield f"{kind} {len(value)}"
        elif kind == "numbers":
            continue
        elif isinstance(value, list):
            yield ", ".join(_named(act, names, kind, one) or str(one) for one in value)
        else:
            yield _named(act, names, kind, value) or f"{kind} {value}"


def _named(act: Act, names: Names, kind: str, value: object) -> str:
    """What an id stood for: a number that has changed since then is told with the one of today."""
    name = names.get((kind, value), "") if isinstance(value, int) else ""
    then = str(act.subject.get("numbers", {}).get(f"{kind} {value}", "")) if name else ""
    if then in ("", name):
        return name
    return _("%(then)s (now %(name)s)") % {"then": then, "name": name}


def _said(on: object) -> str:
    return _("open") if on else _("closed")


@desk(Right.READ)
def log(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Every act, newest first, and whether the chain holds."""
    rows = Act.objects.filter(log=tournament.log_id).order_by("-seq")
    page = Paginator(rows, PAGE).get_page(request.GET.get("page"))
    shown = {
        "tournament": tournament,
        "page": page,
        "lines": told(list(page.object_list)),
        "broken": first_break(tournament.log_id),
    }
    return render(request, "entries/log.html", shown)


@desk(Right.READ)
def job(request: HttpRequest, tournament: Tournament, uid: str) -> HttpResponse:
    """How far a long piece of work is, and what it found."""
    row = job_of(uid)
    if row.log_id != tournament.log_id:
        raise NotFound(what="job", name=uid)
    return followed(request, row, "entries/job.html", "entries/_job.html", tournament)


@desk(Right.READ)
def product(request: HttpRequest, tournament: Tournament, uid: str) -> FileResponse:
    """The file that a job made."""
    row = job_of(uid)
    if row.log_id != tournament.log_id or not row.product:
        raise NotFound(what="file", name=uid)
    return FileResponse(row.product.open("rb"), as_attachment=True)


def followed(
    request: HttpRequest, row: Job, page: str, part: str, tournament: Tournament, **more: object
) -> HttpResponse:
    """The page of a job, or the part of it that changed since the state that `after` names."""
    state = f"{row.state}-{row.done}-{row.total}"
    shown = {"tournament": tournament, "job": row, "state": state, **more}
    after = request.GET.get("after")
    if after == state:
        return HttpResponse(status=204)
    answer = render(request, page if after is None else part, shown)
    answer["X-Seq"] = state
    return answer
