"""Where the two sides of a bout that nobody won go."""

from collections.abc import Callable, Iterator, Mapping, Sequence

from brackets.core.graph import Bracket
from brackets.core.rules import DoubleLoss
from brackets.core.standing import AHEAD, BoutState, Occupant, Sides, Vacancy

OPEN, EMPTY = Vacancy.OPEN, Vacancy.EMPTY


class Drops:
    """Where the two sides of a bout that nobody won go, by the rule book; see `progress`.

    `seats`: value to whom a ruling puts there. Where somebody has the seat to which the bout leads,
    its bottom side has no claim behind it. `gone`: of either side of a bout whether he is out.
    """

    def __init__(
        self,
        bracket: Bracket,
        double_loss: DoubleLoss,
        seats: Mapping[int, Occupant],
        gone: Callable[[int, Sides], tuple[bool, bool]],
    ) -> None:
        self.gone = gone
        self.onward, self.inputs = bracket.wiring.onward, bracket.wiring.inputs
        self.pool = bracket.wiring.pool
        drop = double_loss is DoubleLoss.DROP
        self.dropping = set(_dropping(bracket)) if drop else set()
        self.lines = {bracket.wiring.index[key] for key in bracket.bouts} & self.dropping
        self.inherits = {
            i: line
            for i in self.dropping
            if (line := self.onward[2 * i] | 1) // 2 in self.lines
            and not isinstance(seats.get(2 * i), str)
        }
        self.fallen: list[int] = []
        self.claims: set[int] = set()
        self.granted: set[int] = set()

    def fall(self, i: int, state: BoutState) -> Occupant:
        """Note a bout without a winner (in a pool it stops nobody); who takes its loser's line."""
        if not self.pool[i]:
            self.fallen.append(i)
        if state.implied or i not in self.dropping:
            return EMPTY
        if i in self.inherits:
            self.claims.add(i)
        return state.sides[0]

    def heir(self, i: int, states: Sequence[BoutState]) -> Occupant:
        """Who takes the loser's line of a bout that has an empty side, not by the draw.

        Open while a bout before it can still be lost by both: if one is out already, both lose it
        only by being out.
        """
        if i not in self.lines:
            return EMPTY
        for before in self.inputs[i]:
            bout = before // 2
            if bout in self.claims:
                self.granted.add(bout)
                return states[bout].sides[1]
            if bout in self.inherits and self._both(bout, states[bout]):
                return OPEN
        return EMPTY

    def _both(self, i: int, state: BoutState) -> bool:
        here = state.status in AHEAD and EMPTY not in state.sides
        return here and not any(self.gone(i, state.sides))

    def stopped(self, states: Sequence[BoutState]) -> Iterator[tuple[str, int]]:
        """Everyone from a fallen bout who did not drop from it, or does not know yet.

        Who dropped has gone on, also where a ruling then put another in his seat.
        """
        for i in self.fallen:
            top, bottom = map(str, states[i].sides)
            if states[i].implied or i not in self.dropping:
                yield top, i
            if i not in self.granted:
                yield bottom, i


def _dropping(bracket: Bracket) -> Iterator[int]:
    """Bouts of the championship side whose loser's line leads on, and not to a challenge."""
    wiring = bracket.wiring
    for i in range(len(wiring.keys)):
        seat = wiring.onward[2 * i + 1]
        if wiring.championship[i] and seat >= 0 and wiring.needed[seat // 2] is None:
            yield i
