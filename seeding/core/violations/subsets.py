"""Dynamic programming over subsets: who stands above, whatever their order, is all that matters.

The state is the set of those already placed, its value the fewest violations so far (Held & Karp
1962, from memory, unconfirmed). Sets are gone through by size, one layer after another, and only
those are kept whose violations so far, with those that the packed circles of the others still
cost, stay within `level`. Nobody is lost by it: an order within `level` leads through kept sets
only. Wrestlers are numbers, the most preferred 0; a set is a number with the bit of each.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array

from seeding.core.violations.bounds import UNIT, Packing, Real, Whole

Sets = NDArray[np.uint64]

# So many fit into the bits of a set.
MOST = 64
# The work limit: sets kept in a layer; when there are more, the best few go on.
ROOM, FEW = 100_000, 3_000
CHUNK = 1_024


@dataclass(frozen=True, slots=True)
class Layer:
    """Sets of one size, ascending, and the best steps to them from the layer before.

    `excess`: violations so far less what the packed circles that are touched explain, in 1/UNIT.
    Step i places wrestler `placed[i]` after the set `source[i]`, which gives the set `target[i]`.
    """

    sets: Sets
    excess: Real
    source: Whole
    placed: Whole
    target: Whole


@dataclass(frozen=True, slots=True)
class Sweep:
    """The layers from nobody to everybody; empty if no order within the level was found.

    `whole`: no set was dropped for want of room, so that what was not found does not exist.
    """

    layers: tuple[Layer, ...]
    whole: bool

    @property
    def excess(self) -> int:
        """What the best order found violates, less what the packed circles explain, in 1/UNIT."""
        return int(self.layers[-1].excess[0])


def bits(size: int) -> Sets:
    """The bit of each wrestler; the more preferred, the higher."""
    return np.uint64(1) << np.arange(size, dtype=np.uint64)[::-1]


def sweep(net: Whole, packing: Packing, level: int, room: int = ROOM) -> Sweep:
    """All best orders with at most `level` violations, or as many as there is room for.

    `net` as in `pack`. When sets do not fit, those of least excess go on, of equal ones those with
    the more preferred wrestlers.
    """
    slack = level * UNIT - packing.total
    start = np.zeros(0, np.int64)
    layers = [Layer(np.zeros(1, np.uint64), np.zeros(1), start, start, start)]
    prices, whole = _Prices.of(net, packing), True
    for _ in range(len(net)):
        layer = _next(layers[-1], prices, slack)
        if not len(layer.sets):
            return Sweep((), whole)
        if len(layer.sets) > room:
            layer, room, whole = _best(layer, min(room, FEW)), min(room, FEW), False
        layers.append(layer)
    return Sweep(tuple(layers), whole)


@dataclass(frozen=True, slots=True)
class _Prices:
    """What a step costs: beats over the placed by those left, less circles touched at last.

    `beats`: wrestler placed by wrestler left; `shares`: wrestler placed by circle. Sparse, and not
    only because they are: dense products would be shared out among threads that wait busily.
    """

    bit: Sets
    beats: csr_array
    circles: Sets
    shares: csr_array

    @classmethod
    def of(cls, net: Whole, packing: Packing) -> "_Prices":
        bit = bits(len(net))
        circles = (packing.members * bit).sum(axis=1, dtype=np.uint64)
        shares = np.where(packing.members, packing.units[:, None], 0)
        return cls(bit, _sparse(net.T * UNIT), circles, _sparse(shares.T))

    def steps(self, sets: Sets, excess: Real) -> Real:
        """Excess after each step: wrestlers by sets, infinite where he is placed already."""
        left = (self.bit[:, None] & sets) == 0
        untouched = (self.circles[:, None] & sets) == 0
        after = excess + self.beats @ left.astype(np.float64)
        after -= self.shares @ untouched.astype(np.float64)
        return np.where(left, after, np.inf)


def _sparse(numbers: Whole) -> csr_array:
    return csr_array(numbers.astype(np.float64))


def _next(layer: Layer, prices: _Prices, slack: int) -> Layer:
    """The sets of one more wrestler that stay within the slack, each with its best steps."""
    steps: list[tuple[Whole, Whole, Real]] = []
    for start in range(0, len(layer.sets), CHUNK):
        part = slice(start, start + CHUNK)
        after = prices.steps(layer.sets[part], layer.excess[part])
        placed, source = np.nonzero(after <= slack)
        steps.append((source + start, placed, after[placed, source]))
    source = np.concatenate([sources for sources, _, _ in steps])
    placed = np.concatenate([wrestlers for _, wrestlers, _ in steps])
    value = np.concatenate([values for _, _, values in steps])
    sets, target = np.unique(layer.sets[source] | prices.bit[placed], return_inverse=True)
    excess = np.full(len(sets), np.inf)
    np.minimum.at(excess, target, value)
    tight = value == excess[target]
    return Layer(sets, excess, source[tight], placed[tight], target[tight])


def _best(layer: Layer, room: int) -> Layer:
    """The same layer with the best `room` sets alone."""
    kept = np.sort(np.lexsort((~layer.sets, layer.excess))[:room])
    number = np.full(len(layer.sets), -1)
    number[kept] = np.arange(len(kept))
    stays = number[layer.target] >= 0
    source, placed, target = layer.source[stays], layer.placed[stays], layer.target[stays]
    return Layer(layer.sets[kept], layer.excess[kept], source, placed, number[target])
