"""The pass through a bracket: who stands in which bout, and where it leads him."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from brackets.core.assembly import starters
from brackets.core.errors import BoutNotReady
from brackets.core.graph import BoutKey, Bracket, Format
from brackets.core.rules import DoubleLoss
from brackets.core.standing import (
    BoutState,
    Leavers,
    Occupant,
    Sides,
    Status,
    Vacancy,
    Verdict,
)

OPEN, EMPTY = Vacancy.OPEN, Vacancy.EMPTY

_WHY = {
    Status.WAITING: "its wrestlers are not known yet; enter the bouts before it first",
    Status.BYE: "it is a bye",
    Status.VACANT: "nobody comes to it",
}


@dataclass(frozen=True, slots=True)
class Walk:
    """What the pass found: the state of every bout, the occupant of every value (see `Wiring`).

    `stopped`: entry and bout index of everyone whose way ended, or waits to go on, in a bout that
    nobody won, in running order. `inherits`: bout index to the value of the loser's line that its
    bottom side takes when nobody wins it.
    """

    states: tuple[BoutState, ...]
    values: tuple[Occupant, ...]
    stopped: tuple[tuple[str, int], ...]
    inherits: Mapping[int, int]


def walk(
    bracket: Bracket,
    verdicts: Mapping[BoutKey, Verdict],
    double_loss: DoubleLoss,
    out: Leavers,
) -> Walk:
    """Pass over the bouts in running order; refuses a verdict for a bout that is not ready."""
    wiring = bracket.wiring
    since = _since(bracket, out)
    drops = _Drops(bracket, double_loss)
    states: list[BoutState] = []
    values: list[Occupant] = [OPEN] * (2 * len(wiring.keys))
    values += [EMPTY if one is None else one for one in starters(bracket.lines)]
    for i, (key, (top, bottom)) in enumerate(zip(wiring.keys, wiring.inputs, strict=True)):
        sides = values[top], values[bottom]
        gone = (since.get(sides[0], i + 1) <= i, since.get(sides[1], i + 1) <= i)
        state = _settle(key, sides, verdicts.get(key), gone, drawn=key in bracket.byes)
        states.append(state)
        if state.winner is not None and state.loser is not None:
            values[2 * i], values[2 * i + 1] = state.winner, state.loser
        elif state.status is Status.DECIDED:
            values[2 * i] = EMPTY
            values[2 * i + 1] = drops.fall(i, state)
        elif EMPTY in sides:
            values[2 * i] = state.winner or (EMPTY if state.status is Status.VACANT else OPEN)
            values[2 * i + 1] = drops.heir(i, sides)
    stopped = tuple(drops.stopped(states, values))
    return Walk(tuple(states), tuple(values), stopped, drops.inherits)


def _since(bracket: Bracket, out: Leavers) -> dict[Occupant, int]:
    """The first bout, by its index, that each leaver may miss."""
    if not isinstance(out, Mapping) or bracket.format is Format.ROUND_ROBIN:
        return dict.fromkeys(out, 0)
    index = bracket.wiring.index
    return {entry: 0 if last is None else index[last] + 1 for entry, last in out.items()}


def _settle(
    key: BoutKey, sides: Sides, verdict: Verdict | None, gone: tuple[bool, bool], *, drawn: bool
) -> BoutState:
    top, bottom = sides
    if isinstance(top, str) and isinstance(bottom, str):
        return _decide(key, (top, bottom), verdict, gone)
    if OPEN in sides:
        state = BoutState(key, sides, Status.WAITING)
    elif isinstance(top, str):
        state = BoutState(key, sides, Status.BYE, winner=top, drawn=drawn)
    elif isinstance(bottom, str):
        state = BoutState(key, sides, Status.BYE, winner=bottom, drawn=drawn)
    else:
        state = BoutState(key, sides, Status.VACANT)
    if verdict is not None:
        raise BoutNotReady(where=str(key), bout=key, why=_WHY[state.status])
    return state


def _decide(
    key: BoutKey, sides: tuple[str, str], verdict: Verdict | None, gone: tuple[bool, bool]
) -> BoutState:
    if verdict is not None:
        winner: int | None = verdict.winner
    elif any(gone):
        winner = None if all(gone) else int(gone[0])
    else:
        return BoutState(key, sides, Status.READY)
    if winner is None:
        return BoutState(key, sides, Status.DECIDED, implied=verdict is None)
    won, lost = sides[winner], sides[1 - winner]
    return BoutState(key, sides, Status.DECIDED, won, lost, implied=verdict is None)


class _Drops:
    """Where the two sides of a bout that nobody won go, by the rule book."""

    def __init__(self, bracket: Bracket, double_loss: DoubleLoss) -> None:
        self.onward = bracket.wiring.onward
        drop = double_loss is DoubleLoss.DROP
        self.dropping = set(_dropping(bracket)) if drop else set()
        self.inherits = {
            i: line for i in self.dropping if (line := self.onward[2 * i] | 1) // 2 in self.dropping
        }
        self.fallen: list[int] = []
        self.claims: dict[int, str] = {}

    def fall(self, i: int, state: BoutState) -> Occupant:
        """Note a bout without a winner; who takes its loser's line."""
        self.fallen.append(i)
        if state.implied or i not in self.dropping:
            return EMPTY
        if i in self.inherits:
            self.claims[self.onward[2 * i]] = str(state.sides[1])
        return state.sides[0]

    def heir(self, i: int, sides: Sides) -> Occupant:
        """Who takes the loser's line of a bout that has an empty side."""
        if i not in self.dropping:
            return EMPTY
        for slot in (0, 1):
            if (claim := self.claims.get(2 * i + slot)) is not None:
                return claim
            if sides[slot] is OPEN:
                return OPEN
        return EMPTY

    def stopped(self, states: list[BoutState], values: list[Occupant]) -> Iterator[tuple[str, int]]:
        """Everyone from a fallen bout who has nowhere to go, or does not know yet."""
        for i in self.fallen:
            heirs = values[2 * i + 1], values[self.inherits.get(i, 2 * i + 1)]
            for side in states[i].sides:
                if isinstance(side, str) and side not in heirs:
                    yield side, i


def _dropping(bracket: Bracket) -> Iterator[int]:
    """Bouts of the championship side whose loser's line leads on to another bout."""
    wiring = bracket.wiring
    for key in bracket.bouts:
        i = wiring.index[key]
        if wiring.championship[i] and wiring.onward[2 * i + 1] >= 0:
            yield i
