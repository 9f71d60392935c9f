"""Reads of what no bout tells: rankings, places at earlier events, ballots."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from seeding.core.criteria import Input, InputKind
from seeding.core.put_in import Entered, Field, Table, Voted
from seeding.core.season import Ballot as Cast
from seeding.core.season import Placing
from seeding.entries.core.spelling import folded
from seeding.entries.models import Entry, Team, Tournament, WeightClass
from seeding.models import Ballot, Noted

COACHES = Table(InputKind.RANKING, "coaches")
QUALIFYING = Table(InputKind.PLACES, "qualifying event")
"""The two tables that entries themselves hold: their rank and their qualifying place."""

Values = Mapping[int, Mapping[Table, Mapping[str, int]]]
"""By entry's primary key and table: the value at each weight, "" being the entry's own."""


@dataclass(frozen=True, slots=True)
class Told:
    """What is put in for a weight, as the season knows it; wrestlers by opaque id."""

    rankings: Mapping[str, Mapping[str, int]]
    placings: tuple[Placing, ...]
    ballots: tuple[Cast, ...]


def told(weight: WeightClass, entries: Sequence[Entry], inputs: Iterable[Input]) -> Told:
    """The tables of the weight's list, filled with what is put in for these entries."""
    wanted = tables_of(inputs)
    values = values_of(entries)
    rankings = {
        table.name: {
            row.wrestler.uid: values[row.pk][table][""]
            for row in entries
            if table in values[row.pk]
        }
        for table in wanted
        if table.kind is InputKind.RANKING
    }
    placings = tuple(
        Placing(table.name, row.wrestler.uid, place, at or weight.label)
        for table in wanted
        if table.kind is InputKind.PLACES
        for row in entries
        for at, place in values[row.pk].get(table, {}).items()
    )
    return Told(rankings, placings, _cast(weight, entries))


def tables_of(inputs: Iterable[Input]) -> tuple[Table, ...]:
    """The rankings and tables of places among the inputs of a list."""
    return tuple(
        Table(need.kind, need.name) for need in inputs if need.kind is not InputKind.BALLOTS
    )


def values_of(entries: Iterable[Entry]) -> Values:
    """Every rank and place of the entries; what is noted goes before what the entry holds."""
    found: dict[int, dict[Table, dict[str, int]]] = {}
    for row in entries:
        own = found.setdefault(row.pk, {})
        for table, value in ((COACHES, row.rank), (QUALIFYING, row.qualifying_place)):
            if value:
                own[table] = {"": value}
    for noted in Noted.objects.filter(entry__in=found):
        table = Table(InputKind(noted.kind), noted.table)
        found[noted.entry_id].setdefault(table, {})[noted.weight] = noted.value
    return found


def _cast(weight: WeightClass, entries: Sequence[Entry]) -> tuple[Cast, ...]:
    uids = {row.pk: row.wrestler.uid for row in entries}
    return tuple(
        Cast(
            voter=row.voter,
            ranks={uids[one.entry_id]: one.rank for one in row.ranks.all() if one.entry_id in uids},
            own=frozenset(
                one.wrestler.uid for one in entries if row.team_id and one.team_id == row.team_id
            ),
        )
        for row in ballots_of(weight)
    )


def ballots_of(weight: WeightClass) -> list[Ballot]:
    """The ballots of a weight by voter, each with its ranks."""
    rows = Ballot.objects.filter(weight_class=weight).select_related("team")
    return list(rows.prefetch_related("ranks"))


def voted(row: Ballot, keys: Mapping[int, str]) -> Voted:
    """A ballot as the core knows it; `keys` of the entries by primary key."""
    ranks = {keys[one.entry_id]: one.rank for one in row.ranks.all() if one.entry_id in keys}
    team = row.team.key if row.team else ""
    return Voted(row.weight_class.label, row.voter, team, ranks)


def field_of(tournament: Tournament, reads: Mapping[int, Iterable[Input]]) -> Field:
    """The tournament as a file finds it; `reads`: the inputs of each weight's list."""
    weights, names = list(tournament.weights.all()), weight_names(tournament)
    rows = Entry.objects.filter(tournament=tournament, status=Entry.Status.ENTERED)
    return Field(
        weights=tuple(names[row.pk] for row in weights),
        drawn=frozenset(names[row.pk] for row in weights if row.locked),
        entries=tuple(
            _entered(row, names[row.weight_class_id])
            for row in rows.select_related("wrestler", "team")
        ),
        reads={names[row.pk]: tables_of(reads[row.pk]) for row in weights},
        teams={name: row.key for row in tournament.teams.all() for name in _names(row)},
    )


def weight_names(tournament: Tournament) -> Mapping[int, str]:
    """How a file calls each weight: by its label, after its division where two have the same."""
    rows = list(tournament.weights.select_related("division"))
    often = Counter(row.label for row in rows)
    return {
        row.pk: f"{row.division.name} {row.label}" if often[row.label] > 1 else row.label
        for row in rows
    }


def _entered(row: Entry, weight: str) -> Entered:
    return Entered(
        key=row.key,
        weight=weight,
        given=row.wrestler.given,
        family=row.wrestler.family,
        team=row.team.name,
        teams=frozenset(_names(row.team)),
    )


def _names(team: Team) -> set[str]:
    return {folded(word) for word in (team.name, team.short, *team.members) if word}


def entered_at(weight: WeightClass) -> list[Entry]:
    """The entries of a weight that are in the field."""
    rows = Entry.objects.filter(weight_class=weight, status=Entry.Status.ENTERED)
    return list(rows.select_related("wrestler", "team", "weight_class").order_by("pk"))
