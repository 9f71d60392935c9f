"""Ranks, earlier places and ballots: put in by form or by file."""

from typing import Any

from django.contrib import messages
from django.db.models import F
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from seeding.core.criteria import InputKind
from seeding.core.put_in import Table
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.permissions import Right
from seeding.entries.queries import entries as entries_of
from seeding.entries.queries import weight as weight_of
from seeding.entries.services.held import held_file, hold_file, read_held
from seeding.entries.views.desk import carried, desk, posted
from seeding.entries.views.roster import blank_table
from seeding.forms.put_in import BallotForm, InputsForm, PutInForm
from seeding.journal.core.errors import NotFound
from seeding.journal.forms import ActForm
from seeding.journal.models import Act, Job
from seeding.journal.services import Call
from seeding.journal.views import submit
from seeding.models import Ballot
from seeding.queries.order import rules_of, seed_order
from seeding.queries.put_in import COACHES, QUALIFYING, ballots_of, tables_of, values_of, voted
from seeding.services.put_in import (
    commit_put_in,
    put_in_plan,
    set_ballot,
    set_tables,
    take_ballot,
)

HELD = "put-in"
RANKS = ("Weight", "Wrestler", "Team", "Table", "Kind", "Value", "At weight")
BALLOTS = ("Weight", "Voter", "Voter's team", "Wrestler", "Team", "Rank")
BLANKS = {"ranks": RANKS, "ballots": BALLOTS}


@desk(Right.SEED)
def tables(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """Every table that the weight's list reads, put in by hand."""
    at = weight_of(tournament, weight)
    entries = _entered(at)
    values = values_of(entries)
    needs = rules_of(at.division).inputs
    form = InputsForm(
        posted(request, "inputs"),
        entries=entries,
        tables=_columns(tables_of(needs), entries),
        values=values,
        version=_version(at),
    )
    if carried(request, form, lambda call: set_tables(call=call, weight=at, values=form.wanted)):
        messages.success(request, _("Saved. The order is worked out anew."))
        return redirect("desk-seeding", tournament.slug, at.key)
    shown: dict[str, Any] = {"tournament": tournament, "weight": at, "form": form, "needs": needs}
    shown["votes"] = any(need.kind is InputKind.BALLOTS for need in needs)
    kept = {table for tables in values.values() for table in tables} - {*tables_of(needs)}
    shown["kept"] = sorted(form.heading(table) for table in kept)
    shown["kept_ballots"] = [] if shown["votes"] else ballots_of(at)
    return render(request, "seeding/inputs.html", shown)


def _columns(read: tuple[Table, ...], entries: list[Entry]) -> tuple[Table, ...]:
    """What the list reads, and what the entries hold besides."""
    held = (
        (COACHES, any(row.rank for row in entries)),
        (QUALIFYING, any(row.qualifying_place for row in entries)),
    )
    return (*read, *(table for table, is_held in held if is_held and table not in read))


def _entered(at: WeightClass) -> list[Entry]:
    rows = entries_of(at.pk).filter(status=Entry.Status.ENTERED)
    return list(rows.order_by(F("seed").asc(nulls_last=True), "wrestler__family", "pk"))


def _version(at: WeightClass) -> int:
    kept = seed_order(at)
    return kept.version if kept else 0


@desk(Right.SEED)
def ballots(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """The ballots of a weight, and the form for one of them."""
    at = weight_of(tournament, weight)
    entries, rows = _entered(at), ballots_of(at)
    keys = {row.pk: row.key for row in entries}
    chosen = next((row for row in rows if str(row.pk) == request.GET.get("ballot")), None)
    form = BallotForm(
        posted(request, "ballot"),
        entries=entries,
        teams=tournament.teams.filter(merged_into=None),
        ballot=voted(chosen, keys) if chosen else None,
        version=_version(at),
    )
    takes = [(row, ActForm(posted(request, f"take-{row.pk}"), auto_id=False)) for row in rows]
    if carried(
        request,
        form,
        lambda call: set_ballot(call=call, weight=at, ballot=form.voted(at.label)),
    ):
        messages.success(request, _("The ballot is kept. The order is worked out anew."))
        return redirect("desk-ballots", tournament.slug, at.key)
    for row, take in takes:
        if carried(request, take, _taker(row)):
            messages.success(request, _("The ballot is taken away."))
            return redirect("desk-ballots", tournament.slug, at.key)
    shown: dict[str, Any] = {"tournament": tournament, "weight": at, "form": form}
    shown["votes"] = any(need.kind is InputKind.BALLOTS for need in rules_of(at.division).inputs)
    shown["rows"] = [(row, voted(row, keys), take) for row, take in takes]
    shown["refused"] = [take for _row, take in takes if take.errors]
    shown["chosen"] = chosen
    return render(request, "seeding/ballots.html", shown)


def _taker(row: Ballot) -> Any:
    return lambda call: take_ballot(call=call, ballot=row)


@desk(Right.SEED)
def upload(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Choose a file; what it would do is shown before anything is done."""
    form = _form(request)
    job = (
        submit(request, form, lambda call: _hold(call, tournament, form)) if form.is_bound else None
    )
    if job:
        return redirect("desk-put-in-plan", tournament.slug, job.uid)
    reads = [(row, rules_of(row).inputs) for row in tournament.divisions.all()]
    shown = {"tournament": tournament, "form": form, "reads": reads}
    return render(request, "seeding/put_in.html", shown)


def _form(request: HttpRequest) -> PutInForm:
    if request.method == "POST":
        return PutInForm(request.POST, request.FILES, auto_id="put_in_%s")
    return PutInForm(auto_id="put_in_%s")


def _hold(call: Call, tournament: Tournament, form: PutInForm) -> Job:
    file = form.cleaned_data["file"]
    data = file.read()
    put_in_plan(tournament, data, file.name)
    return hold_file(
        call=call,
        tournament=tournament,
        kind=HELD,
        name=file.name,
        data=data,
        arguments={},
        right=Right.SEED,
    )


@desk(Right.SEED)
def plan(request: HttpRequest, tournament: Tournament, uid: str) -> HttpResponse:
    """What the file would do to the tournament as it is now; one button carries it out."""
    job = held_file(tournament, uid, HELD)
    name, data = job.arguments["name"], read_held(job)
    form = ActForm(posted(request, "commit"))

    def commit(call: Call) -> Act:
        return commit_put_in(call=call, tournament=tournament, data=data, name=name)

    if carried(request, form, commit):
        messages.success(request, _("Taken in. The orders are worked out anew."))
        return redirect("desk-seeding", tournament.slug)
    found = put_in_plan(tournament, data, name)
    count = len(found.changes)
    told = ngettext("%(n)s change", "%(n)s changes", count) % {"n": count}
    shown = {"tournament": tournament, "form": form, "file": name, "plan": found, "told": told}
    return render(request, "seeding/put_in_plan.html", shown)


@desk(Right.SEED)
def blank(request: HttpRequest, tournament: Tournament, what: str, kind: str) -> HttpResponse:
    """An empty table with the headings that are read."""
    if what not in BLANKS:
        raise NotFound(what="file", name=f"{what}.{kind}")
    return blank_table(what, BLANKS[what], kind)
