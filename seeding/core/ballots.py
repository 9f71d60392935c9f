"""Ballots: voters rank the field, their own wrestlers left out; extremes may be dropped."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import ClassVar

from seeding.core.criteria import Input, InputKind, Measured
from seeding.core.pairs import Total, every_pair
from seeding.core.season import Ballot, Season
from seeding.core.shapes import Arrangement
from seeding.core.ties import Seconds
from seeding.core.totals import Totals, arranged
from seeding.core.verdict import Number, plain
from seeding.core.walks import walk


class Sum(StrEnum):
    """What is made of a wrestler's ranks; a sum is smaller for whoever is on fewer ballots."""

    MEAN = "mean"
    SUM = "sum"


@dataclass(frozen=True, slots=True)
class Ranks(Measured):
    """A wrestler's ranks on the ballots: their mean or sum; less is better.

    A ballot says nothing of the voter's own wrestlers. The `drop_best` best and `drop_worst` worst
    ranks are dropped where that leaves any.
    """

    low_is_good: ClassVar[bool] = True

    take: Sum
    drop_best: int
    drop_worst: int

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (Input(InputKind.BALLOTS, "ballots"),)

    def measure(self, wrestler: str, season: Season) -> Number:
        given = sorted(
            ballot.ranks[wrestler]
            for ballot in season.ballots
            if wrestler in ballot.ranks and self.says(ballot, wrestler)
        )
        kept = given[self.drop_best : len(given) - self.drop_worst] or given
        if not kept:
            return Number(None, "none, on no ballot")
        value = Fraction(sum(kept), len(kept) if self.take is Sum.MEAN else 1)
        return Number(value, f"{plain(value)} (ranks {', '.join(map(str, given))})")

    def says(self, ballot: Ballot, wrestler: str) -> bool:
        """Whether this ballot's rank of the wrestler counts."""
        return wrestler not in ballot.own


@dataclass(frozen=True, slots=True)
class RanksOfOthers(Ranks):
    """The same among level wrestlers, without the ranks that they gave each other."""

    group: frozenset[str] = frozenset()

    def among(self, group: Sequence[str]) -> "RanksOfOthers":
        return RanksOfOthers(
            self.name, self.missing, self.take, self.drop_best, self.drop_worst, frozenset(group)
        )

    def says(self, ballot: Ballot, wrestler: str) -> bool:
        # The explicit base: zero-argument super() fails in a dataclass with slots.
        return Ranks.says(self, ballot, wrestler) and not ballot.own & self.group


@dataclass(frozen=True, slots=True)
class ByBallot:
    """The shape: order by ranks on the ballots; who is on none comes last."""

    ranks: Ranks

    def arrange(self, field: Iterable[str], season: Season, seconds: Seconds) -> Arrangement:
        names = sorted(field)
        found = {name: self.ranks.measure(name, season).value for name in names}
        title = f"{self.ranks.take} of ranks"
        worst = max((value for value in found.values() if value is not None), default=Fraction(0))
        none = Total(title, worst + 1, low=True, text="none")
        sums = {
            name: (none if value is None else Total(title, value, low=True),)
            for name, value in found.items()
        }
        pairs = {two: walk(two, (self.ranks,), season) for two in every_pair(names)}
        return arranged(Totals(sums, pairs), seconds)
