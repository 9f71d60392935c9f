"""A rating of a season as numbers that may be compared: by wrestler, and without noise."""

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from types import MappingProxyType

import numpy as np

from seeding.core.matrices import BoutArrays, Floats
from seeding.core.ratings.bradley_terry import bradley_terry
from seeding.core.ratings.colley import colley
from seeding.core.ratings.glicko import GlickoSettings, glicko, weeks
from seeding.core.ratings.massey import margins_of, massey
from seeding.core.ratings.names import Rating
from seeding.core.ratings.pagerank import pagerank
from seeding.core.season import PriorBout

DIGITS = 9


def values(rating: Rating, bouts: Sequence[PriorBout]) -> Mapping[str, Fraction]:
    """Everybody's rating to `DIGITS` digits; whoever is equal has the same number.

    PageRank is given as a multiple of the mean, Glicko-2 by weeks, Bradley-Terry regularised.
    """
    arrays = BoutArrays.of(bouts)
    levelled = levels(RATINGS[rating](arrays, bouts))
    return MappingProxyType(dict(zip(arrays.wrestlers, levelled, strict=True)))


def levels(numbers: Floats) -> list[Fraction]:
    """The numbers rounded, and equal where a chain of steps below the last digit links them.

    What is equal in truth differs only by the noise of adding, far below that digit, but rounding
    alone could still part two such numbers at its edge.

    >>> levels(np.array([0.5, 0.5 + 1e-13, 0.25]))
    [Fraction(1, 2), Fraction(1, 2), Fraction(1, 4)]
    """
    order = np.argsort(numbers, kind="stable")
    rising = numbers[order]
    new = np.diff(rising, prepend=-np.inf) > 10.0**-DIGITS
    lowest = rising[new][np.cumsum(new) - 1]
    whole = np.empty(len(numbers))
    whole[order] = np.rint(lowest * 10**DIGITS)
    return [Fraction(int(number), 10**DIGITS) for number in whole]


def _colley(arrays: BoutArrays, bouts: Sequence[PriorBout]) -> Floats:
    return colley(arrays.wins())


def _massey(arrays: BoutArrays, bouts: Sequence[PriorBout]) -> Floats:
    return massey(arrays, margins_of(bouts))


def _bradley_terry(arrays: BoutArrays, bouts: Sequence[PriorBout]) -> Floats:
    return bradley_terry(arrays.wins())


def _pagerank(arrays: BoutArrays, bouts: Sequence[PriorBout]) -> Floats:
    return pagerank(arrays.wins()) * len(arrays)


def _glicko(arrays: BoutArrays, bouts: Sequence[PriorBout]) -> Floats:
    return glicko(arrays, weeks(bouts), GlickoSettings()).rating


RATINGS: Mapping[Rating, Callable[[BoutArrays, Sequence[PriorBout]], Floats]] = MappingProxyType(
    {
        Rating.COLLEY: _colley,
        Rating.MASSEY: _massey,
        Rating.BRADLEY_TERRY: _bradley_terry,
        Rating.PAGERANK: _pagerank,
        Rating.GLICKO_2: _glicko,
    }
)
