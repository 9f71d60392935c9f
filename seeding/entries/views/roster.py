"""Taking a roster in: the dry run, and the button that carries it out."""

from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from seeding.entries.core.escaped import write_csv, write_xlsx
from seeding.entries.core.intake import Plan
from seeding.entries.core.pairing import Change
from seeding.entries.forms.roster import RosterForm
from seeding.entries.models import Division, Entry, Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import division as division_of
from seeding.entries.queries.groups import find_waiting
from seeding.entries.services import commit_roster, roster_plan
from seeding.entries.services.held import ROSTER, drop_held, held_file, hold_file, read_held
from seeding.entries.views.desk import desk, posted
from seeding.journal.core.errors import NotFound
from seeding.journal.forms import ActForm
from seeding.journal.models import Act, Job
from seeding.journal.services import Call
from seeding.journal.views import submit

HEADINGS = (
    *("Given name", "Family name", "Weight", "Team", "Short", "Seed", "Scoring", "Publish"),
    *("Rank", "Region", "Place"),
)
MEASURES = ("Weighed", "Age", "Experience")
LABELS = {
    "weight": gettext_lazy("Weight"),
    "scoring": gettext_lazy("Scores for the team"),
    "publish": gettext_lazy("Name on public pages"),
    "seed": gettext_lazy("Seed"),
    "rank": gettext_lazy("Coaches' rank"),
    "qualifying_place": gettext_lazy("Qualifying place"),
    "region": gettext_lazy("Region"),
    "weighed": gettext_lazy("Weighed"),
    "age": gettext_lazy("Age"),
    "experience": gettext_lazy("Experience"),
}
TYPES = {
    "csv": ("text/csv; charset=utf-8", write_csv),
    "xlsx": ("application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", write_xlsx),
}


@dataclass(frozen=True, slots=True)
class Changed:
    """A change with the name of whom it is about, in words."""

    name: str
    change: Change

    @property
    def label(self) -> str:
        return str(LABELS.get(self.change.field, self.change.field))

    @property
    def before(self) -> str:
        return _said(self.change.before)

    @property
    def after(self) -> str:
        return _said(self.change.after)


def _said(value: object) -> str:
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    return "–" if value is None else str(value)  # noqa: RUF001


@desk(Right.DIRECT)
def upload(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Choose a roster; what it would do is shown before anything is done."""
    form = roster_form(tournament, request)
    job = (
        submit(request, form, lambda call: _hold(call, tournament, form)) if form.is_bound else None
    )
    if job:
        return redirect("desk-roster-plan", tournament.slug, job.uid)
    shown = {"tournament": tournament, "form": form}
    return render(request, "entries/roster.html", shown)


def roster_form(tournament: Tournament, request: HttpRequest | None) -> RosterForm:
    """The form as sent, or a new one."""
    posts = request is not None and request.method == "POST"
    sent = (request.POST, request.FILES) if request and posts else (None, None)
    return RosterForm(*sent, tournament=tournament, auto_id="roster_%s")


def _hold(call: Call, tournament: Tournament, form: RosterForm) -> Job:
    values = form.cleaned_data
    file, division, strict = values["file"], values["division"], values["strict"]
    data = file.read()
    roster_plan(division, data, file.name, strict=strict)
    arguments = {"division": division.key, "strict": strict}
    return hold_file(
        call=call,
        tournament=tournament,
        kind=ROSTER,
        name=file.name,
        data=data,
        arguments=arguments,
    )


@desk(Right.DIRECT)
def plan(request: HttpRequest, tournament: Tournament, uid: str) -> HttpResponse:
    """What the file would do to the tournament as it is now; one button carries it out.

    A file that was carried out is deleted, and leads on to the entries.
    """
    job = held_file(tournament, uid, ROSTER)
    if not job.source:
        return redirect("desk-entries", tournament.slug)
    said = job.arguments
    division = division_of(tournament, said["division"])
    source = {"data": read_held(job), "name": said["name"], "strict": said["strict"]}
    form = ActForm(posted(request, "commit"))

    def commit(call: Call) -> Act:
        return commit_roster(call=call, division=division, **source)

    act = submit(request, form, commit) if form.is_bound else None
    if act:
        drop_held(job)
        messages.success(request, _done(act.subject))
        return redirect("desk-entries", tournament.slug)
    found = roster_plan(division, **source)
    shown = {"tournament": tournament, "division": division, "file": said["name"], "form": form}
    return render(request, "entries/roster_plan.html", {**shown, **_shown(division, found)})


def _shown(division: Division, found: Plan) -> dict[str, Any]:
    rows = Entry.objects.filter(
        tournament=division.tournament_id, key__in={change.key for change in found.changes}
    ).select_related("wrestler")
    names = {row.key: f"{row.wrestler.given} {row.wrestler.family}".strip() for row in rows}
    return {
        "plan": found,
        "changes": [Changed(names[change.key], change) for change in found.changes],
        "changed": len(names),
        "nothing": not (found.adds or found.changes or found.new_teams),
    }


def _done(counts: dict[str, int]) -> str:
    added, changed = counts["added"], counts["changed"]
    first = ngettext("%(n)s entry added", "%(n)s entries added", added) % {"n": added}
    second = ngettext("%(n)s changed", "%(n)s changed", changed) % {"n": changed}
    return f"{first}, {second}."


@desk(Right.DIRECT)
def blank(request: HttpRequest, tournament: Tournament, kind: str) -> HttpResponse:
    """An empty roster with the headings that are read."""
    grouped = any(find_waiting(row) for row in tournament.divisions.all())
    return blank_table("roster", HEADINGS + (MEASURES if grouped else ()), kind)


def blank_table(name: str, headings: tuple[str, ...], kind: str) -> HttpResponse:
    """A file with headings and nothing below them."""
    if kind not in TYPES:
        raise NotFound(what="file", name=f"{name}.{kind}")
    content_type, write = TYPES[kind]
    answer = HttpResponse(write(headings, ()), content_type=content_type)
    answer["Content-Disposition"] = f'attachment; filename="{name}.{kind}"'
    return answer
