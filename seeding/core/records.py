"""Criteria over a wrestler's own bouts: win percentage and quality wins."""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Protocol

from seeding.core.criteria import Input, InputKind, Measured, Repeats
from seeding.core.ledger import Ledger, Record
from seeding.core.season import PriorBout, Season
from seeding.core.verdict import Number, decimal, whole


class Equal(StrEnum):
    """Who is better at equal percentage."""

    MORE_WINS = "more-wins"
    NOBODY = "nobody"


@dataclass(frozen=True, slots=True)
class WinPercentage(Measured):
    """Bouts won by bouts; nobody has one with fewer than `minimum_bouts`."""

    ledger: Ledger
    minimum_bouts: int
    equal: Equal

    def record(self, wrestler: str, season: Season) -> Record:
        """The bouts that count."""
        return self.ledger.records(season).of(wrestler)

    def measure(self, wrestler: str, season: Season) -> Number:
        record = self.record(wrestler, season)
        if len(record) < max(self.minimum_bouts, 1):
            return Number(None, too_few(len(record), self.minimum_bouts))
        share = Fraction(len(record.won), len(record))
        then = Fraction(len(record.won)) if self.equal is Equal.MORE_WINS else Fraction(0)
        return Number(share, f"{decimal(share, 3)} ({record})", then)

    def evidence(self, wrestler: str, season: Season) -> tuple[PriorBout, ...]:
        record = self.record(wrestler, season)
        return record.won + record.lost


@dataclass(frozen=True, slots=True)
class Wins(Measured):
    """The number of bouts won."""

    ledger: Ledger

    def measure(self, wrestler: str, season: Season) -> Number:
        return whole(len(self.evidence(wrestler, season)))

    def evidence(self, wrestler: str, season: Season) -> tuple[PriorBout, ...]:
        return self.ledger.records(season).of(wrestler).won


def too_few(count: int, minimum: int) -> str:
    """Why there is no number."""
    return f"none, {count} of {minimum} bouts" if count else "none, no bouts"


class Quality(Protocol):
    """Whether a win over this opponent is a quality win."""

    @property
    def inputs(self) -> tuple[Input, ...]: ...

    def holds(self, opponent: str, season: Season) -> bool: ...


@dataclass(frozen=True, slots=True)
class OverRanked:
    """The opponent is among the best `top` of a ranking."""

    ranking: str
    top: int

    @property
    def inputs(self) -> tuple[Input, ...]:
        return (Input(InputKind.RANKING, self.ranking),)

    def holds(self, opponent: str, season: Season) -> bool:
        rank = season.rankings.get(self.ranking, {}).get(opponent)
        return rank is not None and rank <= self.top


@dataclass(frozen=True, slots=True)
class OverField:
    """The opponent is entered in this weight."""

    @property
    def inputs(self) -> tuple[Input, ...]:
        return ()

    def holds(self, opponent: str, season: Season) -> bool:
        return opponent in season.entrants


@dataclass(frozen=True, slots=True)
class OverWinning:
    """The opponent has at least this win percentage (as .500) over enough bouts."""

    ledger: Ledger
    percentage: Fraction
    minimum_bouts: int

    @property
    def inputs(self) -> tuple[Input, ...]:
        return ()

    def holds(self, opponent: str, season: Season) -> bool:
        record = self.ledger.records(season).of(opponent)
        enough = len(record) >= max(self.minimum_bouts, 1)
        return enough and len(record.won) >= self.percentage * len(record)


@dataclass(frozen=True, slots=True)
class QualityWins(Measured):
    """The number of wins over good opponents."""

    ledger: Ledger
    quality: Quality
    repeats: Repeats

    @property
    def inputs(self) -> tuple[Input, ...]:
        return self.quality.inputs

    def measure(self, wrestler: str, season: Season) -> Number:
        won = self.evidence(wrestler, season)
        if self.repeats is Repeats.ONCE:
            return whole(len({bout.loser for bout in won}))
        return whole(len(won))

    def evidence(self, wrestler: str, season: Season) -> tuple[PriorBout, ...]:
        won = self.ledger.records(season).of(wrestler).won
        return tuple(bout for bout in won if self.quality.holds(bout.loser, season))


@dataclass(frozen=True, slots=True)
class StrongRecord(WinPercentage):
    """Win percentage over the bouts with good opponents alone."""

    over: Quality

    @property
    def inputs(self) -> tuple[Input, ...]:
        return self.over.inputs

    def record(self, wrestler: str, season: Season) -> Record:
        record = self.ledger.records(season).of(wrestler)
        return Record(
            tuple(bout for bout in record.won if self.over.holds(bout.loser, season)),
            tuple(bout for bout in record.lost if self.over.holds(bout.winner, season)),
        )
