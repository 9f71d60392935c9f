"""Orders that sums make: highest first, the level ones by the second list."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from seeding.core.pairs import Key, Pair, Total, key, tiers
from seeding.core.reasons import OTHERWISE, Before, Reason, Step, between, by_seconds, level, more
from seeding.core.shapes import Arrangement, SettledCircle
from seeding.core.ties import Seconds, Settled
from seeding.core.verdict import Sentence, Verdict


@dataclass(frozen=True, slots=True)
class Totals:
    """What a shape of sums hands over: the sums of each, and what each pair said."""

    sums: Mapping[str, tuple[Total, ...]]
    pairs: Mapping[Key, Pair]
    circles: tuple[SettledCircle, ...] = ()


def arranged(totals: Totals, seconds: Seconds) -> Arrangement:
    """The order that the sums make."""
    settled: list[Settled] = []
    place = 1
    for tier in tiers(totals.sums):
        settled.append(seconds.settle(tier, place))
        place += len(tier)
    scores = {name: score for part in settled for name, score in part.scores.items()}
    order = tuple(name for part in settled for name in part.order)
    return Arrangement(
        order=order,
        totals=MappingProxyType(dict(totals.sums)),
        pairs=MappingProxyType(dict(totals.pairs)),
        drawn=tuple(group for part in settled for group in part.drawn),
        open=tuple(group for part in settled for group in part.open),
        circles=totals.circles,
        account=BySums(totals, scores, seconds),
        seedable=len(order),
    )


@dataclass(frozen=True, slots=True)
class BySums:
    """Explains any two of an order that sums made."""

    totals: Totals
    scores: Mapping[str, tuple[Fraction, ...]]
    seconds: Seconds

    def reason(self, above: str, below: str) -> Reason:
        """The reason for `above` over `below`, in this direction."""
        pair = self.totals.pairs[key(above, below)]
        sums = self.totals.sums
        both = tuple(zip(sums[above], sums[below], strict=True))
        if any(high.value != low.value for high, low in both):
            return _by_sums(above, below, pair, both)
        words = (*level(above, below, both), *between(pair, above, below))
        before = Before(words, both, pair.verdicts)
        tier = {one: self.scores[one] for one in sums if sums[one] == sums[above]}
        return by_seconds(above, below, self.seconds, tier, before)


def _by_sums(above: str, below: str, pair: Pair, both: tuple[tuple[Total, Total], ...]) -> Reason:
    at = [high.value == low.value for high, low in both].index(False)
    first, same = both[at], level(above, below, both[:at])
    decided = pair.deciding
    own = decided is not None and decided.better == above
    criterion = decided.criterion if decided is not None and own else first[0].name
    return Reason(
        above,
        below,
        Step.TOTALS,
        criterion,
        both,
        pair.verdicts,
        (*same, more(above, below, *first), *_turned(decided, below), *between(pair, above, below)),
        decided.bouts if decided is not None else (),
    )


def _turned(decided: Verdict | None, below: str) -> tuple[Sentence, ...]:
    """A word of warning where what is said next speaks for the lower one."""
    turned = decided is not None and decided.better == below
    return (Sentence.of(OTHERWISE, {}),) if turned else ()
