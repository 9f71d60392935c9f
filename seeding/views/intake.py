"""Taking files in: rosters and the season's bouts."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.services.held import held_file, read_held
from seeding.entries.views.desk import carried, desk, posted
from seeding.entries.views.log import followed
from seeding.entries.views.roster import blank_table, roster_form
from seeding.forms.intake import KeepForm, SeasonForm
from seeding.journal.forms import ActForm
from seeding.journal.models import Job
from seeding.journal.services import Call
from seeding.journal.views import submit
from seeding.queries import season_bouts
from seeding.services.season import READ, commit_season, queue_season

HEADINGS = (
    *("Date", "Weight", "Winner", "Winner team", "Loser", "Loser team"),
    *("Result", "Score", "Time", "Event", "Level", "Winner division", "Loser division"),
)
LISTED = 200
"""So many of what a file brings are listed one by one."""


@desk(Right.DIRECT)
def intake(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """The kinds of file, each with its form and its blank table."""
    form = _form(request)
    job = (
        submit(request, form, lambda call: _queue(call, tournament, form))
        if form.is_bound
        else None
    )
    if job:
        return redirect("desk-season", tournament.slug, job.uid)
    shown = {
        "tournament": tournament,
        "form": roster_form(tournament, None),
        "season": form,
        "bouts": season_bouts(tournament).count(),
        "jobs": Job.objects.filter(log_id=tournament.log_id, task=READ).order_by("-pk")[:5],
    }
    return render(request, "seeding/intake.html", shown)


def _form(request: HttpRequest) -> SeasonForm:
    if request.method == "POST":
        return SeasonForm(request.POST, request.FILES, auto_id="season_%s")
    return SeasonForm(auto_id="season_%s")


def _queue(call: Call, tournament: Tournament, form: SeasonForm) -> Job:
    file = form.cleaned_data["file"]
    return queue_season(call=call, tournament=tournament, name=file.name, data=file.read())


@desk(Right.DIRECT)
def season(request: HttpRequest, tournament: Tournament, uid: str) -> HttpResponse:
    """How far the file is read, what it would do, and the button that keeps it."""
    job = held_file(tournament, uid, READ)
    keep = KeepForm(posted(request, "keep"), contradicted=job.report.get("contradicted", ()))
    again = ActForm(posted(request, "again"), auto_id="again_%s")

    def commit(call: Call) -> object:
        chosen = {"word": keep.chosen, "otherwise": keep.otherwise}
        return commit_season(call=call, tournament=tournament, job=job, **chosen)

    if carried(request, keep, commit):
        messages.success(request, _("The season is taken in."))
        return redirect("desk-season", tournament.slug, job.uid)
    fresh = (
        submit(request, again, lambda call: _again(call, tournament, job))
        if again.is_bound
        else None
    )
    if fresh:
        return redirect("desk-season", tournament.slug, fresh.uid)
    report = {**job.report}
    wrestlers = report.pop("wrestlers", [])
    return followed(
        request,
        job,
        "seeding/season.html",
        "seeding/_season.html",
        tournament,
        keep=keep,
        again=again,
        report=report,
        wrestlers=wrestlers[:LISTED],
        unlisted=max(len(wrestlers) - LISTED, 0),
        unlisted_rows=_unlisted(report),
        told=_told(report.get("counts", {}), len(wrestlers)),
    )


def _unlisted(report: dict[str, Any]) -> int:
    """How many contradictions have no choice of their own."""
    counted: int = report.get("counts", {}).get("contradicted", 0)
    return counted - len(report.get("contradicted", ()))


def _told(counts: dict[str, int], wrestlers: int) -> list[tuple[int, str]]:
    if not counts:
        return []
    return [
        (counts["new"], ngettext("new bout", "new bouts", counts["new"])),
        (counts["more"], _("told in more detail")),
        (counts["contradicted"], _("known with another result")),
        (counts["known"], _("known already")),
        (counts["repeated"], _("said twice in the file")),
        (wrestlers, ngettext("new wrestler", "new wrestlers", wrestlers)),
    ]


def _again(call: Call, tournament: Tournament, job: Job) -> Job:
    """The same file, read once more."""
    name = job.arguments["name"]
    return queue_season(call=call, tournament=tournament, name=name, data=read_held(job))


@desk(Right.DIRECT)
def blank(request: HttpRequest, tournament: Tournament, kind: str) -> HttpResponse:
    """An empty season with the headings that are read."""
    return blank_table("season", HEADINGS, kind)
