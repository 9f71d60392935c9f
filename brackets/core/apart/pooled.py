"""The draw of two pools, with those in different ones who are to be kept apart.

Part of version 2 of the draw (version 1 drew pools as a round robin is drawn), so that anybody can
draw again:

1. Seeds take the best ranks in their order and never move; a gap among them closes. Ranks are dealt
   to the pools A and B as `pools.DEALT` says.
2. Two of one pool meet there for certain, two of different pools in a semifinal at the earliest.
   The cost of a draw is the number of pairs in one pool, criterion after criterion, the most
   important first. A pair of seeds counts too.
3. The choices of least cost, who of the unseeded goes to A, are put in order: each as the list of
   its ids, by their order. The lot's `below` picks one, also where there is only one.
4. The unseeded of A, in order of id, are shuffled by the lot and take the free ranks of A from the
   best down; then those of B. So every draw of least cost is equally likely.

There are 35 choices at most, and all are looked at: every bound is reached and its own proof.
"""

from collections.abc import Collection, Iterable, Sequence
from itertools import combinations
from math import factorial, prod

from brackets.core.apart.criteria import KeepApart, Pair, groups, pairs
from brackets.core.apart.result import Draw, Kept
from brackets.core.draw import Entrant, ranked
from brackets.core.pools import DEALT
from seeding.core.lot import Lot


def pooled_draw(entrants: Sequence[Entrant], lot: Lot, keep: KeepApart, version: int) -> Draw:
    """The draw of a field of two pools, the same whatever order the entrants come in.

    Of each criterion it tells the pairs in one pool and those that can meet first in a semifinal.
    Refuses a seed given twice.
    """
    field = ranked(entrants)
    seeds = [one for one in field.seeded if one]
    dealt = DEALT[len(entrants)]
    free = [[rank for rank in ranks if rank > len(seeds)] for ranks in dealt]
    held = {one for rank, one in enumerate(seeds, start=1) if rank in dealt[0]}
    sought = {criterion: pairs(entrants, criterion) for criterion in keep.criteria}
    costs = {
        choice: tuple(_together(found, {*held, *choice}) for found in sought.values())
        for choice in combinations(field.others, len(free[0]))
    }
    least = min(costs.values())
    best = [choice for choice, cost in costs.items() if cost == least]
    upper = best[lot.below(len(best))]
    drawn = dict(enumerate(seeds, start=1))
    for ranks, there in zip(free, (upper, _others(field.others, upper)), strict=True):
        drawn.update(zip(ranks, lot.shuffled(there), strict=True))
    told = [(cost, len(some) - cost) for cost, some in zip(least, sought.values(), strict=True)]
    alike = sum(cost[:1] == least[:1] for cost in costs.values())
    return Draw(
        lines=tuple(drawn[rank] for rank in sorted(drawn)),
        kept=tuple(Kept(one, found, found) for one, found in zip(sought, told, strict=True)),
        patterns=alike
        * prod(factorial(len(ranks)) for ranks in free)
        // prod(factorial(len(mates)) for mates in _mates(entrants, keep, field.others)),
        version=version,
    )


def _together(sought: Collection[Pair], there: Collection[str]) -> int:
    """How many of the pairs are in one pool, by who is in pool A."""
    return sum((one in there) == (other in there) for one, other in sought)


def _others(field: Sequence[str], taken: Collection[str]) -> list[str]:
    return [one for one in field if one not in taken]


def _mates(
    entrants: Sequence[Entrant], keep: KeepApart, unseeded: Collection[str]
) -> Iterable[list[str]]:
    """The unseeded of each group of the first criterion."""
    for group in groups(entrants, keep.first):
        yield [one for one in group if one in unseeded]
