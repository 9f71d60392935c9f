"""How many draws of least cost there are: what makes the draw uniform.

A pattern says which team every free slot belongs to. A pattern has least cost exactly if every
team has its own least cost under the programme's prices (complementary slackness); so patterns are
counted down the tree of halves, node by node, from how many teams of each kind are there.
"""

from collections.abc import Sequence
from math import comb, factorial

from brackets.core.apart.kinds import Kinds
from brackets.core.apart.parting import ALL_AT_HOME, Crowd, Parted, Ways, crowd, joined, ways_of
from brackets.core.apart.tree import Programme, Team


class TooManyWays(Exception):
    """The count would take longer than it may."""


class Count:
    """The patterns of least cost under a programme's prices, within a limit of work."""

    def __init__(self, programme: Programme, limit: int) -> None:
        self.kinds = Kinds(programme)
        self.room = programme.tree.room
        self.left = limit
        self._ways: dict[tuple[int, Crowd], int] = {}
        self._of_kind: dict[tuple[int, int], Ways] = {}

    def patterns(self, teams: Sequence[Team]) -> int:
        """How many there are. Raises TooManyWays beyond the limit."""
        return self.ways(1, crowd(self.kinds.of(1, team.free, team.fixed) for team in teams))

    def ways(self, node: int, there: Crowd) -> int:
        """The patterns under a node for this crowd and as many others as there is room."""
        if not there:
            return factorial(self.room[node])
        key = node, there
        if key not in self._ways:
            self._ways[key] = self._sum(node, there)
        return self._ways[key]

    def _sum(self, node: int, there: Crowd) -> int:
        free = sum(many * self.kinds.known[kind].free for kind, many in there)
        parted = ALL_AT_HOME
        for kind, many in there:
            parted = self.fitting(node, self.join(parted, self.of_kind(kind, many)))
        single = self.room[node] - free
        return sum(n * self.onward(node, one, single) for one, n in parted.items())

    def onward(self, node: int, parted: Parted, single: int) -> int:
        """The patterns once a crowd has parted, beside `single` others who may stand anywhere."""
        upper = self.room[2 * node] - parted.up
        if not 0 <= upper <= single:
            return 0
        ways = self.ways(2 * node, parted.upper)
        return ways and comb(single, upper) * ways * self.ways(2 * node + 1, parted.lower)

    def of_kind(self, kind: int, many: int) -> Ways:
        """How so many teams of a kind can part."""
        key = kind, many
        if key not in self._of_kind:
            self._of_kind[key] = ways_of(self.kinds.known[kind], many)
        return self._of_kind[key]

    def join(self, one: Ways, other: Ways) -> Ways:
        """Both side by side, as work that counts against the limit."""
        self.left -= len(one) * len(other)
        if self.left < 0:
            raise TooManyWays
        return joined(one, other)

    def fitting(self, node: int, parted: Ways) -> Ways:
        """Without the ways that already overfill the upper half."""
        return {one: n for one, n in parted.items() if one.up <= self.room[2 * node]}
