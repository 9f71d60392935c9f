"""Shapes: how a list of criteria turns comparisons of two into an order of all."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Protocol

from seeding.core.circles import Circle
from seeding.core.pairs import Key, Pair, Total, key
from seeding.core.reasons import Reason
from seeding.core.season import Season
from seeding.core.ties import Seconds
from seeding.core.verdict import Sentence


class Account(Protocol):
    """What is remembered of how an order came about, to explain any two of it."""

    def reason(self, above: str, below: str) -> Reason: ...


@dataclass(frozen=True, slots=True)
class SettledCircle:
    """A circle of what the list says, and in words how it was settled."""

    circle: Circle
    settled: Sentence


@dataclass(frozen=True, slots=True)
class Arrangement:
    """What a shape makes of a field.

    `order`: everybody, best first. `totals`: the sums that made it, strongest first, per wrestler
    (none in a shape without sums). `pairs`: what the list says about each two. `drawn`: groups that
    only the lot could part. `open`: groups that the list leaves to the committee or a vote; until
    then they stand by lot. `seedable`: so many from the top may be seeded at all.
    """

    order: tuple[str, ...]
    totals: Mapping[str, tuple[Total, ...]]
    pairs: Mapping[Key, Pair]
    drawn: tuple[tuple[str, ...], ...]
    open: tuple[tuple[str, ...], ...]
    circles: tuple[SettledCircle, ...]
    account: Account
    seedable: int

    def pair(self, a: str, b: str) -> Pair:
        return self.pairs[key(a, b)]


class Shape(Protocol):
    """One way from criteria to an order; `seconds` orders those whom it cannot part."""

    def arrange(self, field: Iterable[str], season: Season, seconds: Seconds) -> Arrangement: ...
