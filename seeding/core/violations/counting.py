"""All best orders at once: who may stand next, how many orders there are, what all agree on."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from seeding.core.violations.bounds import Whole
from seeding.core.violations.subsets import Sets, Sweep, bits


@dataclass(frozen=True, slots=True)
class Orders:
    """Orders of the wrestlers 0 to size-1; 0 is the most preferred.

    `after`: for each set that may stand on top, the set of those who may stand next; a wrestler's
    bit is the higher, the more he is preferred. `count`: how many orders there are; None where
    these may not be all. `agreed`: who stands above whom in every one (nobody if not counted).
    """

    size: int
    after: Mapping[int, int]
    count: int | None
    agreed: frozenset[tuple[int, int]]

    def next(self, placed: int) -> Iterator[int]:
        """Who may stand next below those of the set `placed`, the most preferred first."""
        free = self.after[placed]
        while free:
            yield self.size - free.bit_length()
            free &= ~(1 << (free.bit_length() - 1))

    def with_one_more(self, placed: int, wrestler: int) -> int:
        return placed | 1 << (self.size - 1 - wrestler)

    def each(self, placed: int = 0) -> Iterator[tuple[int, ...]]:
        """Every order, as dictionaries sort: by the preference for the first, then the second."""
        if placed == (1 << self.size) - 1:
            yield ()
            return
        for wrestler in self.next(placed):
            for rest in self.each(self.with_one_more(placed, wrestler)):
                yield (wrestler, *rest)


def only(order: Sequence[int], count: int | None) -> Orders:
    """One order alone, which `count` may say is the only best one."""
    size, placed, after = len(order), 0, {}
    for wrestler in order:
        after[placed] = 1 << (size - 1 - wrestler)
        placed |= after[placed]
    pairs = combinations(order, 2) if count else ()
    return Orders(size, after, count, frozenset(pairs))


def best(swept: Sweep) -> Orders:
    """The best orders of a sweep that has found some, read from the end to the beginning.

    Ways to the end are Python's whole numbers: 32 wrestlers can stand in more orders than 64 bits
    count.
    """
    size = len(swept.layers) - 1
    bit, below = bits(size), np.zeros(size, np.uint64)
    after: dict[int, int] = {}
    ways = np.ones(1, dtype=object)
    for layer, step in zip(swept.layers[-2::-1], swept.layers[:0:-1], strict=True):
        live = ways[step.target].astype(bool)
        source, placed, target = step.source[live], step.placed[live], step.target[live]
        np.bitwise_or.at(below, placed, ~(layer.sets[source] | bit[placed]))
        after |= _following(layer.sets, source, bit[placed])
        through = np.zeros(len(layer.sets), dtype=object)
        np.add.at(through, source, ways[target])
        ways = through
    if not swept.whole:
        return Orders(size, after, None, frozenset())
    return Orders(size, after, int(ways[0]), _agreed(below, bit))


def _following(sets: Sets, source: Whole, placed: Sets) -> dict[int, int]:
    """For each set with a step from it, those placed by the steps."""
    following = np.zeros(len(sets), np.uint64)
    np.bitwise_or.at(following, source, placed)
    kept = following > 0
    return dict(zip(sets[kept].tolist(), following[kept].tolist(), strict=True))


def _agreed(below: Sets, bit: Sets) -> frozenset[tuple[int, int]]:
    """`below`: for each wrestler the set of those who stand below him in some order."""
    some = (below[:, None] & bit) != 0
    pairs = np.argwhere(some & ~some.T).tolist()
    return frozenset((over, under) for over, under in pairs)
