"""Which seed starts on which line, top to bottom."""

from collections.abc import Callable, Mapping
from itertools import count

from brackets.core.rules import BracketRules, LineOrder


def recurrence(lines: int) -> tuple[int, ...]:
    """The seeded order of A131271 for a power of two: row n of T(1,1) = 1,
    T(n,2k-1) = T(n-1,k), T(n,2k) = 2^(n-1) + 1 - T(n-1,k).

    Two neighbours add up to lines + 1, and the best 2^m seeds cannot meet before only 2^m are
    left. Source: OEIS A131271 (A208569 is the same triangle).

    >>> recurrence(8)
    (1, 8, 4, 5, 2, 7, 3, 6)
    """
    order: tuple[int, ...] = (1,)
    while len(order) < lines:
        total = 2 * len(order) + 1
        order = tuple(rank for best in order for rank in (best, total - best))
    return order


def mirrored(lines: int) -> tuple[int, ...]:
    """The same bracket as it is printed: No. 1 on the first line, No. 2 on the last.

    As in `recurrence`, but every second pair stands upside down.
    Source: from memory, unconfirmed; calculated to hold the same pairs.

    >>> mirrored(8)
    (1, 8, 5, 4, 3, 6, 7, 2)
    """
    order: tuple[int, ...] = (1,)
    while len(order) < lines:
        total = 2 * len(order) + 1
        order = tuple(
            rank
            for i, best in enumerate(order)
            for rank in ((best, total - best) if i % 2 == 0 else (total - best, best))
        )
    return order


def international(lines: int) -> tuple[int, ...]:
    """Four seeds apart and the rest by lot, with the qualification bouts at the bottom.

    No. 1 starts on the top line, 2 on the last one, 3 on the top one of the lower half, 4 on the
    bottom one of the upper half. Of every pair one line has a rank of the lower half of all ranks,
    the worst on top: what is not taken of them leaves byes from the top down.
    Source: published, UWW 2017; which ranks the others have: ours, they are drawn by lot.

    >>> international(8)
    (1, 8, 7, 4, 3, 6, 5, 2)
    """
    held = {0: 1, lines - 1: 2, lines // 2: 3, lines // 2 - 1: 4}
    better, worse = count(5), count(lines, -1)
    order: list[int] = []
    for top in range(0, lines, 2):
        if top + 1 in held:
            order += [next(worse), held[top + 1]]
        else:
            order += [held[top] if top in held else next(better), next(worse)]
    return tuple(order)


GENERAL: Mapping[LineOrder, Callable[[int], tuple[int, ...]]] = {
    LineOrder.MIRRORED: mirrored,
    LineOrder.RECURRENCE: recurrence,
    LineOrder.INTERNATIONAL: international,
}


def line_order(lines: int, rules: BracketRules) -> tuple[int, ...]:
    """The rank that starts on each line: the rule book's own order, else its general one."""
    return rules.size(lines).order or GENERAL[rules.line_order](lines)
