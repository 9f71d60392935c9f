"""Changing places by lot: how a draw is made better where the best ones cannot be counted."""

from collections.abc import Mapping

from brackets.core.apart.field import Field
from brackets.core.slots import Slot
from seeding.core.lot import Lot

STEPS = 100
"""Changes tried for each entrant who may change places."""


def walk(places: Mapping[str, Slot], field: Field, lot: Lot) -> Mapping[str, Slot]:
    """`STEPS` times as many changes as there are free entrants, each kept unless it costs more.

    Two different entrants are taken by lot, the first among all (in order of id), the second
    among the others. Between draws of equal cost a step and its reverse are equally likely, so in
    the long run every draw that can be reached is.
    """
    found, lines, costs = dict(places), field.lines(places), field.costs
    free = sorted(places)
    for _ in range(STEPS * len(free) if len(free) > 1 else 0):
        first, second = lot.below(len(free)), lot.below(len(free) - 1)
        one, other = free[first], free[second + (second >= first)]
        before = costs.of_one(one, lines) + costs.of_one(other, lines)
        lines[one], lines[other] = lines[other], lines[one]
        if costs.of_one(one, lines) + costs.of_one(other, lines) > before:
            lines[one], lines[other] = lines[other], lines[one]
        else:
            found[one], found[other] = found[other], found[one]
    return found
