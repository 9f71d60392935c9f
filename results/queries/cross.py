"""Cross tables: who of a pool has met whom, and how he stands in it."""

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from brackets.core.graph import Format, Pool, Ranked
from results.queries.people import Person
from results.queries.seen import Seen, Side
from results.queries.sheets import Sheet

Met = tuple[Seen, Side]
ALL_POOL = (Format.ROUND_ROBIN, Format.BEST_OF_THREE)


@dataclass(frozen=True, slots=True)
class Between:
    """A bout of two as one of them sees it."""

    bout: Seen
    won: bool


@dataclass(frozen=True, slots=True)
class Cell:
    """What a wrestler of a pool has to do with another: their bouts; none with himself."""

    against: str
    bouts: tuple[Between, ...]


@dataclass(frozen=True, slots=True)
class Member:
    """A wrestler of a pool. `place`: in the weight, or where the pool is one of two his rank in it,
    as far as it is told."""

    person: Person | None
    line: int
    cells: tuple[Cell, ...]
    place: int | None

    @property
    def won(self) -> int:
        return sum(one.won for cell in self.cells for one in cell.bouts)

    @property
    def wrestled(self) -> int:
        return sum(one.bout.decided for cell in self.cells for one in cell.bouts)


@dataclass(frozen=True, slots=True)
class Cross:
    """The cross table of a pool, in the order of its lines; `letter` where it is one of two."""

    letter: str
    members: tuple[Member, ...]
    best_of_three: bool


def crosses(sheet: Sheet) -> tuple[Cross, ...]:
    """The cross tables of a weight that has pools."""
    pools = sheet.bracket.pools
    return tuple(_cross(sheet, at, pool) for at, pool in enumerate(pools))


def _cross(sheet: Sheet, at: int, pool: Pool) -> Cross:
    met: dict[tuple[int, int], list[Met]] = defaultdict(list)
    seats: dict[int, Person | None] = {}
    for key in pool.bouts:
        bout = sheet.bouts[key]
        for mine, theirs in (bout.sides, bout.sides[::-1]):
            met[mine.line or 0, theirs.line or 0].append((bout, mine))
            seats[mine.line or 0] = mine.person
    two = len(sheet.bracket.pools) > 1
    places = (
        _ranks(sheet, at, seats.values())
        if two
        else {who.entry: place for place, who in sheet.places}
    )
    members = (
        Member(who, line, _cells(met, seats, line), places.get(who.entry) if who else None)
        for line, who in sorted(seats.items())
    )
    three = sheet.bracket.format is Format.BEST_OF_THREE
    return Cross("AB"[at] if two else "", tuple(members), three)


def _cells(
    met: Mapping[tuple[int, int], list[Met]], seats: Mapping[int, Person | None], line: int
) -> tuple[Cell, ...]:
    return tuple(
        Cell(
            against.name if against else str(other),
            tuple(Between(bout, side.won) for bout, side in met.get((line, other), ())),
        )
        for other, against in sorted(seats.items())
    )


def _ranks(sheet: Sheet, at: int, members: Collection[Person | None]) -> dict[int, int]:
    """Ranks in a finished pool, read from the bouts that they lead to; who is left is the last."""
    found = {
        side.person.entry: side.came.rank
        for bout in sheet.bouts.values()
        for side in bout.sides
        if isinstance(side.came, Ranked) and side.came.pool == at and side.person
    }
    left = {one.entry for one in members if one} - set(found)
    if found and len(left) == 1 and len(members) == len(found) + 1:
        found[left.pop()] = len(members)
    return found
