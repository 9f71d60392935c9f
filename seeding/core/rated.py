"""A rating of the whole season as a criterion."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from seeding.core.criteria import Measured
from seeding.core.ledger import Ledger
from seeding.core.ratings.names import Rating
from seeding.core.records import too_few
from seeding.core.season import PriorBout, ResultKind, Season
from seeding.core.verdict import Number, decimal

DIGITS = 4
Bouts = tuple[PriorBout, ...]


@dataclass(frozen=True, slots=True)
class Rated(Measured):
    """Everybody's rating from all bouts of the season that are a win for one and a loss for one.

    Compared to nine digits, written with four. Nobody has one with fewer than `minimum_bouts` such
    bouts. No source found for how a body counts bouts in a rating of this kind.
    """

    ledger: Ledger
    rating: Rating
    minimum_bouts: int

    def measure(self, wrestler: str, season: Season) -> Number:
        count = len(self.evidence(wrestler, season))
        if count < max(self.minimum_bouts, 1):
            return Number(None, too_few(count, self.minimum_bouts))
        value = self._values(season)[wrestler]
        return Number(value, signed(value, DIGITS))

    def evidence(self, wrestler: str, season: Season) -> Bouts:
        mine = season.once((Rated, self.ledger, "own"), lambda: _by_wrestler(self._bouts(season)))
        return mine.get(wrestler, ())

    def _bouts(self, season: Season) -> Bouts:
        return season.once((Rated, self.ledger), lambda: rated_bouts(self.ledger, season))

    def _values(self, season: Season) -> Mapping[str, Fraction]:
        # Loading numpy and scipy takes most of a second, and most pages need no rating.
        from seeding.core.ratings.values import values  # noqa: PLC0415

        key = Rated, self.ledger, self.rating
        return season.once(key, lambda: values(self.rating, self._bouts(season)))


def rated_bouts(ledger: Ledger, season: Season) -> Bouts:
    """The bouts that the ledger counts as a win for one and as a loss for the other."""
    records = ledger.records(season)
    return tuple(
        bout
        for bout in season.bouts
        if ledger.win.counts(bout, season)
        and ledger.loss.counts(bout, season)
        # Of medical forfeits a ledger may count some and not others.
        and (bout.kind != ResultKind.MEDICAL or bout in records.of(bout.loser).lost)
    )


def _by_wrestler(bouts: Bouts) -> Mapping[str, Bouts]:
    mine: dict[str, list[PriorBout]] = {}
    for bout in bouts:
        for wrestler in (bout.winner, bout.loser):
            mine.setdefault(wrestler, []).append(bout)
    return {wrestler: tuple(own) for wrestler, own in mine.items()}


def signed(value: Fraction, digits: int) -> str:
    """The value to so many digits, with a minus sign where it is below 0 as written.

    >>> signed(Fraction(-5, 4), 1), signed(Fraction(-1, 100), 1)
    ('-1.3', '.0')
    """
    text = decimal(abs(value), digits)
    return f"-{text}" if value < 0 and text.strip(".0") else text
