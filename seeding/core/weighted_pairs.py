"""Weighted pairs: in each pair a criterion gives its weight to the better one."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import lcm

from seeding.core.criteria import Criterion
from seeding.core.pairs import HALF, NONE, ONE, Key, Pair, Total, add_up, every_pair
from seeding.core.season import Season
from seeding.core.shapes import Arrangement
from seeding.core.ties import Seconds
from seeding.core.totals import Totals, arranged
from seeding.core.verdict import Verdict


@dataclass(frozen=True, slots=True)
class Weighted:
    """A criterion and what it weighs; only the ratio of the weights matters."""

    criterion: Criterion
    weight: Fraction


class Undecided(StrEnum):
    """What becomes of the weight of a criterion that decides nothing in a pair."""

    DROPPED = "dropped"
    SPLIT = "split"
    RENORMALISED = "renormalised"


class PairsOrder(StrEnum):
    """What the field is ordered by."""

    PAIRS_WON = "pairs-won"
    SUM_OF_WEIGHTS = "sum-of-weights"


@dataclass(frozen=True, slots=True)
class WeightedPairs:
    """Order by pairs won (a level pair is half a pair for both), by the sum of weights, or both.

    Shares of a pair are parts of the whole weight, 0 to 1.
    """

    criteria: tuple[Weighted, ...]
    undecided: Undecided
    order_by: tuple[PairsOrder, ...]

    def arrange(self, field: Iterable[str], season: Season, seconds: Seconds) -> Arrangement:
        names = sorted(field)
        units = _units([line.weight for line in self.criteria])
        pairs = {two: self._pair(two, units, season) for two in every_pair(names)}
        sums = {
            PairsOrder.SUM_OF_WEIGHTS: add_up(names, pairs.values()),
            PairsOrder.PAIRS_WON: _pairs_won(names, pairs.values()),
        }
        totals = {
            name: tuple(Total(by.replace("-", " "), sums[by][name]) for by in self.order_by)
            for name in names
        }
        return arranged(Totals(totals, pairs), seconds)

    def _pair(self, two: Key, units: Sequence[int], season: Season) -> Pair:
        verdicts = tuple([line.criterion.compare(*two, season) for line in self.criteria])
        shares = self._shares(two, units, verdicts)
        pair = Pair(two, verdicts, shares, None)
        return Pair(two, verdicts, shares, self._deciding(pair))

    def _shares(
        self, two: Key, units: Sequence[int], verdicts: tuple[Verdict, ...]
    ) -> tuple[Fraction, Fraction]:
        got = dict.fromkeys((*two, None), 0)
        for weight, verdict in zip(units, verdicts, strict=True):
            got[verdict.better] += weight
        a, b, left = got[two[0]], got[two[1]], got[None]
        if self.undecided is Undecided.SPLIT:
            a, b, left = 2 * a + left, 2 * b + left, 0
        elif self.undecided is Undecided.RENORMALISED:
            left = 0
        whole = a + b + left
        return (Fraction(a, whole), Fraction(b, whole)) if whole else (HALF, HALF)

    def _deciding(self, pair: Pair) -> Verdict | None:
        lines = [
            (line.weight, verdict)
            for line, verdict in zip(self.criteria, pair.verdicts, strict=True)
            if verdict.better is not None and verdict.better == pair.better
        ]
        return max(lines, key=lambda line: line[0])[1] if lines else None


def _units(weights: Sequence[Fraction]) -> list[int]:
    """The weights as whole numbers in the same ratios."""
    shared = lcm(*(weight.denominator for weight in weights))
    return [int(weight * shared) for weight in weights]


def _pairs_won(field: Iterable[str], pairs: Iterable[Pair]) -> dict[str, Fraction]:
    won = dict.fromkeys(field, NONE)
    for pair in pairs:
        for name in pair.wrestlers:
            won[name] += HALF if pair.better is None else ONE if pair.better == name else NONE
    return won
