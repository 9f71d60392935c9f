"""All draws of least cost of a bracket: counted where that is possible, proven always."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from brackets.core.apart.count import Count, TooManyWays
from brackets.core.apart.flow import cheapest
from brackets.core.apart.pattern import by_lot, pattern
from brackets.core.apart.tree import Programme, Team, Tree, Weights
from seeding.core.lot import Lot

LIMIT = 100_000
"""How much work (ways to part joined with others) a count may take before it is given up."""


@dataclass(frozen=True, slots=True)
class Least:
    """The draws of least cost.

    `bound`: the pairs that can meet first in the pigtail, the first round ... the semifinal, in
    each of them. `patterns`: how many there are, 0 where they were not counted; then `owners` is
    one of them. `priced`: the teams' own bounds did not do, it took prices on the slots.
    """

    teams: Sequence[Team]
    bound: tuple[int, ...]
    patterns: int
    priced: bool
    count: Count
    owners: Mapping[int, int]

    def draw(self, lot: Lot) -> Mapping[int, int]:
        """The team of every free slot, by node: each pattern equally likely where counted."""
        if self.patterns:
            return pattern(self.count, self.teams, by_lot(lot, self.patterns))
        return self.owners


def least(tree: Tree, teams: Sequence[Team], limit: int = LIMIT) -> Least:
    """The draws of least cost of teams that fill the free slots of a bracket."""
    weights = Weights.of(teams, tree.rounds)
    plain = Programme(tree, weights, max((team.free for team in teams), default=0), {})
    bound, count = plain.bound(teams), Count(plain, limit)
    try:
        if patterns := count.patterns(teams):
            return Least(teams, weights.split(bound), patterns, False, count, {})
    except TooManyWays:
        pass
    return _priced(plain, teams, limit)


def _priced(plain: Programme, teams: Sequence[Team], limit: int) -> Least:
    tree = plain.tree
    found = cheapest(plain, teams)
    priced = Programme(tree, plain.weights, plain.most, found.prices)
    bound, count = priced.bound(teams), Count(priced, limit)
    owners = _filled(tree, teams, found.owners)
    try:
        patterns = count.patterns(teams)
    except TooManyWays:
        patterns = 0
    needed = bound > plain.bound(teams)
    return Least(teams, plain.weights.split(bound), patterns, needed, count, owners)


def _filled(tree: Tree, teams: Sequence[Team], owners: Mapping[int, int]) -> Mapping[int, int]:
    """The draw with those who stand alone on the slots left, in order."""
    alone = [number for number, team in enumerate(teams) if team.free and not team.pairs]
    left = [slot for slot in tree.free if slot not in owners]
    return {**owners, **dict(zip(left, alone, strict=True))}
