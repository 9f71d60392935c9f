"""What no bout tells is put in: ranks and places, by form or file, and ballots."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from django.db.models import F

from seeding.core.criteria import Input, InputKind
from seeding.core.put_in import (
    PutIn,
    Said,
    Table,
    Voted,
    ballot_problems,
    read_put_in,
)
from seeding.core.put_in.sheet import own_of
from seeding.entries.core.spelling import folded
from seeding.entries.core.table import read_table
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.permissions import Right, require
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call, Deed, act
from seeding.models import Ballot, BallotRank, Noted
from seeding.queries.order import rules_of
from seeding.queries.put_in import (
    COACHES,
    QUALIFYING,
    Values,
    ballots_of,
    entered_at,
    field_of,
    values_of,
    voted,
    weight_names,
)
from seeding.services.order import open_order

Wanted = Mapping[int, Mapping[Table, Mapping[str, int]]]
"""By entry's primary key and table: the value at each weight ("" = his own); empty = none."""


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that a file says otherwise than what is put in; empty texts mean nothing."""

    weight: str
    about: str
    what: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Plan:
    """What a file says, and what it would change."""

    sheet: PutIn
    changes: tuple[Change, ...]


@act
def set_tables(*, call: Call, weight: WeightClass, values: Wanted) -> Deed:
    """Put in ranks and places of entries of a weight: the tables named, and nothing else of them.

    The coaches' rank and the qualifying place are those that the entries themselves hold.
    """
    require(call, weight.tournament_id, Right.SEED)
    open_order(call, weight)
    rows = {row.pk: row for row in entered_at(weight) if row.pk in values}
    changed = _write(rows.values(), values)
    return Deed(weight.tournament.log_id, "ranks.set", {"weight": weight.pk, "entry": changed})


@act
def set_inputs(
    *, call: Call, weight: WeightClass, values: Mapping[int, tuple[int | None, int | None]]
) -> Deed:
    """Put in the coaches' rank and the qualifying place by entry's id."""
    require(call, weight.tournament_id, Right.SEED)
    open_order(call, weight)
    rows = [row for row in entered_at(weight) if row.pk in values]
    known = values_of(rows)
    wanted = {
        row.pk: {
            table: {at: held for at, held in known[row.pk].get(table, {}).items() if at}
            | ({"": value} if value else {})
            for table, value in zip((COACHES, QUALIFYING), values[row.pk], strict=True)
        }
        for row in rows
    }
    changed = _write(rows, wanted)
    return Deed(weight.tournament.log_id, "ranks.set", {"weight": weight.pk, "entry": changed})


def _write(entries: Iterable[Entry], wanted: Wanted) -> list[int]:
    """Bring the tables of the entries to what is wanted; the entries that changed."""
    rows = list(entries)
    known = values_of(rows)
    changed = []
    for row in rows:
        tables = {
            table: values
            for table, values in wanted[row.pk].items()
            if dict(known[row.pk].get(table, {})) != dict(values)
        }
        for table, values in tables.items():
            _write_table(row, table, values)
        if tables:
            changed.append(row.pk)
    Entry.objects.filter(pk__in=changed).update(version=F("version") + 1)
    return changed


def _write_table(row: Entry, table: Table, values: Mapping[str, int]) -> None:
    """One table of one entry; its own part goes into the entry where the entry holds it."""
    Noted.objects.filter(entry=row, kind=table.kind, table=table.name).delete()
    left = dict(values)
    column = {COACHES: "rank", QUALIFYING: "qualifying_place"}.get(table)
    if column:
        own = left.pop("", None)
        Entry.objects.filter(pk=row.pk).update(**{column: own or None})
        left |= {"": 0} if own == 0 else {}
    Noted.objects.bulk_create(
        Noted(entry=row, kind=table.kind, table=table.name, value=value, weight=at)
        for at, value in left.items()
    )


@act
def set_ballot(*, call: Call, weight: WeightClass, ballot: Voted) -> Deed:
    """Put in one voter's ballot of a weight, in place of the one he had."""
    require(call, weight.tournament_id, Right.SEED)
    open_order(call, weight)
    field = field_of(weight.tournament, _reads(weight.tournament))
    name = weight_names(weight.tournament)[weight.pk]
    entries = {one.key: one for one in field.entries if one.weight == name}
    if not ballot.voter.strip():
        raise Invalid([Problem("voter", "Say whose ballot it is.")])
    strange = [Problem(key, "is not entered here") for key in ballot.ranks if key not in entries]
    own = own_of(field, name, ballot.team)
    wrong = strange or [Problem(*one) for one in ballot_problems(ballot.ranks, entries, own)]
    if wrong:
        raise Invalid(wrong)
    made = _write_ballot(weight, ballot)
    return Deed(weight.tournament.log_id, "ballot.set", {"weight": weight.pk, "ballot": made.pk})


def _write_ballot(weight: WeightClass, ballot: Voted) -> Ballot:
    same = [row for row in ballots_of(weight) if folded(row.voter) == folded(ballot.voter)]
    row = same[0] if same else Ballot(weight_class=weight, voter=ballot.voter.strip())
    row.team = weight.tournament.teams.filter(key=ballot.team).first() if ballot.team else None
    row.save()
    keys = dict(Entry.objects.filter(weight_class=weight).values_list("key", "pk"))
    BallotRank.objects.filter(ballot=row).delete()
    BallotRank.objects.bulk_create(
        BallotRank(ballot=row, entry_id=keys[key], rank=rank) for key, rank in ballot.ranks.items()
    )
    return row


@act
def take_ballot(*, call: Call, ballot: Ballot) -> Deed:
    """Take a voter's ballot away."""
    weight = ballot.weight_class
    require(call, weight.tournament_id, Right.SEED)
    open_order(call, weight)
    gone = ballot.pk
    ballot.delete()
    return Deed(weight.tournament.log_id, "ballot.taken", {"weight": weight.pk, "ballot": gone})


def put_in_plan(tournament: Tournament, data: bytes, name: str) -> Plan:
    """What a file of ranks, places or ballots would do; nothing is done."""
    sheet = read_put_in(read_table(data, name), field_of(tournament, _reads(tournament)))
    changes = (*_changed_values(tournament, sheet), *_changed_ballots(tournament, sheet))
    return Plan(sheet, changes)


@act
def commit_put_in(*, call: Call, tournament: Tournament, data: bytes, name: str) -> Deed:
    """Carry a file of ranks, places or ballots out, all of it or nothing."""
    require(call, tournament.pk, Right.SEED)
    plan = put_in_plan(tournament, data, name)
    if plan.sheet.problems:
        raise Invalid(plan.sheet.problems)
    names = weight_names(tournament)
    weights = {names[row.pk]: row for row in tournament.weights.select_related("tournament")}
    touched = [weights[name] for name in sorted({change.weight for change in plan.changes})]
    for weight in touched:
        open_order(replace(call, expected=None), weight)
    wanted = _wanted(tournament, plan.sheet)
    rows = Entry.objects.filter(pk__in=wanted).select_related("weight_class")
    changed = _write(rows, wanted)
    ballots = [
        _write_ballot(weights[one.weight], one).pk for one in _new_ballots(tournament, plan.sheet)
    ]
    subject = {"weights": [row.pk for row in touched], "entry": changed, "ballot": ballots}
    return Deed(tournament.log_id, "ranks.taken-in", subject)


def _reads(tournament: Tournament) -> Mapping[int, Sequence[Input]]:
    rows = tournament.weights.select_related("division")
    return {row.pk: rules_of(row.division).inputs for row in rows}


def _entries(tournament: Tournament) -> Mapping[str, Entry]:
    rows = Entry.objects.filter(tournament=tournament).select_related("wrestler", "weight_class")
    return {row.key: row for row in rows}


def _wanted(tournament: Tournament, sheet: PutIn) -> Wanted:
    """The tables that the file speaks of as they would be, by entry."""
    entries = _entries(tournament)
    touched = {one.entry for one in sheet.said}
    known: Values = values_of(entries[key] for key in touched)
    wanted: dict[int, dict[Table, dict[str, int]]] = {}
    for one in sheet.said:
        row = entries[one.entry]
        tables = wanted.setdefault(row.pk, {})
        before = known[row.pk].get(one.table, {})
        tables.setdefault(one.table, dict(before))[_at(one, row)] = one.value
    return wanted


def _at(one: Said, row: Entry) -> str:
    """The weight at which a place was won, empty for the entry's own."""
    return "" if one.weight == row.weight_class.label else one.weight


def _changed_values(tournament: Tournament, sheet: PutIn) -> Iterable[Change]:
    entries, names = _entries(tournament), weight_names(tournament)
    known = values_of(entries[key] for key in {one.entry for one in sheet.said})
    for one in sheet.said:
        row = entries[one.entry]
        at = _at(one, row)
        before = known[row.pk].get(one.table, {}).get(at)
        if before != one.value:
            what = f"{one.table.name}, at {at}" if at else one.table.name
            told = [_written(one.table, value) for value in (before, one.value)]
            yield Change(names[row.weight_class_id], row.wrestler.name, what, told[0], told[1])


def _written(table: Table, value: int | None) -> str:
    if value == 0 and table.kind is InputKind.PLACES:
        return "took part"
    return "" if value is None else str(value)


def _new_ballots(tournament: Tournament, sheet: PutIn) -> list[Voted]:
    """The ballots of the file that are not known just so."""
    keys = {row.pk: key for key, row in _entries(tournament).items()}
    names = weight_names(tournament)
    rows = Ballot.objects.filter(weight_class__tournament=tournament)
    held = {
        (names[row.weight_class_id], folded(row.voter)): voted(row, keys)
        for row in rows.select_related("team", "weight_class").prefetch_related("ranks")
    }
    return [
        one for one in sheet.ballots if not _same(one, held.get((one.weight, folded(one.voter))))
    ]


def _same(one: Voted, other: Voted | None) -> bool:
    return other is not None and (one.team, dict(one.ranks)) == (other.team, dict(other.ranks))


def _changed_ballots(tournament: Tournament, sheet: PutIn) -> Iterable[Change]:
    entries = _entries(tournament)
    for one in _new_ballots(tournament, sheet):
        order = sorted(one.ranks.items(), key=lambda pair: pair[1])
        names = ", ".join(f"{rank} {entries[key].wrestler.name}" for key, rank in order)
        yield Change(one.weight, one.voter, "ballot", "", names)
