"""Rulings: what people decide against the format; taken as given wherever they can apply.

* Seats: who takes a side of a bout, whoever the format brings; and where a way leads to no further
  bout, who is taken for the one who ends there.
* A result: which side goes on as the winner of a bout, wrestled or not; in force while the two
  named stand in it on those sides.
* A place: who has it, or that he has none.

Of two rulings on one seat, bout or wrestler the later counts. Source: ours; rule books leave such
decisions to the committee and do not say how a bracket takes them.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, MutableSequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from brackets.core.graph import Bracket
from brackets.core.sources import BoutKey, Exit, From, Seat, Section
from brackets.core.standing import (
    AHEAD,
    BoutState,
    Occupant,
    Sides,
    Standing,
    Status,
    Vacancy,
    Verdict,
)
from brackets.core.wiring import NOWHERE

Way = Seat | From


class RulingKind(StrEnum):
    """What a ruling sets."""

    SIDES = "sides"
    RESULT = "result"
    ADVANCEMENT = "advancement"
    PLACE = "place"


@dataclass(frozen=True, slots=True)
class Seating:
    """Who takes a side of a bout, or ends as its winner or loser; None: nobody."""

    way: Way
    entry: str | None


@dataclass(frozen=True, slots=True)
class SeatRuling:
    """Who takes which seats, for the sake of `bout`.

    `whole`: both sides of it are ruled, so that it is wrestled also where the format does not
    need it. The other seats are those of exchanges.
    """

    bout: BoutKey
    ways: tuple[Seating, ...]
    whole: bool

    @property
    def kind(self) -> RulingKind:
        return RulingKind.SIDES if self.whole else RulingKind.ADVANCEMENT


@dataclass(frozen=True, slots=True)
class ResultRuling:
    """Which side of a bout between these two goes on as its winner; None: nobody does."""

    bout: BoutKey
    sides: tuple[str, str]
    winner: Literal[0, 1] | None

    @property
    def kind(self) -> RulingKind:
        return RulingKind.RESULT


@dataclass(frozen=True, slots=True)
class PlaceRuling:
    """Entry to place, None for no place; `shared`: others may have the same one."""

    places: Mapping[str, int | None]
    shared: bool

    @property
    def kind(self) -> RulingKind:
        return RulingKind.PLACE


Ruling = SeatRuling | ResultRuling | PlaceRuling
Rulings = tuple[Ruling, ...]


class Given:
    """Rulings as a pass over a bracket takes them; `seats` by the counting of `Wiring`.

    `ended`: entry to the exit with a place that is his by a ruling. What is ruled of bouts that
    the bracket does not have is left out.
    """

    def __init__(self, bracket: Bracket, rulings: Rulings) -> None:
        self.seats: dict[int, Occupant] = {}
        self.needed: set[BoutKey] = set()
        self.results: dict[BoutKey, ResultRuling] = {}
        for one in rulings:
            if isinstance(one, ResultRuling):
                self.results[one.bout] = one
            elif isinstance(one, SeatRuling):
                self.seats |= dict(_by_value(bracket, one))
                self.needed |= {one.bout} if one.whole else set()
        self.ended = dict(self._ended(bracket, rulings))

    def _ended(self, bracket: Bracket, rulings: Rulings) -> Iterator[tuple[str, int]]:
        wiring = bracket.wiring
        for one in rulings:
            for value, entry in _by_value(bracket, one) if isinstance(one, SeatRuling) else ():
                ends = wiring.onward[value] < 0 and wiring.ends[value] < NOWHERE
                if ends and isinstance(entry, str) and self.seats[value] == entry:
                    yield entry, value

    def put(self, values: MutableSequence[Occupant], at: Iterable[int]) -> None:
        """Put in who is ruled to be there."""
        for value in at:
            if value in self.seats:
                values[value] = self.seats[value]

    def verdict(self, key: BoutKey, sides: Sides) -> Verdict | None:
        """The ruled result of a bout between these two, if there is one."""
        found = self.results.get(key)
        return Verdict(found.winner) if found and found.sides == sides else None


def _by_value(bracket: Bracket, ruling: SeatRuling) -> Iterator[tuple[int, Occupant]]:
    wiring = bracket.wiring
    for one in ruling.ways:
        at = wiring.index.get(one.way.bout)
        if at is None or wiring.pool[at]:
            continue
        if isinstance(one.way, Seat):
            value = wiring.inputs[at][one.way.slot]
        else:
            value = 2 * at + (one.way.exit is Exit.LOSER)
        yield value, Vacancy.EMPTY if one.entry is None else one.entry


def ruled_places(rulings: Rulings) -> dict[str, int | None]:
    """Every ruled place."""
    found: dict[str, int | None] = {}
    for one in rulings:
        if isinstance(one, PlaceRuling):
            found |= one.places
    return found


def placed(
    final: Mapping[int, tuple[str, ...]], ruled: Mapping[str, int | None]
) -> dict[int, tuple[str, ...]]:
    """The final places with the ruled ones put in: whoever is ruled is nowhere else."""
    kept = {place: [one for one in group if one not in ruled] for place, group in final.items()}
    for entry, place in ruled.items():
        if place is not None:
            kept.setdefault(place, []).append(entry)
    return {place: tuple(kept[place]) for place in sorted(kept) if kept[place]}


def taking(
    bracket: Bracket,
    standing: Standing,
    way: Seat,
    entry: str | None,
    fixed: Collection[BoutKey] = (),
) -> tuple[Seating, ...]:
    """What has to be ruled so that an entry, or nobody, takes a seat.

    Where he has another seat, or an end, he leaves it to the one whom the format brings to the
    new one: the two change places. Who waits for the man who beat him waits no more. Nothing where
    he sits there already. Seats of `fixed` bouts are not left.
    """
    there = standing.bouts[way.bout].sides[way.slot]
    if there == (Vacancy.EMPTY if entry is None else entry):
        return ()
    if entry is None:
        return (Seating(way, None),)
    own = stands(bracket, standing, entry)
    held = isinstance(own, Seat) and own.bout in fixed
    back = bracket.chance(own.bout) if isinstance(own, From) and own.exit is Exit.LOSER else None
    waits = back not in (None, way)
    if own is None or own == way or held or (there is Vacancy.OPEN and not waits):
        return (Seating(way, entry),)
    other = there if isinstance(there, str) else None
    return Seating(way, entry), Seating(own, other)


def seats(
    bracket: Bracket,
    played: Callable[[SeatRuling], Standing],
    bout: BoutKey,
    sides: tuple[str | None, str | None],
    fixed: Collection[BoutKey] = (),
) -> SeatRuling:
    """What has to be ruled so that these two stand in a bout; None: nobody does.

    Each takes his seat in turn; `played` is the standing under the ruling so far; `fixed` as in
    `taking`.
    """
    ruling = SeatRuling(bout, (), whole=True)
    for slot, entry in enumerate(sides):
        found = taking(bracket, played(ruling), Seat(bout, slot), entry, fixed)
        ruling = SeatRuling(bout, (*ruling.ways, *found), whole=True)
    return ruling


def stands(bracket: Bracket, standing: Standing, entry: str) -> Way | None:
    """Where an entry's way has led him: the open bout that he is in, or the exit where it ends."""
    last = _last(bracket, standing, entry)
    if last is None:
        return None
    if last.status in AHEAD:
        return Seat(last.key, last.sides.index(entry))
    if entry not in (last.winner, last.loser):
        return None
    way = Exit.WINNER if entry == last.winner else Exit.LOSER
    return None if bracket.onward(last.key, way) else From(last.key, way)


def _last(bracket: Bracket, standing: Standing, entry: str) -> BoutState | None:
    way = [
        state
        for state in standing.bouts.values()
        if entry in state.sides and bracket.round_of(state.key).section is not Section.POOL
    ]
    return way[-1] if way else None


def adrift(bracket: Bracket, standing: Standing) -> tuple[str, ...]:
    """Who has nowhere to go because a ruling put another where his way leads."""
    found = []
    for entry in bracket.entries():
        last = _last(bracket, standing, entry)
        if last is None or entry not in (last.winner, last.loser) or entry in standing.ruled:
            continue
        way = Exit.WINNER if entry == last.winner else Exit.LOSER
        if bracket.onward(last.key, way):
            found.append(entry)
    return tuple(found)


def out_of_turn(bracket: Bracket, standing: Standing) -> dict[str, tuple[BoutKey, BoutKey]]:
    """Who stands in an open bout and has wrestled one of a later round, pools apart: both bouts.

    He could not leave the weight without losing what he has wrestled.
    """
    found: dict[str, tuple[BoutKey, BoutKey]] = {}
    ahead: dict[Occupant, BoutKey] = {}
    for key, state in standing.bouts.items():
        here = bracket.round_of(key)
        if here.section is Section.POOL:
            continue
        if state.status in AHEAD:
            ahead = dict.fromkeys(state.sides, key) | ahead
        elif state.status is Status.DECIDED and not (state.implied or state.ruled):
            for side in (one for one in state.sides if isinstance(one, str) and one in ahead):
                if bracket.round_of(ahead[side]).column < here.column:
                    found.setdefault(side, (ahead[side], key))
    return found


def in_two(bracket: Bracket, standing: Standing) -> dict[str, tuple[BoutKey, ...]]:
    """Who stands in two open bouts at once, and in which; in a pool that is as it should be."""
    found: dict[str, list[BoutKey]] = {}
    outside: set[str] = set()
    for state in standing.bouts.values():
        if state.status not in AHEAD:
            continue
        sides = [side for side in state.sides if isinstance(side, str)]
        if bracket.round_of(state.key).section is not Section.POOL:
            outside |= set(sides)
        for side in sides:
            found.setdefault(side, []).append(state.key)
    return {one: tuple(keys) for one, keys in found.items() if one in outside and len(keys) > 1}


def placed_twice(standing: Standing, rulings: Rulings) -> dict[int, tuple[str, ...]]:
    """The places that somebody has by a ruling and others have too, where it is not shared."""
    alone = {
        entry
        for one in rulings
        if isinstance(one, PlaceRuling) and not one.shared
        for entry in one.places
    }
    return {
        place: group
        for place, group in standing.places.items()
        if len(group) > 1 and alone.intersection(group)
    }
