"""Shapes: how a list of criteria turns comparisons of two into an order of all.

A comparison of two is no sort key: A may stand over B, B over C and C over A. A shape looks at
every pair, or at rounds of pairs, and never at the order in which wrestlers are put in.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from typing import Protocol

from seeding.core.season import Season
from seeding.core.verdict import Number, Sentence, Verdict, plain

HALF, NONE, ONE = Fraction(1, 2), Fraction(0), Fraction(1)
Key = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Pair:
    """What the list says about two wrestlers, whose ids stand in alphabetical order.

    `shares`: what each gets out of the pair. `deciding`: the verdict that counted most for the
    better one. `remark`: why the bouts alone did not decide.
    """

    wrestlers: Key
    verdicts: tuple[Verdict, ...]
    shares: tuple[Fraction, Fraction]
    deciding: Verdict | None
    remark: Sentence | None = None

    @property
    def better(self) -> str | None:
        if self.shares[0] == self.shares[1]:
            return None
        return self.wrestlers[self.shares[0] < self.shares[1]]

    def share(self, wrestler: str) -> Fraction:
        return self.shares[self.wrestlers.index(wrestler)]


@dataclass(frozen=True, slots=True)
class Total:
    """A sum over a wrestler's pairs, such as points."""

    name: str
    value: Fraction

    def __str__(self) -> str:
        return plain(self.value)

    @property
    def number(self) -> Number:
        return Number(self.value, str(self))


@dataclass(frozen=True, slots=True)
class Arrangement:
    """What a shape makes of a field.

    `tiers`: best first; those of one tier it cannot separate, in alphabetical order of their ids.
    `totals`: the sums that made the tiers, strongest first (none in a shape without sums).
    """

    tiers: tuple[tuple[str, ...], ...]
    totals: Mapping[str, tuple[Total, ...]]
    pairs: Mapping[Key, Pair]

    def pair(self, a: str, b: str) -> Pair:
        return self.pairs[key(a, b)]


class Shape(Protocol):
    """One way from criteria to an order."""

    def arrange(self, field: Iterable[str], season: Season) -> Arrangement: ...


def key(a: str, b: str) -> Key:
    """The two in alphabetical order, as pairs are kept."""
    return (a, b) if a < b else (b, a)


def every_pair(field: Iterable[str]) -> tuple[Key, ...]:
    """Each two of the field once."""
    return tuple(combinations(sorted(field), 2))


def tiers(totals: Mapping[str, Sequence[Total]]) -> tuple[tuple[str, ...], ...]:
    """Those with equal totals together, the highest first.

    >>> one, half = [Total("points", ONE)], [Total("points", HALF)]
    >>> tiers({"b": one, "a": one, "c": half})
    (('a', 'b'), ('c',))
    """
    level: dict[tuple[Fraction, ...], list[str]] = {}
    for wrestler in sorted(totals):
        level.setdefault(tuple(total.value for total in totals[wrestler]), []).append(wrestler)
    return tuple(tuple(level[values]) for values in sorted(level, reverse=True))


def add_up(field: Iterable[str], pairs: Iterable[Pair]) -> dict[str, Fraction]:
    """Each wrestler's shares over all his pairs."""
    sums = dict.fromkeys(sorted(field), NONE)
    for pair in pairs:
        for wrestler, share in zip(pair.wrestlers, pair.shares, strict=True):
            sums[wrestler] += share
    return sums
