"""A lower bound that anybody can check: circles packed side by side.

Every order violates at least one beat of each circle. So if circles are taken, each with a share,
and no beat is in more circles than it counts, shares added up, then the shares of all are a lower
bound. The best shares are the dual of the linear program "violate as little as possible, at least
one beat of every circle"; its circles are added as they are found to be violated.
Grötschel, Jünger & Reinelt 1984 (from memory, unconfirmed) solve the linear ordering so.

The solver works in floating point; what is kept are whole units, checked against every beat.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import linprog
from scipy.sparse import csr_array
from scipy.sparse.csgraph import shortest_path

Whole = NDArray[np.int64]
Real = NDArray[np.float64]

# Shares of a circle are mostly halves, thirds and so on: this is divisible by 1 to 16.
UNIT = 720720
ROUNDS = 40
# A tiny cost for each beat prefers short circles among those that cost nothing.
STEP, LIGHT = 1e-5, 1e-3


@dataclass(frozen=True, slots=True)
class Packing:
    """`members`: circles by wrestlers, true where he is in it. `units`: its share in 1/UNIT."""

    members: NDArray[np.bool_]
    units: Whole

    @property
    def total(self) -> int:
        return int(self.units.sum())

    @property
    def bound(self) -> int:
        """No order violates less."""
        return -(-self.total // UNIT)


def nothing(size: int) -> Packing:
    """No circle at all: the bound is 0."""
    return Packing(np.zeros((0, size), np.bool_), np.zeros(0, np.int64))


def pack(net: Whole) -> Packing:
    """Circles packed as well as the linear program can.

    `net[a, b]`: how many more beats a has over b than b over a, 0 where not more.
    """
    arcs = np.argwhere(net > 0)
    counts = net[net > 0]
    circles: dict[tuple[int, ...], None] = {}
    violated, shares = np.zeros(len(arcs)), np.zeros(0)
    for _ in range(ROUNDS):
        found = [circle for circle in _light(arcs, violated, len(net)) if circle not in circles]
        if not found:
            break
        circles.update(dict.fromkeys(found))
        use = _incidence(list(circles), arcs, len(net))
        least = -np.ones(len(circles))
        solved = linprog(counts, A_ub=-use.toarray(), b_ub=least, method="highs-ds")
        if solved.x is None:
            break
        violated, shares = solved.x, -solved.ineqlin.marginals
    priced = list(circles)[: len(shares)]
    if not priced:
        return nothing(len(net))
    return _kept(priced, _checked(shares, _incidence(priced, arcs, len(net)), counts), len(net))


def _light(arcs: Whole, violated: Real, size: int) -> Iterator[tuple[int, ...]]:
    """Circles of which less than one beat is violated: the lightest through each beat."""
    costs = csr_array((violated + STEP, (arcs[:, 0], arcs[:, 1])), shape=(size, size))
    ways, before = shortest_path(costs, return_predecessors=True)
    weights = violated + STEP + ways[arcs[:, 1], arcs[:, 0]]
    for better, worse in arcs[weights < 1 - LIGHT].tolist():
        walk = [better]
        while walk[-1] != worse:
            walk.append(int(before[worse, walk[-1]]))
        walk.reverse()
        start = walk.index(min(walk))
        yield (*walk[start:], *walk[:start])


def _incidence(circles: list[tuple[int, ...]], arcs: Whole, size: int) -> csr_array:
    """Circles by beats, 1 where the circle takes the beat."""
    number = np.zeros((size, size), np.int64)
    number[arcs[:, 0], arcs[:, 1]] = np.arange(len(arcs))
    rows = np.repeat(np.arange(len(circles)), [len(circle) for circle in circles])
    better = [wrestler for circle in circles for wrestler in circle]
    worse = [wrestler for circle in circles for wrestler in (*circle[1:], circle[0])]
    entries = (np.ones(len(rows)), (rows, number[better, worse]))
    return csr_array(entries, shape=(len(circles), len(arcs)))


def _checked(shares: Real, use: csr_array, counts: Whole) -> Whole:
    """Shares in whole units, lowered until no beat is in more circles than it counts."""
    units = np.maximum(np.floor(shares * UNIT + 0.5), 0)
    while (over := units @ use > counts * UNIT).any():
        units = np.maximum(units - (use @ over > 0), 0)
    whole: Whole = units.astype(np.int64)
    return whole


def _kept(circles: list[tuple[int, ...]], units: Whole, size: int) -> Packing:
    members = np.zeros((len(circles), size), np.bool_)
    for row, circle in enumerate(circles):
        members[row, list(circle)] = True
    return Packing(members[units > 0], units[units > 0])
