"""A roster file: what it would do, and doing it in one step."""

from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from django.db.models import F
from django.utils.crypto import salted_hmac

from seeding.entries.core.intake import Plan, plan_roster
from seeding.entries.core.measures import MEASURED, Weighing
from seeding.entries.core.names import Publish
from seeding.entries.core.pairing import Change, Known, KnownEntry
from seeding.entries.core.roster import Asked, Regions, RosterRow
from seeding.entries.core.table import read_table
from seeding.entries.core.teams import KnownTeam
from seeding.entries.models import Division, Entry, Team, Tournament, WeightClass
from seeding.entries.permissions import Right, require
from seeding.entries.queries.groups import find_waiting, group_rules, members
from seeding.entries.services.entry import Person, make_entry, open_weight
from seeding.entries.services.groups import Figures, write_figures
from seeding.entries.services.team import make_team
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.models import Act
from seeding.journal.services import Call, Deed, act


@dataclass(frozen=True, slots=True)
class Regional:
    """What rosters need of the app that knows regions.

    `regions` of a tournament; `held`: the letter by the id of an entry; `give` an entry the place
    of a region, or with None take it away.
    """

    regions: Callable[[Tournament], Regions | None]
    held: Callable[[Division], Mapping[int, str]]
    give: Callable[[Entry, str | None, int | None], None]


REGIONAL: list[Regional] = []
"""That app adds its own when it is set up."""


class Sealed(bytes):
    """A file whose digest tells nobody what was weighed: it is made under the machine's secret."""

    def __repr__(self) -> str:
        return salted_hmac("roster", bytes(self), algorithm="sha256").hexdigest()


def roster_plan(division: Division, data: bytes, name: str, *, strict: bool) -> Plan:
    """The dry run: everything that is wrong, and what the file would add or change."""
    return plan_roster(read_table(data, name), _known(division), strict=strict)


def commit_roster(
    *, call: Call, division: Division, data: bytes, name: str, strict: bool = False
) -> Act:
    """Carry a roster file out: all of it, or nothing where anything in it is wrong."""
    return _commit(call=call, division=division, data=Sealed(data), name=name, strict=strict)


@act
def _commit(*, call: Call, division: Division, data: Sealed, name: str, strict: bool) -> Deed:
    require(call, division.tournament_id, Right.DIRECT)
    plan = roster_plan(division, data, name, strict=strict)
    if plan.problems:
        raise Invalid(plan.problems)
    weights = {row.label: row for row in WeightClass.objects.filter(division=division)}
    for team in plan.new_teams:
        make_team(division.tournament, team.name, team.short)
    _change(call, division, plan, weights)
    _add(call, division, plan, weights)
    counts = {"added": len(plan.adds), "changed": len({change.key for change in plan.changes})}
    return Deed(division.tournament.log_id, "roster.committed", counts)


def _known(division: Division) -> Known:
    teams = Team.objects.filter(tournament=division.tournament_id, merged_into=None)
    rows = Entry.objects.filter(weight_class__division=division).select_related(
        "wrestler", "team", "weight_class"
    )
    waiting = find_waiting(division)
    day, unit = division.tournament.starts_on, group_rules(division).unit
    asked = Asked(
        tuple(division.weights.values_list("label", flat=True)),
        REGIONAL[0].regions(division.tournament) if REGIONAL else None,
        Weighing(waiting.label, unit, day) if waiting else None,
    )
    held, figures = _held(division), _figures(division) if waiting else {}
    return Known(
        asked,
        teams=tuple(KnownTeam(row.name, row.short, tuple(row.members)) for row in teams),
        entries=tuple(
            _known_entry(row, held.get(row.pk), figures.get(row.pk, NOTHING)) for row in rows
        ),
    )


def _held(division: Division) -> Mapping[int, str]:
    return REGIONAL[0].held(division) if REGIONAL else {}


def _figures(division: Division) -> dict[int, Figures]:
    return {
        one.entry.pk: Figures(one.figures.weight, one.figures.age, one.figures.experience)
        for group in members(division).values()
        for one in group
    }


NOTHING = Figures(None, None, None)


def _known_entry(row: Entry, region: str | None, figures: Figures) -> KnownEntry:
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
        stands_by=row.status == Entry.Status.STANDBY,
        region=region,
        weighed=figures.weight,
        age=figures.age,
        experience=figures.experience,
    )


def _change(call: Call, division: Division, plan: Plan, weights: dict[str, WeightClass]) -> None:
    """All changes are one step: seeds are freed first, so that two entries may exchange theirs."""
    changes: dict[str, list[Change]] = defaultdict(list)
    for change in plan.changes:
        changes[change.key].append(change)
    rows = Entry.objects.filter(tournament=division.tournament_id, key__in=changes)
    reseeded = [key for key, found in changes.items() if any(one.field == "seed" for one in found)]
    rows.filter(key__in=reseeded).update(seed=None)
    held, figures = _held(division), _figures(division)
    for row in rows.select_related("weight_class", "tournament"):
        values: dict[str, Any] = {change.field: change.after for change in changes[row.key]}
        measured = {name: values.pop(name) for name in MEASURED if name in values}
        placed = "region" in values or ("qualifying_place" in values and row.pk in held)
        region = values.pop("region", held.get(row.pk))
        if placed or {"weight", "seed"} & set(values):
            open_weight(row.weight_class)
        if "weight" in values:
            open_weight(target := weights[str(values.pop("weight"))])
            values["weight_class_id"] = target.pk
        Entry.objects.filter(pk=row.pk).update(version=F("version") + 1, **values)
        if placed:
            REGIONAL[0].give(row, region, values.get("qualifying_place", row.qualifying_place))
        if measured:
            _measure(call, row, figures.get(row.pk, NOTHING), measured)


def _measure(call: Call, entry: Entry, known: Figures, told: Mapping[str, Any]) -> None:
    """Keep what the file says of weight, age and experience beside what is known."""
    weight, age, years = (
        told.get(name, before)
        for name, before in zip(MEASURED, (known.weight, known.age, known.experience), strict=True)
    )
    write_figures(call, entry, Figures(weight, age, years))


def _add(call: Call, division: Division, plan: Plan, weights: dict[str, WeightClass]) -> None:
    teams = {row.name: row for row in Team.objects.filter(tournament=division.tournament_id)}
    for row in plan.adds:
        person = Person(row.given, row.family)
        try:
            made = make_entry(weights[row.weight], teams[row.team], person, _details(row))
        except Invalid as refusal:
            raise Invalid([Problem(f"row {row.row}", str(refusal))]) from refusal
        if row.region:
            REGIONAL[0].give(made, row.region, row.qualifying_place)
        told = {name: getattr(row, name) for name in MEASURED}
        if any(value is not None for value in told.values()):
            _measure(call, made, NOTHING, told)


def _details(row: RosterRow) -> dict[str, object]:
    return {
        "seed": row.seed,
        "scoring": row.scoring is not False,
        "publish": row.publish or Publish.FULL,
        "rank": row.rank,
        "qualifying_place": row.qualifying_place,
    }
