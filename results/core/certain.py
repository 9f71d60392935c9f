"""Which place is certain to whoever reaches a bout, by the shape of the bracket alone.

The place is the one he has if he loses all that is left; against a side that the draw left empty
he cannot lose. `brackets.core.progress` knows more (who is out, who shares); this says which win
made a place certain, for the explanation of points.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from brackets.core.graph import Bracket
from brackets.core.standing import BoutState, Status
from brackets.core.wiring import NOWHERE, filled


@dataclass(frozen=True, slots=True)
class Certain:
    """Places by the counting of `Wiring`, None where none is certain yet.

    `ways[2i]`: for the winner of bout i, `ways[2i + 1]`: for its loser; `seats[2i + slot]`: for
    whoever sits on that side before it.
    """

    bracket: Bracket
    ways: Sequence[int | None]
    seats: Sequence[int | None]

    def before(self, state: BoutState, entry: str) -> int | None:
        """What is certain to the entry as he comes to a bout."""
        slot = state.sides.index(entry)
        return self.seats[2 * self.bracket.wiring.index[state.key] + slot]

    def after(self, state: BoutState, entry: str) -> int | None:
        """What is certain to the entry once the bout or bye is behind him."""
        here = 2 * self.bracket.wiring.index[state.key]
        if state.status is Status.BYE or state.winner == entry:
            return self.ways[here]
        return self.ways[here + 1] if state.loser == entry else None


def certain(bracket: Bracket) -> Certain:
    """The certain places of every way in a bracket."""
    wiring = bracket.wiring
    sides = tuple(filled(wiring, bracket.lines))
    ways: list[int | None] = [None] * (2 * len(wiring.keys))
    seats: list[int | None] = [None] * (2 * len(wiring.keys))
    for i in range(len(wiring.keys) - 1, -1, -1):
        win, loss = 2 * i, 2 * i + 1
        for way in (win, loss):
            onward, end = wiring.onward[way], wiring.ends[way]
            ways[way] = seats[onward] if onward >= 0 else end if end < NOWHERE else None
        poorer = ways[loss]
        top, bottom = sides[i]
        seats[win] = poorer if bottom else ways[win]
        seats[loss] = poorer if top else ways[win]
    return Certain(bracket, tuple(ways), tuple(seats))
