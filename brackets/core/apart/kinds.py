"""Teams that are alike under a node: those with the same choice of best places there.

A team's kind under a node is the list of its best splits: how many of its free members go to the
upper half, and its kinds in both halves. Teams of one kind can change places in any draw of least
cost, so the count needs only how many there are of each.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count

from brackets.core.apart.tree import Programme, inside

NOBODY, ANYWHERE = 0, 1
"""Kinds known beforehand: no free member, and one who may take every free slot of the node."""


@dataclass(frozen=True, slots=True)
class Split:
    """`upper` free members go to the upper half; the kinds of those in either half."""

    upper: int
    kinds: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Kind:
    """`free` members, and their best splits in the order of `upper`."""

    free: int
    splits: tuple[Split, ...]


class Kinds:
    """The kinds of a programme, numbered as they are met."""

    def __init__(self, programme: Programme) -> None:
        self.programme = programme
        self.tree = programme.tree
        self.known: dict[int, Kind] = {}
        self._numbers: dict[Kind, int] = {}
        self._next = count(ANYWHERE + 1)
        self._found: dict[tuple[int, int, tuple[int, ...]], int] = {}

    def of(self, node: int, free: int, fixed: tuple[int, ...]) -> int:
        """The kind of a team with so many free members and these seeds under the node."""
        if free == 0:
            return NOBODY
        key = node, free, fixed
        if key not in self._found:
            self._found[key] = self._number(*key)
        return self._found[key]

    def _number(self, node: int, free: int, fixed: tuple[int, ...]) -> int:
        if self.tree.level(node) < 0:
            return ANYWHERE
        kind = Kind(free, tuple(self._splits(node, free, fixed)))
        if free == 1 and self._anywhere(node, kind):
            return ANYWHERE
        if kind not in self._numbers:
            self._numbers[kind] = number = next(self._next)
            self.known[number] = kind
        return self._numbers[kind]

    def _splits(self, node: int, free: int, fixed: tuple[int, ...]) -> Iterator[Split]:
        halves = 2 * node, 2 * node + 1
        seeds = [inside(fixed, half) for half in halves]
        tables = [self.programme.table(*one) for one in zip(halves, seeds, strict=True)]
        ways = range(max(0, free + 1 - len(tables[1])), min(free + 1, len(tables[0])))
        least = min(tables[0][upper] + tables[1][free - upper] for upper in ways)
        for upper in ways:
            if tables[0][upper] + tables[1][free - upper] == least:
                parts = zip(halves, (upper, free - upper), seeds, strict=True)
                one, other = (self.of(*part) for part in parts)
                yield Split(upper, (one, other))

    def _anywhere(self, node: int, kind: Kind) -> bool:
        upper, lower = (self.tree.room[half] > 0 for half in (2 * node, 2 * node + 1))
        wanted = [(0, (NOBODY, ANYWHERE))] * lower + [(1, (ANYWHERE, NOBODY))] * upper
        return [(split.upper, split.kinds) for split in kind.splits] == wanted
