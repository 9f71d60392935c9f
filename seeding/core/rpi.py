"""RPI, the rating percentage index: own percentage, that of the opponents, and that of theirs."""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from seeding.core.criteria import Measured
from seeding.core.ledger import Ledger, Records
from seeding.core.records import too_few
from seeding.core.season import PriorBout, Season
from seeding.core.verdict import Number, decimal


class Reading(StrEnum):
    """Which of an opponent's bouts make his percentage.

    without-the-wrestler: those with others than the wrestler (published, with a worked example of
    six games). all-bouts: every one (no source found for a body that reads it so).
    """

    WITHOUT_THE_WRESTLER = "without-the-wrestler"
    ALL_BOUTS = "all-bouts"


class Percentages:
    """The three parts of RPI.

    own: won by bouts. opponents: for each bout, the opponent's percentage over those of his bouts
    that the reading takes; the mean. theirs: for each bout, the opponent's `opponents`; the mean.
    An opponent without any other bout has no percentage and is left out of the mean; where
    nothing is left the part is 0 (no published source for that case). Exact fractions, so that no
    order of adding can change a result.
    """

    def __init__(self, records: Records, reading: Reading = Reading.WITHOUT_THE_WRESTLER) -> None:
        self._records = records
        self._reading = reading
        self._opponents: dict[str, Fraction | None] = {}

    def own(self, wrestler: str) -> Fraction | None:
        record = self._records.of(wrestler)
        return _share(len(record.won), len(record.lost))

    def opponents(self, wrestler: str) -> Fraction | None:
        if wrestler not in self._opponents:
            shares = [self._of_opponent(met, wrestler) for met in self._met(wrestler)]
            self._opponents[wrestler] = _mean(shares)
        return self._opponents[wrestler]

    def _of_opponent(self, met: str, wrestler: str) -> Fraction | None:
        if self._reading is Reading.ALL_BOUTS:
            return self.own(met)
        return _share(*self._records.counts(met, wrestler))

    def theirs(self, wrestler: str) -> Fraction | None:
        return _mean([self.opponents(met) for met in self._met(wrestler)])

    def _met(self, wrestler: str) -> list[str]:
        record = self._records.of(wrestler)
        return [bout.loser for bout in record.won] + [bout.winner for bout in record.lost]


def _share(won: int, lost: int) -> Fraction | None:
    return Fraction(won, won + lost) if won + lost else None


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
    reading: Reading = Reading.WITHOUT_THE_WRESTLER

    def measure(self, wrestler: str, season: Season) -> Number:
        records = self.ledger.records(season)
        count = len(records.of(wrestler))
        if count < max(self.minimum_bouts, 1):
            return Number(None, too_few(count, self.minimum_bouts))
        asked = season.once(
            (Percentages, self.ledger, self.reading), lambda: Percentages(records, self.reading)
        )
        values = asked.own(wrestler), asked.opponents(wrestler), asked.theirs(wrestler)
        pairs = zip(self.parts, values, strict=True)
        total = sum((part * (value or 0) for part, value in pairs), Fraction(0))
        return Number(total, decimal(total, 4))

    def evidence(self, wrestler: str, season: Season) -> tuple[PriorBout, ...]:
        record = self.ledger.records(season).of(wrestler)
        return record.won + record.lost
