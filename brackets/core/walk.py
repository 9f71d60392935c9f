"""The pass through a bracket: who stands in which bout, and where it leads him."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from brackets.core.drops import Drops
from brackets.core.errors import BoutNotReady
from brackets.core.graph import Bracket
from brackets.core.known import Known, Need
from brackets.core.rules import DoubleLoss
from brackets.core.rulings import Given, Rulings
from brackets.core.sources import BoutKey
from brackets.core.standing import (
    BoutState,
    Leavers,
    Occupant,
    Sides,
    Status,
    Vacancy,
    Verdict,
)
from brackets.core.wiring import Wiring, starters

OPEN, EMPTY = Vacancy.OPEN, Vacancy.EMPTY
Order = Sequence[Sequence[str]]

_WHY = {
    Status.WAITING: "its wrestlers are not known yet; enter the bouts before it first",
    Status.BYE: "it is a bye",
    Status.VACANT: "nobody comes to it",
    Status.SPARED: "it is not needed",
}


@dataclass(frozen=True, slots=True)
class Walk:
    """What the pass found: the state of every bout, the occupant of every value (see `Wiring`).

    `stopped`: entry and bout index of everyone whose way ended, or waits to go on, in a bout that
    nobody won, in running order. `inherits`: bout index to the value of the loser's line that its
    bottom side takes when nobody wins it. `ended`: entry to the value at which a ruling ends his
    way. `ruled`: the values whose occupants are ruled.
    """

    states: tuple[BoutState, ...]
    values: tuple[Occupant, ...]
    stopped: tuple[tuple[str, int], ...]
    inherits: Mapping[int, int]
    ended: Mapping[str, int]
    ruled: frozenset[int]


def walk(
    bracket: Bracket,
    verdicts: Mapping[BoutKey, Verdict],
    double_loss: DoubleLoss,
    out: Leavers,
    order: Order | None = None,
    rulings: Rulings = (),
) -> Walk:
    """Pass over the bouts in running order; refuses a verdict for a bout that is not ready.

    `order` ranks finished pools; see `progress.play`. Rulings go before the format: whom they
    name is where they put him, whatever led him there. Who comes to both sides of a bout has a bye.
    """
    wiring, given = bracket.wiring, Given(bracket, rulings)
    absent = _Absent(bracket, out)
    drops = Drops(bracket, double_loss, given.seats, absent.of)
    states: list[BoutState] = []
    values = _begun(bracket)
    known = Known(bracket, states, values, order, given.seats)
    for i, (key, fed) in enumerate(zip(wiring.keys, wiring.inputs, strict=True)):
        known.look_up(fed)
        given.put(values, fed)
        sides = _once(values[fed[0]], values[fed[1]])
        need = Need.YES if key in given.needed else known.need(i, sides, told=key in verdicts)
        state = _ruled(_settle(key, sides, absent.of(i, sides), need), given)
        drawn = known.drawn(i)
        if not state.ruled and (key in verdicts or state.status is Status.BYE):
            state = _told(state, verdicts.get(key), drawn=drawn)
        states.append(state)
        values[2 * i], values[2 * i + 1] = _ways_on(states, drops)
        given.put(values, (2 * i, 2 * i + 1))
    known.look_up(one for one in range(wiring.first_special, len(values)) if wiring.onward[one] < 0)
    lasts = last_bouts(wiring, states)
    stopped = (one for one in drops.stopped(states) if lasts[one[0]] <= one[1])
    return Walk(
        states=tuple(states),
        values=tuple(values),
        stopped=tuple(one for one in stopped if one[0] not in given.ended),
        inherits=drops.inherits,
        ended=given.ended,
        ruled=frozenset(given.seats),
    )


def _begun(bracket: Bracket) -> list[Occupant]:
    """The occupants of all values before the first bout: those of the lines are known."""
    lines = [EMPTY if one is None else one for one in starters(bracket.lines)]
    ways, specials = 2 * len(bracket.wiring.keys), len(bracket.wiring.specials)
    return [*[OPEN] * ways, *lines, *[OPEN] * specials]


def _once(top: Occupant, bottom: Occupant) -> Sides:
    """The two sides; whom rulings bring to both is on the top one."""
    return (top, EMPTY) if top == bottom and isinstance(top, str) else (top, bottom)


def last_bouts(wiring: Wiring, states: Sequence[BoutState]) -> dict[Occupant, int]:
    """The last bout outside pools in which each entry stands, by its index."""
    return {side: i for i, state in enumerate(states) if not wiring.pool[i] for side in state.sides}


def _ways_on(states: Sequence[BoutState], drops: Drops) -> Sides:
    """Who goes on as the winner and as the loser of the last of these bouts as it stands."""
    i, state = len(states) - 1, states[-1]
    if state.winner is not None and state.loser is not None:
        return state.winner, state.loser
    if state.status is Status.SPARED:
        return state.sides
    if state.status is Status.DECIDED:
        return EMPTY, drops.fall(i, state)
    if EMPTY not in state.sides:
        return OPEN, OPEN
    nobody = EMPTY if state.status is Status.VACANT else OPEN
    return state.winner or nobody, drops.heir(i, states)


class _Absent:
    """Who may miss a bout: from which bout on each leaver does, in a pool every bout.

    Who left in a bout behind the pools has missed none of theirs. Of two who left one pool, the
    one who had their bout behind him has not missed it: it was forfeited to him.
    """

    def __init__(self, bracket: Bracket, out: Leavers) -> None:
        index = bracket.wiring.index
        self.pool = bracket.wiring.pool
        self.pools_end = sum(self.pool)
        self.since: dict[Occupant, int] = dict.fromkeys(out, 0)
        if isinstance(out, Mapping):
            self.since |= {
                entry: 0 if last is None else index[last] + 1 for entry, last in out.items()
            }

    def of(self, i: int, sides: Sides) -> tuple[bool, bool]:
        """Of either side of bout i whether he is out."""
        missed = self._before(i, sides)
        if not self.pool[i]:
            return missed
        gone = self._before(self.pools_end, sides)
        return missed if any(missed) else gone

    def _before(self, i: int, sides: Sides) -> tuple[bool, bool]:
        return self.since.get(sides[0], i + 1) <= i, self.since.get(sides[1], i + 1) <= i


def _settle(key: BoutKey, sides: Sides, gone: tuple[bool, bool], need: Need) -> BoutState:
    """The state of a bout without a verdict."""
    top, bottom = sides
    if top is EMPTY and bottom is EMPTY:
        return BoutState(key, sides, Status.VACANT)
    if OPEN in sides or need is Need.OPEN:
        return BoutState(key, sides, Status.WAITING)
    if need is Need.NO:
        return BoutState(key, sides, Status.SPARED)
    if isinstance(top, str) and isinstance(bottom, str):
        if not any(gone):
            return BoutState(key, sides, Status.READY)
        return _decided(key, (top, bottom), None if all(gone) else int(gone[0]), implied=True)
    return BoutState(key, sides, Status.BYE, winner=top if isinstance(top, str) else str(bottom))


def _told(state: BoutState, verdict: Verdict | None, *, drawn: bool) -> BoutState:
    """The state with its verdict, or a bye with the reason for it."""
    top, bottom = state.sides
    if verdict is None:
        return BoutState(state.key, state.sides, state.status, winner=state.winner, drawn=drawn)
    if not state.takes_result or not isinstance(top, str) or not isinstance(bottom, str):
        raise BoutNotReady(where=str(state.key), bout=state.key, why=_WHY[state.status])
    return _decided(state.key, (top, bottom), verdict.winner, implied=False)


def _ruled(state: BoutState, given: Given) -> BoutState:
    """The state by a ruling on its result, where one is in force."""
    top, bottom = state.sides
    ruled = given.verdict(state.key, state.sides)
    if ruled is None or not isinstance(top, str) or not isinstance(bottom, str):
        return state
    found = _decided(state.key, (top, bottom), ruled.winner, implied=False)
    return replace(found, ruled=True)


def _decided(
    key: BoutKey, sides: tuple[str, str], winner: int | None, *, implied: bool
) -> BoutState:
    if winner is None:
        return BoutState(key, sides, Status.DECIDED, implied=implied)
    won, lost = sides[winner], sides[1 - winner]
    return BoutState(key, sides, Status.DECIDED, won, lost, implied=implied)
