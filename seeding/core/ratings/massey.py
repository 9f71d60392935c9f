"""Massey's rating: by how much, against whom."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from scipy import sparse

from seeding.core.matrices import BoutArrays, Floats
from seeding.core.ratings.solving import solve_apart
from seeding.core.season import PriorBout, ResultKind

SCORE = re.compile(r"(\d+)\s*[-–:]\s*(\d+)")  # noqa: RUF001 - people write it so


@dataclass(frozen=True, slots=True)
class Margin:
    """What a kind of result is worth at least and at most, in match points."""

    least: int
    most: int


# Published (rule books, bout scoring): a decision is won by less than 8, a major decision by 8 to
# 14, a technical fall by 15. No source found for what a fall is worth in match points, nor for a
# bout that was not wrestled to its end; the fall is put beside the technical fall.
MARGINS: Mapping[str, Margin] = MappingProxyType(
    {
        ResultKind.DECISION: Margin(1, 7),
        ResultKind.MAJOR: Margin(8, 14),
        ResultKind.TECHNICAL_FALL: Margin(15, 15),
        ResultKind.FALL: Margin(15, 15),
        ResultKind.INJURY: Margin(1, 1),
        ResultKind.FORFEIT: Margin(1, 1),
        ResultKind.MEDICAL: Margin(1, 1),
        ResultKind.DISQUALIFICATION: Margin(1, 1),
    }
)


def margins_of(bouts: Iterable[PriorBout], margins: Mapping[str, Margin] = MARGINS) -> Floats:
    """Each bout's difference of match points within what its kind allows.

    A bout without a readable score has the least of its kind. KeyError: a kind has no margin.

    >>> from datetime import date
    >>> day = date(2024, 12, 1)
    >>> margins_of([PriorBout(day, "133", "a", "b", "major decision", "11-1"),
    ...             PriorBout(day, "133", "a", "b", "decision"),
    ...             PriorBout(day, "133", "a", "b", "fall", "2-0")]).tolist()
    [10.0, 1.0, 15.0]
    """
    return np.array([_margin(bout, margins[bout.kind]) for bout in bouts], dtype=np.float64)


def _margin(bout: PriorBout, allowed: Margin) -> int:
    found = SCORE.fullmatch(bout.score.strip())
    difference = abs(int(found[1]) - int(found[2])) if found else allowed.least
    return min(max(difference, allowed.least), allowed.most)


def massey(bouts: BoutArrays, margins: Floats) -> Floats:
    """Ratings whose differences fit the margins with the least sum of squared errors.

    `margins[k]` is by how much the winner of bout k was ahead. Wrestlers that no chain of bouts
    links cannot be compared: each linked group has the mean 0.
    Source: published: Langville & Meyer, Who's #1? (2012), after Massey.
    """
    count = len(bouts)
    ones = np.ones(len(margins))
    met = sparse.coo_array((ones, (bouts.winner, bouts.loser)), (count, count)).tocsr()
    ahead = np.zeros(count)
    ahead += np.bincount(bouts.winner, margins, count)
    ahead -= np.bincount(bouts.loser, margins, count)
    return solve_apart((met + met.T).tocsr(), ahead)
