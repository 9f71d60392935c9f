"""A roster file: what it would do, and doing it in one step."""

from collections import defaultdict

from django.db.models import F

from seeding.entries.core.intake import Plan, plan_roster
from seeding.entries.core.names import Publish
from seeding.entries.core.pairing import Change, Known, KnownEntry
from seeding.entries.core.roster import RosterRow
from seeding.entries.core.table import read_table
from seeding.entries.core.teams import KnownTeam
from seeding.entries.models import Division, Entry, Team, WeightClass
from seeding.entries.permissions import Right, require
from seeding.entries.services.entry import Person, make_entry, open_weight
from seeding.entries.services.team import make_team
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call, Deed, act


def roster_plan(division: Division, data: bytes, name: str, *, strict: bool) -> Plan:
    """The dry run: everything that is wrong, and what the file would add or change."""
    return plan_roster(read_table(data, name), _known(division), strict=strict)


@act
def commit_roster(
    *, call: Call, division: Division, data: bytes, name: str, strict: bool = False
) -> Deed:
    """Carry a roster file out: all of it, or nothing where anything in it is wrong."""
    require(call, division.tournament_id, Right.DIRECT)
    plan = roster_plan(division, data, name, strict=strict)
    if plan.problems:
        raise Invalid(plan.problems)
    weights = {row.label: row for row in WeightClass.objects.filter(division=division)}
    for team in plan.new_teams:
        make_team(division.tournament, team.name, team.short)
    _change(division, plan, weights)
    _add(division, plan, weights)
    counts = {"added": len(plan.adds), "changed": len({change.key for change in plan.changes})}
    return Deed(division.tournament.log_id, "roster.committed", counts)


def _known(division: Division) -> Known:
    teams = Team.objects.filter(tournament=division.tournament_id, merged_into=None)
    rows = Entry.objects.filter(weight_class__division=division).select_related(
        "wrestler", "team", "weight_class"
    )
    return Known(
        weights=tuple(division.weights.values_list("label", flat=True)),
        teams=tuple(KnownTeam(row.name, row.short, tuple(row.members)) for row in teams),
        entries=tuple(_known_entry(row) for row in rows),
    )


def _known_entry(row: Entry) -> KnownEntry:
    return KnownEntry(
        key=row.key,
        weight=row.weight_class.label,
        team=row.team.name,
        given=row.wrestler.given,
        family=row.wrestler.family,
        seed=row.seed,
        scoring=row.scoring,
        publish=Publish(row.publish),
        rank=row.rank,
        qualifying_place=row.qualifying_place,
        scratched=row.status != Entry.Status.ENTERED,
    )


def _change(division: Division, plan: Plan, weights: dict[str, WeightClass]) -> None:
    """All changes are one step: seeds are freed first, so that two entries may exchange theirs."""
    changes: dict[str, list[Change]] = defaultdict(list)
    for change in plan.changes:
        changes[change.key].append(change)
    rows = Entry.objects.filter(tournament=division.tournament_id, key__in=changes)
    reseeded = [key for key, found in changes.items() if any(one.field == "seed" for one in found)]
    rows.filter(key__in=reseeded).update(seed=None)
    for row in rows.select_related("weight_class"):
        values = {change.field: change.after for change in changes[row.key]}
        if {"weight", "seed"} & set(values):
            open_weight(row.weight_class)
        if "weight" in values:
            open_weight(target := weights[str(values.pop("weight"))])
            values["weight_class_id"] = target.pk
        Entry.objects.filter(pk=row.pk).update(version=F("version") + 1, **values)


def _add(division: Division, plan: Plan, weights: dict[str, WeightClass]) -> None:
    teams = {row.name: row for row in Team.objects.filter(tournament=division.tournament_id)}
    for row in plan.adds:
        person = Person(row.given, row.family)
        try:
            make_entry(weights[row.weight], teams[row.team], person, _details(row))
        except Invalid as refusal:
            raise Invalid([Problem(f"row {row.row}", str(refusal))]) from refusal


def _details(row: RosterRow) -> dict[str, object]:
    return {
        "seed": row.seed,
        "scoring": row.scoring is not False,
        "publish": row.publish or Publish.FULL,
        "rank": row.rank,
        "qualifying_place": row.qualifying_place,
    }
