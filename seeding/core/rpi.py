"""RPI, the rating percentage index: own percentage, that of the opponents, and that of theirs."""

from dataclasses import dataclass
from fractions import Fraction

from seeding.core.criteria import Measured
from seeding.core.records import too_few
from seeding.core.season import Ledger, PriorBout, Season
from seeding.core.verdict import Number, decimal


@dataclass(frozen=True, slots=True)
class Percentages:
    """The three parts of RPI as published with a worked example of six games.

    own: won by bouts. opponents: for each bout, the opponent's percentage over his bouts with
    others than the wrestler; the mean. theirs: for each bout, the opponent's `opponents`; the mean.
    An opponent without any other bout has no percentage and is left out of the mean; where
    nothing is left the part is 0 (no published source for that case). Exact fractions, so that no
    order of adding can change a result.
    """

    ledger: Ledger

    def own(self, wrestler: str, season: Season, without: str | None = None) -> Fraction | None:
        record = self.ledger.record(wrestler, season)
        won = sum(bout.loser != without for bout in record.won)
        lost = sum(bout.winner != without for bout in record.lost)
        return Fraction(won, won + lost) if won + lost else None

    def opponents(self, wrestler: str, season: Season) -> Fraction | None:
        return season.once((self, wrestler), lambda: self._opponents(wrestler, season))

    def _opponents(self, wrestler: str, season: Season) -> Fraction | None:
        return _mean([self.own(met, season, wrestler) for met in self._met(wrestler, season)])

    def theirs(self, wrestler: str, season: Season) -> Fraction | None:
        return _mean([self.opponents(met, season) for met in self._met(wrestler, season)])

    def _met(self, wrestler: str, season: Season) -> list[str]:
        record = self.ledger.record(wrestler, season)
        return [bout.loser for bout in record.won] + [bout.winner for bout in record.lost]


def _mean(values: list[Fraction | None]) -> Fraction | None:
    known = [value for value in values if value is not None]
    return sum(known, Fraction(0)) / len(known) if known else None


@dataclass(frozen=True, slots=True)
class Rpi(Measured):
    """`parts` of own, opponents' and their opponents' percentage, added; .25, .50, .25 is usual.

    Nobody has one with fewer than `minimum_bouts`.
    """

    ledger: Ledger
    parts: tuple[Fraction, Fraction, Fraction]
    minimum_bouts: int

    def measure(self, wrestler: str, season: Season) -> Number:
        count = len(self.ledger.record(wrestler, season))
        if count < max(self.minimum_bouts, 1):
            return Number(None, too_few(count, self.minimum_bouts))
        asked = Percentages(self.ledger)
        values = (
            asked.own(wrestler, season),
            asked.opponents(wrestler, season),
            asked.theirs(wrestler, season),
        )
        pairs = zip(self.parts, values, strict=True)
        total = sum((part * (value or 0) for part, value in pairs), Fraction(0))
        return Number(total, decimal(total, 4))

    def evidence(self, wrestler: str, season: Season) -> tuple[PriorBout, ...]:
        record = self.ledger.record(wrestler, season)
        return record.won + record.lost
