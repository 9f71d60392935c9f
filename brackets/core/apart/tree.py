"""The bracket as a tree of halves, with the least cost of one team in it.

Nodes are numbered as in a heap: 1 is the whole bracket, 2i and 2i + 1 are the halves of i, lines
.. 2 * lines - 1 the lines, and 2i, 2i + 1 of a line its slots. The winner of an inner node's bout
comes out of it: two entrants can meet first at the lowest node that holds both.

Cost of a team: for every node but the whole bracket, from single lines up to halves, the number of
pairs of team-mates in it. The sum over the nodes of one level is the number of pairs who can meet
by that level's round at the latest, so fewer pairs at a lower level go before any number at a
higher one. One whole number holds them all: digits to the base (all pairs + 1), lines first.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from heapq import merge
from itertools import accumulate, pairwise
from math import comb

from brackets.core.slots import Slot, Slots

Table = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Team:
    """`free` members to place; `fixed`: the nodes of its seeds' slots."""

    free: int
    fixed: tuple[int, ...] = ()

    @property
    def pairs(self) -> int:
        return comb(self.free + len(self.fixed), 2)


class Tree:
    """The free slots of a bracket under each of its nodes."""

    def __init__(self, slots: Slots) -> None:
        self.rounds = slots.lines.bit_length() - 1
        self.lines = slots.lines
        self.free = tuple(self.node(slot) for slot in slots.free)
        room = [0] * (4 * slots.lines)
        for slot in self.free:
            for depth in range(slot.bit_length()):
                room[slot >> depth] += 1
        self.room: Sequence[int] = room

    def node(self, slot: Slot) -> int:
        """The number of the node that is this slot."""
        return 2 * (self.lines + slot.line) + slot.half

    def level(self, node: int) -> int:
        """0 for a line, the number of its championship round for a bout's node, -1 for a slot."""
        return self.rounds - node.bit_length() + 1


def inside(fixed: tuple[int, ...], node: int) -> tuple[int, ...]:
    """Those of the nodes that lie under this one."""
    depth = node.bit_length()
    return tuple(one for one in fixed if one >> (one.bit_length() - depth) == node)


@dataclass(frozen=True, slots=True)
class Weights:
    """What a pair costs at each level, lines first; `base` counts every level by itself."""

    base: int
    each: tuple[int, ...]

    @classmethod
    def of(cls, teams: Sequence[Team], rounds: int) -> "Weights":
        """The weights under which no two costs of these teams are mixed up."""
        base = 1 + sum(team.pairs for team in teams)
        return cls(base, tuple(base ** (rounds - 1 - level) for level in range(rounds)))

    def split(self, cost: int) -> tuple[int, ...]:
        """The pairs that meet first in each round: pigtail, first round ... semifinal."""
        digits = []
        for _ in self.each:
            cost, digit = divmod(cost, self.base)
            digits.append(digit)
        by_then = digits[::-1]
        return tuple(now - before for before, now in zip([0, *by_then], by_then, strict=False))


@dataclass(frozen=True, slots=True)
class Programme:
    """The exact least cost of a team under every node, whatever the others do.

    `most`: the largest number of free members of a team. `prices`: an amount added for each free
    slot that is taken, so that the least costs of all teams, added up, less all prices, stay a
    bound below the cost of every draw.
    """

    tree: Tree
    weights: Weights
    most: int
    prices: Mapping[int, int]
    tables: dict[tuple[int, tuple[int, ...]], Table] = field(default_factory=dict, repr=False)

    def weight(self, node: int) -> int:
        """What a pair in the node costs."""
        level = self.tree.level(node)
        return self.weights.each[level] if 0 <= level < self.tree.rounds else 0

    def table(self, node: int, fixed: tuple[int, ...]) -> Table:
        """The least costs of 0, 1, 2 ... free members under the node beside the seeds there.

        A node's table is convex, and so the two halves are joined by taking the cheapest next
        member from either, again and again.
        """
        key = node, fixed
        if key not in self.tables:
            self.tables[key] = self._slot(node) if self.tree.level(node) < 0 else self._join(*key)
        return self.tables[key]

    def _slot(self, node: int) -> Table:
        return (0, self.prices.get(node, 0)) if self.tree.room[node] else (0,)

    def _join(self, node: int, fixed: tuple[int, ...]) -> Table:
        if not self.tree.room[node] and len(fixed) < 2:
            return (0,)
        halves = [self.table(half, inside(fixed, half)) for half in (2 * node, 2 * node + 1)]
        steps = merge(*([b - a for a, b in pairwise(t)] for t in halves))
        least = accumulate(steps, initial=halves[0][0] + halves[1][0])
        weight, seeds = self.weight(node), len(fixed)
        return tuple(
            cost + weight * comb(free + seeds, 2)
            for free, cost in zip(range(self.most + 1), least, strict=False)
        )

    def bound(self, teams: Sequence[Team]) -> int:
        """No draw of these teams costs less; the teams together fill the free slots."""
        least = sum(self.table(1, team.fixed)[team.free] for team in teams)
        return least - sum(self.prices.values())
