"""RPI of a whole season at once; `seeding.core.rpi` has the definitions, in exact fractions."""

from dataclasses import dataclass
from typing import cast

import numpy as np
import numpy.typing as npt
from scipy import sparse

from seeding.core.matrices import BoutArrays, Floats
from seeding.core.rpi import Reading

Places = npt.NDArray[np.intp]
Counts = npt.NDArray[np.int32]
SECOND = 16  # bits: wins of a pair's second stand above those of its first, 32,767 at most


@dataclass(frozen=True, slots=True, eq=False)
class Percentages:
    """The three parts by place in `BoutArrays.wrestlers`; not a number: he has none."""

    own: Floats
    opponents: Floats
    theirs: Floats

    def rpi(self, parts: tuple[float, float, float] = (0.25, 0.5, 0.25)) -> Floats:
        """The parts added; one that is missing adds nothing."""
        own, opponents, theirs = parts
        return (
            own * np.nan_to_num(self.own)
            + opponents * np.nan_to_num(self.opponents)
            + theirs * np.nan_to_num(self.theirs)
        )


@dataclass(frozen=True, slots=True, eq=False)
class _Pairs:
    """All who met, each two once: `bouts` of pair k between `first[k]` and `second[k]`."""

    links: sparse.csr_array[np.float64, tuple[int, int]]
    first: Places
    second: Places
    won_by_first: Counts
    won_by_second: Counts

    @classmethod
    def of(cls, bouts: BoutArrays) -> "_Pairs":
        shape = len(bouts), len(bouts)
        first, second = np.minimum(bouts.winner, bouts.loser), np.maximum(bouts.winner, bouts.loser)
        # By the second, as the matrix wants its rows; numpy sorts numbers of 16 bits in one pass.
        order = np.argsort(second.astype(np.min_scalar_type(len(bouts))), kind="stable")
        worth = np.array([1, 1 << SECOND], dtype=np.int32).take(bouts.winner > bouts.loser)
        two = first.take(order), second.take(order)
        packed = sparse.coo_array((worth.take(order), two), shape).tocsr()
        of_first = packed.data & ((1 << SECOND) - 1)
        of_second = packed.data >> SECOND
        met = (of_first + of_second).astype(np.float64)
        links = sparse.csr_array((met, packed.indices, packed.indptr), shape)
        row = np.repeat(np.arange(len(bouts)), np.diff(packed.indptr))
        return cls(links, row, packed.indices.astype(np.intp), of_first, of_second)

    def around(self, values: Floats) -> Floats:
        """For everybody: over his bouts, the sum of the opponents' values."""
        return cast(Floats, self.links @ values + self.links.T @ values)


def percentages(bouts: BoutArrays, reading: Reading) -> Percentages:
    """Everybody's three parts; `bouts` are a win for one and a loss for the other.

    They equal the exact ones to 12 digits.
    """
    pairs = _Pairs.of(bouts)
    won = np.bincount(bouts.winner, minlength=len(bouts)).astype(np.float64)
    played = np.bincount(bouts.loser, minlength=len(bouts)) + won
    own = _ratio(won, played)
    if reading is Reading.ALL_BOUTS:
        opponents = _ratio(pairs.around(np.nan_to_num(own)), played)
    else:
        opponents = _without_the_wrestler(pairs, won, played)
    return Percentages(own, opponents, _mean_around(pairs, opponents, played))


def _ratio(above: Floats, below: Floats) -> Floats:
    ratio = np.full(len(above), np.nan)
    np.divide(above, below, out=ratio, where=below > 0)
    return ratio


def _without_the_wrestler(pairs: _Pairs, won: Floats, played: Floats) -> Floats:
    count, met = len(won), pairs.links.data
    total, known = np.zeros(count), played.copy()
    sides = (
        (pairs.first, pairs.second, pairs.won_by_second),
        (pairs.second, pairs.first, pairs.won_by_first),
    )
    for one, other, lost in sides:
        rest = played.take(other)
        rest -= met
        share = won.take(other)
        share -= lost
        share *= met
        if not rest.all():  # an opponent without any other bout is left out of the mean
            known -= np.bincount(one, met * (rest == 0), count)
            rest[rest == 0] = 1
        share /= rest
        total += np.bincount(one, share, count)
    return _ratio(total, known)


def _mean_around(pairs: _Pairs, values: Floats, played: Floats) -> Floats:
    """Over everybody's bouts, the mean of the opponents' values where they have one."""
    none = np.isnan(values)
    if none.any():
        played = pairs.around((~none).astype(np.float64))
    return _ratio(pairs.around(np.nan_to_num(values)), played)
