"""How a crowd of teams can part between the two halves of a node."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache, lru_cache
from math import factorial, prod
from typing import NamedTuple

from brackets.core.apart.kinds import ANYWHERE, NOBODY, Kind

Crowd = tuple[tuple[int, int], ...]
"""How many teams there are of each kind, by kind; those who may stand anywhere are left out."""


class Parted(NamedTuple):
    """The crowds in both halves, and how many free members went to the upper one."""

    upper: Crowd
    lower: Crowd
    up: int


Ways = Mapping[Parted, int]
"""In how many ways named teams can part so."""

ALL_AT_HOME: Ways = {Parted((), (), 0): 1}


def crowd(kinds: Iterable[int]) -> Crowd:
    """The kinds counted, without those who may stand anywhere."""
    return _crowd(Counter(kinds))


def _crowd(counted: Mapping[int, int]) -> Crowd:
    return tuple(
        sorted((kind, n) for kind, n in counted.items() if n and kind not in (NOBODY, ANYWHERE))
    )


@lru_cache(maxsize=1 << 14)
def together(one: Crowd, other: Crowd) -> Crowd:
    """Two crowds as one."""
    if not (one and other):
        return one or other
    counted = dict(one)
    for kind, n in other:
        counted[kind] = counted.get(kind, 0) + n
    return tuple(sorted(counted.items()))


def ways_of(kind: Kind, teams: int) -> Ways:
    """How so many teams of one kind can part."""
    found: Counter[Parted] = Counter()
    for takers in _parts(teams, len(kind.splits)):
        upper, lower, up = Counter[int](), Counter[int](), 0
        for split, n in zip(kind.splits, takers, strict=True):
            upper[split.kinds[0]] += n
            lower[split.kinds[1]] += n
            up += n * split.upper
        ways = factorial(teams) // prod(map(factorial, takers))
        found[Parted(_crowd(upper), _crowd(lower), up)] += ways
    return found


def joined(one: Ways, other: Ways) -> Ways:
    """How two crowds can part side by side."""
    found: dict[Parted, int] = {}
    for a, n in one.items():
        for b, m in other.items():
            key = Parted(together(a.upper, b.upper), together(a.lower, b.lower), a.up + b.up)
            found[key] = found.get(key, 0) + n * m
    return found


@cache
def _parts(total: int, parts: int) -> Sequence[tuple[int, ...]]:
    """Every way to write a total as so many numbers."""
    return tuple(_writing(total, parts))


def _writing(total: int, parts: int) -> Iterator[tuple[int, ...]]:
    if parts == 1:
        yield (total,)
        return
    for first in range(total + 1):
        for others in _writing(total - first, parts - 1):
            yield first, *others
