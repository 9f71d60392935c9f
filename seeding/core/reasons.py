"""Why one wrestler stands above another in an order."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from seeding.core.criteria import Criterion
from seeding.core.season import PriorBout, Season
from seeding.core.shapes import Arrangement, Pair, Total
from seeding.core.ties import separated
from seeding.core.verdict import Sentence, Verdict, plain


class Step(StrEnum):
    """What put one above the other: the shape's totals, the second list, or the lot."""

    TOTALS = "totals"
    TIES = "ties"
    LOT = "lot"


@dataclass(frozen=True, slots=True)
class Reason:
    """Why `above` stands over `below`.

    `criterion`: the name of what decided: the strongest criterion that speaks for `above` in their
    pair, or else the total, the line of the second list, or "lot". `totals`: of both, by name.
    `verdicts`: what every criterion that was asked says about the two. `bouts`: evidence of the
    deciding verdict, in whichever direction it went.
    """

    above: str
    below: str
    step: Step
    criterion: str
    totals: tuple[tuple[Total, Total], ...]
    verdicts: tuple[Verdict, ...]
    sentences: tuple[Sentence, ...]
    bouts: tuple[PriorBout, ...]

    def say(self, names: Mapping[str, str] | None = None) -> str:
        """All sentences, with names where given and ids where not."""
        return " ".join(sentence.say(names) for sentence in self.sentences)


@dataclass(frozen=True, slots=True)
class Explainer:
    """What is needed to explain any two of a field."""

    arrangement: Arrangement
    ties: tuple[Criterion, ...]
    scores: Mapping[str, tuple[Fraction, ...]]
    season: Season
    lot_seed: str

    def reason(self, above: str, below: str) -> Reason:
        """The reason for `above` over `below`, in this direction."""
        pair = self.arrangement.pair(above, below)
        totals = self._totals(above, below)
        if any(high.value != low.value for high, low in totals):
            return self._by_totals(above, below, pair, totals)
        return self._by_ties(above, below, pair, totals)

    def _totals(self, above: str, below: str) -> tuple[tuple[Total, Total], ...]:
        sums = self.arrangement.totals
        return tuple(zip(sums[above], sums[below], strict=True))

    def _by_totals(
        self, above: str, below: str, pair: Pair, totals: tuple[tuple[Total, Total], ...]
    ) -> Reason:
        at = [high.value == low.value for high, low in totals].index(False)
        first, level = totals[at], _level(above, below, totals[:at])
        decided = pair.deciding
        own = decided is not None and decided.better == above
        criterion = decided.criterion if decided is not None and own else first[0].name
        return Reason(
            above,
            below,
            Step.TOTALS,
            criterion,
            totals,
            pair.verdicts,
            (*level, _more(above, below, *first), *_between(pair, above, below)),
            decided.bouts if decided is not None else (),
        )

    def _by_ties(
        self, above: str, below: str, pair: Pair, totals: tuple[tuple[Total, Total], ...]
    ) -> Reason:
        level, own = _level(above, below, totals), _between(pair, above, below)
        found = separated(above, below, self.ties, self.scores)
        if found is None:
            drawn = _drawn(above, below, self.lot_seed)
            words = (*level, *own, drawn)
            return Reason(above, below, Step.LOT, "lot", totals, pair.verdicts, words, ())
        criterion, high, low = found
        verdict = criterion.compare(above, below, self.season)
        second = _second(above, below, criterion.name, high, low)
        words = tuple(dict.fromkeys((*level, *own, second, verdict.sentence)))
        verdicts = (*pair.verdicts, verdict)
        return Reason(
            above, below, Step.TIES, criterion.name, totals, verdicts, words, verdict.bouts
        )


def _more(above: str, below: str, high: Total, low: Total) -> Sentence:
    return Sentence.of(
        "{above} stands above {below} with {total} {high} against {low}.",
        {"above": above, "below": below},
        total=high.name,
        high=high,
        low=low,
    )


def _between(pair: Pair, above: str, below: str) -> tuple[Sentence, ...]:
    """What the pair itself says, which need not be what the totals say."""
    better = pair.better or above
    worse = below if better == above else above
    found = [pair.remark] if pair.remark is not None else []
    if any(pair.shares) and max(pair.shares) < 1 and pair.remark is None:
        found.append(_weighed(pair, better, worse))
    if pair.deciding is not None:
        found.append(pair.deciding.sentence)
    elif not any(verdict.better for verdict in pair.verdicts):
        people = {"above": above, "below": below}
        found.append(Sentence.of("Between {above} and {below} the list decides nothing.", people))
    return tuple(found)


def _weighed(pair: Pair, better: str, worse: str) -> Sentence:
    return Sentence.of(
        "Between the two {better} has {high} against {low}{lines}.",
        {"better": better, "worse": worse},
        high=plain(pair.share(better)),
        low=plain(pair.share(worse)),
        lines=_sides(pair, better, worse),
    )


def _sides(pair: Pair, better: str, worse: str) -> str:
    sides = (
        (word, [verdict.criterion for verdict in pair.verdicts if verdict.better == wrestler])
        for word, wrestler in (("for", better), ("against", worse))
    )
    return "".join(f"; {word}: {', '.join(names)}" for word, names in sides if names)


def _level(above: str, below: str, totals: Sequence[tuple[Total, Total]]) -> tuple[Sentence, ...]:
    words = ", ".join(f"{high.name} {high}" for high, _ in totals)
    people = {"above": above, "below": below}
    sentence = Sentence.of("{above} and {below} are level ({totals}).", people, totals=words)
    return (sentence,) if totals else ()


def _second(above: str, below: str, name: str, high: Fraction, low: Fraction) -> Sentence:
    return Sentence.of(
        "Among those level, {criterion} puts {above} above {below}: {high} against {low}.",
        {"above": above, "below": below},
        criterion=name,
        high=plain(high),
        low=plain(low),
    )


def _drawn(above: str, below: str, seed: str) -> Sentence:
    return Sentence.of(
        "Nothing else separates {above} and {below}, so the lot did (seed {seed}).",
        {"above": above, "below": below},
        seed=seed,
    )
