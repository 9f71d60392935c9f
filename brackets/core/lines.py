"""Which seed starts on which line, top to bottom."""

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


def line_order(lines: int, rules: BracketRules) -> tuple[int, ...]:
    """The rank that starts on each line: the rule book's own order, else its general one."""
    general = recurrence if rules.line_order is LineOrder.RECURRENCE else mirrored
    return rules.size(lines).order or general(lines)
