"""Two wrestlers and what the list says about them; sums over all pairs of a field.

A comparison of two is no sort key: A may stand over B, B over C and C over A. Whatever puts a
field in order looks at every pair, and never at the order in which wrestlers are put in.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from seeding.core.verdict import Number, Sentence, Verdict, plain

HALF, NONE, ONE = Fraction(1, 2), Fraction(0), Fraction(1)
Key = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Pair:
    """What the list says about two wrestlers, whose ids stand in alphabetical order.

    `shares`: what each gets out of the pair. `deciding`: the verdict that counted most for the
    better one. `remarks`: why what came before did not decide.
    """

    wrestlers: Key
    verdicts: tuple[Verdict, ...]
    shares: tuple[Fraction, Fraction]
    deciding: Verdict | None
    remarks: tuple[Sentence, ...] = ()

    @property
    def better(self) -> str | None:
        if self.shares[0] == self.shares[1]:
            return None
        return self.wrestlers[self.shares[0] < self.shares[1]]

    def share(self, wrestler: str) -> Fraction:
        return self.shares[self.wrestlers.index(wrestler)]


@dataclass(frozen=True, slots=True)
class Total:
    """A sum that orders wrestlers, such as points; with `low` the smaller is better.

    `text`: what is written for it where the value only gives who has none his place.
    """

    name: str
    value: Fraction
    low: bool = False
    text: str = ""

    @property
    def rank(self) -> Fraction:
        """More is better."""
        return -self.value if self.low else self.value

    def __str__(self) -> str:
        return self.text or plain(self.value)

    @property
    def number(self) -> Number:
        return Number(self.value, str(self))


def key(a: str, b: str) -> Key:
    """The two in alphabetical order, as pairs are kept."""
    return (a, b) if a < b else (b, a)


def every_pair(field: Iterable[str]) -> tuple[Key, ...]:
    """Each two of the field once."""
    return tuple(combinations(sorted(field), 2))


def tiers(totals: Mapping[str, Sequence[Total]]) -> tuple[tuple[str, ...], ...]:
    """Those with equal totals together, the best first.

    >>> one, half = [Total("points", ONE)], [Total("points", HALF)]
    >>> tiers({"b": one, "a": one, "c": half})
    (('a', 'b'), ('c',))
    """
    level: dict[tuple[Fraction, ...], list[str]] = {}
    for wrestler in sorted(totals):
        level.setdefault(tuple(total.rank for total in totals[wrestler]), []).append(wrestler)
    return tuple(tuple(level[values]) for values in sorted(level, reverse=True))


def add_up(field: Iterable[str], pairs: Iterable[Pair]) -> dict[str, Fraction]:
    """Each wrestler's shares over all his pairs."""
    sums = dict.fromkeys(sorted(field), NONE)
    for pair in pairs:
        for wrestler, share in zip(pair.wrestlers, pair.shares, strict=True):
            sums[wrestler] += share
    return sums
