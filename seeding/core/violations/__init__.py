"""The order of fewest violations, and how many others are as good."""

from collections.abc import Iterable, Sequence

from seeding.core.circles import Beat
from seeding.core.violations.found import FewestViolations, Part

__all__ = ["FewestViolations", "Part", "fewest_violations"]


def fewest_violations(
    nodes: Iterable[str], beats: Iterable[Beat], prefer: Sequence[str]
) -> FewestViolations:
    """An order with the fewest violated beats; each beat counts once, also several of one pair.

    A beat is violated when its worse one stands above the better. Every strongly connected
    component is ordered by itself, since beats between components can all be kept. Of several
    best orders it is the one that `prefer` sorts first: place by place the most preferred
    wrestler with whom a best order can go on. Where the work limit stops the search the same is
    said of the orders that were found. Nothing depends on the order in which things are put in.

    ValueError if `prefer` is not a ranking of the nodes, or a beat names somebody else.
    """
    # Loading numpy and scipy takes most of a second, and most pages need no such order.
    from seeding.core.violations import order  # noqa: PLC0415

    return order.fewest_violations(nodes, beats, prefer)
