"""Team points as the public may see them: the table of each division and what is behind it."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from results.core.points import Item, Part, Scorer, TeamLine, table
from results.models import Adjustment, LedgerPart
from results.queries.gates import Gates
from results.queries.people import People, Person
from seeding.entries.models import Division, Entry, Team, Tournament


@dataclass(frozen=True, slots=True)
class Earned:
    """A part of a total: for what, and the bout or place that gave it."""

    item: Item
    points: Decimal
    number: int | None
    round: str
    place: int | None
    reason: str


@dataclass(frozen=True, slots=True)
class Earner:
    """A wrestler with everything that he earned, in the order of his way."""

    person: Person
    parts: tuple[Earned, ...]

    @property
    def total(self) -> Decimal:
        return sum((part.points for part in self.parts), Decimal(0))


@dataclass(frozen=True, slots=True)
class Standing:
    """A team in a division; `earners` is empty where points may not be told bout by bout."""

    team: Team
    line: TeamLine
    earners: tuple[Earner, ...]
    adjusted: tuple[Adjustment, ...]


@dataclass(frozen=True, slots=True)
class Race:
    """The teams of a division from most points to fewest."""

    division: Division
    teams: tuple[Standing, ...]

    @property
    def most(self) -> Decimal:
        """The length of the longest bar."""
        reach = (one.line.total + max(-one.line.adjustments, Decimal(0)) for one in self.teams)
        return max(reach, default=Decimal(0))


@dataclass(frozen=True, slots=True)
class _Row:
    division: int
    team: int
    entry: int
    part: Earned


def races(tournament: Tournament, gates: Gates, people: People) -> list[Race]:
    """The race of every division; five queries whatever their number."""
    if not gates.points:
        return []
    rows, adjusted = _rows(tournament), _adjusted(tournament)
    teams = _teams(tournament, adjusted)
    return [
        Race(division, tuple(_standings(division, rows, adjusted, teams, people, gates)))
        for division in Division.objects.filter(tournament=tournament)
    ]


def _rows(tournament: Tournament) -> list[_Row]:
    found = LedgerPart.objects.filter(weight_class__tournament=tournament).order_by("pk")
    return [
        _Row(division, team, entry, Earned(Item(item), points, number, code or "", place, reason))
        for division, team, entry, item, points, number, code, place, reason in found.values_list(
            "weight_class__division_id",
            "entry__team_id",
            "entry_id",
            "item",
            "points",
            "bout__number",
            "bout__round",
            "place",
            "reason",
        )
    ]


def _adjusted(tournament: Tournament) -> list[Adjustment]:
    return list(Adjustment.objects.filter(division__tournament=tournament))


def _teams(tournament: Tournament, adjusted: Iterable[Adjustment]) -> dict[int, list[Team]]:
    """The teams entered or adjusted, by division, in the order of their names."""
    known = {team.pk: team for team in Team.objects.filter(tournament=tournament)}
    pairs = Entry.objects.filter(tournament=tournament).order_by()
    entered = pairs.values_list("weight_class__division_id", "team_id").distinct()
    found: dict[int, list[Team]] = defaultdict(list)
    for division, team in {*entered, *((row.division_id, row.team_id) for row in adjusted)}:
        found[division].append(known[team])
    return {pk: sorted(teams, key=lambda team: team.name) for pk, teams in found.items()}


def _standings(
    division: Division,
    rows: Iterable[_Row],
    adjusted: Iterable[Adjustment],
    teams: Mapping[int, list[Team]],
    people: People,
    gates: Gates,
) -> Iterator[Standing]:
    here = [row for row in rows if row.division == division.pk]
    given = [row for row in adjusted if row.division_id == division.pk]
    field = {str(team.pk): team for team in teams.get(division.pk, [])}
    sums: dict[str, Decimal] = defaultdict(Decimal)
    for one in given:
        sums[str(one.team_id)] += one.points
    scorers = {str(row.entry): Scorer(str(row.team), scoring=True) for row in here}
    parts = (
        Part(str(row.entry), row.part.item, row.part.points, None, None, "sum") for row in here
    )
    for line in table(parts, scorers, sums, list(field)):
        team = field[line.team]
        told = [row for row in here if row.team == team.pk] if gates.explained else []
        yield Standing(
            team=team,
            line=line,
            earners=tuple(_earners(told, people)),
            adjusted=tuple(one for one in given if one.team_id == team.pk),
        )


def _earners(rows: Iterable[_Row], people: People) -> Iterator[Earner]:
    by_entry: dict[int, list[Earned]] = defaultdict(list)
    for row in rows:
        by_entry[row.entry].append(row.part)
    for entry in people.by_pk:
        if entry in by_entry:
            yield Earner(people.by_pk[entry], tuple(by_entry[entry]))


def earned(entries: Iterable[int], gates: Gates) -> dict[int, tuple[Earned, ...]]:
    """What each of some entries has earned; nothing where it may not be told."""
    if not gates.explained:
        return {}
    found: dict[int, list[Earned]] = defaultdict(list)
    rows = LedgerPart.objects.filter(entry__in=list(entries)).select_related("bout")
    for row in rows.order_by("pk"):
        number, code = (row.bout.number, row.bout.round) if row.bout else (None, "")
        part = Earned(Item(row.item), row.points, number, code, row.place, row.reason)
        found[row.entry_id].append(part)
    return {entry: tuple(parts) for entry, parts in found.items()}
