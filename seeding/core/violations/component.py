"""The fewest violations among wrestlers who all stand over each other, directly or not."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seeding.core.violations.bounds import Whole, pack
from seeding.core.violations.counting import Orders, best, only
from seeding.core.violations.subsets import FEW, MOST, sweep


@dataclass(frozen=True, slots=True)
class Solved:
    """`bound`: no order violates less. `orders`: the best known ones."""

    bound: int
    orders: Orders


def solve(net: Whole) -> Solved:
    """The best orders of all wrestlers of `net`, where row and column 0 are the most preferred.

    The packed circles say from where on to look. As long as a whole sweep finds no order within
    that many violations, one more is allowed; so the first order found is a best one, and the
    bound is proven. Where the work limit stops it before, the order is the first of a narrow
    sweep, bettered by moving single wrestlers: it depends on `net` alone.
    """
    packing = pack(net)
    bound = packing.bound
    if len(net) > MOST:
        return Solved(bound, only(bettered(net, range(len(net))), None))
    while not (found := sweep(net, packing, bound)).layers and found.whole:
        bound += 1
    if found.layers:
        return Solved(bound, best(found))
    narrow = best(sweep(net, packing, int(net.sum()), FEW))
    return Solved(bound, only(bettered(net, next(narrow.each())), None))


def bettered(net: Whole, order: Sequence[int]) -> tuple[int, ...]:
    """The order after moving single wrestlers to their best places, until nobody gains."""
    stand = list(order)
    gained = True
    while gained:
        gained = False
        for wrestler in range(len(net)):
            place = stand.index(wrestler)
            others = stand[:place] + stand[place + 1 :]
            costs = _places(net, wrestler, others)
            to = int(costs.argmin())
            if costs[to] < costs[place]:
                stand = [*others[:to], wrestler, *others[to:]]
                gained = True
    return tuple(stand)


def _places(net: Whole, wrestler: int, others: Sequence[int]) -> Whole:
    """What the wrestler violates at each place among the others, from the top to the bottom."""
    won = np.concatenate([[0], np.cumsum(net[wrestler, others])])
    lost = np.concatenate([[0], np.cumsum(net[others, wrestler][::-1])])[::-1]
    return np.asarray(won + lost)
