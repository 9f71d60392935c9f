"""When opponents meet again, worked out from permutations alone, with no bracket built."""

from collections.abc import Iterator, Sequence
from itertools import permutations, product

Drops = Sequence[Sequence[int]]
"""Per round 2, ..., k - 1 the consolation bout, from 0, to which each loser drops."""


def every_crossing(lines: int) -> Iterator[Drops]:
    last = lines.bit_length() - 1
    sizes = [lines >> number for number in range(2, last)]
    yield from product(*(list(permutations(range(size))) for size in sizes))


def ends(places: int, lines: int) -> tuple[str, ...]:
    """The rounds after the consolation semifinals, in running order."""
    last = lines.bit_length() - 1
    named = (("7th", 7), ("5th", 5), ("3rd", 3))
    return (*(f"C{n}" for n in range(1, 2 * last - 3)), *(c for c, at in named if at <= places))


def earliest(lines: int, drops: Drops, places: int = 4) -> list[int]:
    """Per championship round 1, ..., k - 2 the index in `ends` of the first rematch."""
    last = lines.bit_length() - 1
    codes = ends(places, lines)
    found = []
    for number in range(1, last - 1):
        meetings = []
        for bout in range(lines >> number):
            lost = bout // 2 if number == 1 else drops[number - 2][bout]
            start = max(number, 2)
            for later in range(number + 1, last):
                mine = lost >> (later - start)
                his = drops[later - 2][bout >> (later - number)]
                meetings.append(codes.index(_code(mine, his, later, last, codes)))
        found.append(min(meetings))
    return found


def _code(mine: int, his: int, dropped: int, last: int, codes: Sequence[str]) -> str:
    if mine == his:
        return f"C{2 * dropped - 2}"
    later = dropped
    while mine != his:
        mine, his, later = mine // 2, his // 2, later + 1
    if later < last:
        return f"C{2 * later - 3}"
    missed = {"7th"} if dropped == last - 1 else set()
    return next(code for code in codes[2 * last - 4 :] if code not in missed)
