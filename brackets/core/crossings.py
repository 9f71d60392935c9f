"""Crossings: which loser of a championship round drops to which consolation bout.

Every crossing here is an exchange of neighbouring blocks: at some levels the two halves of each
block change places, at the others they stay. Counted from 0, that is an exclusive or of the
position with one number, the mask. Exchanges are their own inverses and form a group, so a pair
of opponents is as far apart on the consolation side as every other pair of the same round.
"""

from dataclasses import dataclass

from brackets.core.rules import Crossing


@dataclass(frozen=True, slots=True)
class Exchange:
    """The crossing of one round of `bouts` losers, a power of two.

    Bit p of `mask` says that neighbouring blocks of 2^p bouts change places; 0 <= mask < bouts.

    >>> Exchange(8, 0b011).order
    (4, 3, 2, 1, 8, 7, 6, 5)
    """

    bouts: int
    mask: int

    def loser(self, position: int) -> int:
        """Which loser meets the winner of consolation bout `position` (both from 1)."""
        return ((position - 1) ^ self.mask) + 1

    @property
    def order(self) -> tuple[int, ...]:
        """The bouts whose losers drop to consolation bouts 1, 2, ..., in this order."""
        return tuple(self.loser(position) for position in range(1, self.bouts + 1))

    @property
    def name(self) -> str:
        """What a rule book calls it, else its order: `reversed`, or `2 1 4 3 6 5 8 7`."""
        for crossing in Crossing:
            if exchange(crossing, self.bouts) == self:
                return str(crossing)
        return " ".join(map(str, self.order))


def exchange(crossing: Crossing, bouts: int) -> Exchange:
    """The named crossing of a round of `bouts`.

    Of two bouts straight and within-half are one, and reversed and half-swap.
    """
    masks = {
        Crossing.STRAIGHT: 0,
        Crossing.REVERSED: bouts - 1,
        Crossing.HALF_SWAP: bouts // 2,
        Crossing.WITHIN_HALF: bouts // 2 - 1,
    }
    return Exchange(bouts, masks[crossing])
