"""Why one wrestler stands above another in an order."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from seeding.core.pairs import Pair, Total
from seeding.core.season import PriorBout
from seeding.core.ties import Final, Seconds, separated
from seeding.core.verdict import Sentence, Verdict, plain


class Step(StrEnum):
    """What put one above the other.

    totals: the shape's sums. criteria: the list between the two, one by one. circle: the way a
    circle was settled. stage: a stage of a pipeline. ties: the second list. lot: chance. open: the
    list leaves it to the committee or a vote, and until then the lot stands in.
    """

    TOTALS = "totals"
    CRITERIA = "criteria"
    CIRCLE = "circle"
    STAGE = "stage"
    TIES = "ties"
    LOT = "lot"
    OPEN = "open"


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

    @property
    def short(self) -> tuple[Sentence, ...]:
        """The sentences without the sums between the two, for a line beside the order."""
        return tuple(one for one in self.sentences if one.template != WEIGHED)

    def say(self, names: Mapping[str, str] | None = None) -> str:
        """All sentences, with names where given and ids where not."""
        return " ".join(sentence.say(names) for sentence in self.sentences)


def more(above: str, below: str, high: Total, low: Total) -> Sentence:
    """The sum by which the one stands above."""
    return Sentence.of(
        "{above} stands above {below} with {total} {high} against {low}.",
        {"above": above, "below": below},
        total=high.name,
        high=high,
        low=low,
    )


WEIGHED = "Between the two {better} has {high} against {low}{lines}."
OTHERWISE = "Between the two alone it is the other way round:"


def between(pair: Pair, above: str, below: str) -> tuple[Sentence, ...]:
    """What the pair itself says, which need not be what the totals say."""
    better = pair.better or above
    worse = below if better == above else above
    found = [*pair.remarks]
    decided = any(verdict.better for verdict in pair.verdicts)
    if decided and any(pair.shares) and max(pair.shares) < 1 and not pair.remarks:
        found.append(_weighed(pair, better, worse))
    if pair.deciding is not None:
        found.append(pair.deciding.sentence)
    elif not decided and not pair.remarks:
        people = {"above": above, "below": below}
        found.append(Sentence.of("Between {above} and {below} the list decides nothing.", people))
    return tuple(found)


def _weighed(pair: Pair, better: str, worse: str) -> Sentence:
    return Sentence.of(
        WEIGHED,
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


def level(above: str, below: str, totals: Sequence[tuple[Total, Total]]) -> tuple[Sentence, ...]:
    """The sums in which two are level, if there are any."""
    words = ", ".join(f"{high.name} {high}" for high, _ in totals)
    people = {"above": above, "below": below}
    sentence = Sentence.of("{above} and {below} are level ({totals}).", people, totals=words)
    return (sentence,) if totals else ()


def _second(above: str, below: str, name: str, high: Fraction, low: Fraction) -> Sentence:
    return Sentence.of(
        "Among those level, {criterion} puts {above} above {below}: "
        "pairs won {high} against {low}.",
        {"above": above, "below": below},
        criterion=name,
        high=plain(high),
        low=plain(low),
    )


LAST = {
    Final.LOT: "Nothing else separates {above} and {below}, so the lot did (seed {seed}).",
    Final.COIN: "Nothing else separates {above} and {below}, so the coin did (seed {seed}).",
    Final.VOTE: "Nothing separates {above} and {below}: the vote decides. "
    "Until then they stand by lot (seed {seed}).",
    Final.COMMITTEE: "Nothing separates {above} and {below}: the committee decides. "
    "Until then they stand by lot (seed {seed}).",
}


def last(above: str, below: str, final: Final, seed: str) -> Sentence:
    """What comes when no criterion is left."""
    return Sentence.of(LAST[final], {"above": above, "below": below}, seed=seed)


@dataclass(frozen=True, slots=True)
class Before:
    """What is known of two before the second list is asked: words, totals, what the list said."""

    words: tuple[Sentence, ...]
    totals: tuple[tuple[Total, Total], ...]
    verdicts: tuple[Verdict, ...]


def by_seconds(
    above: str,
    below: str,
    seconds: Seconds,
    scores: Mapping[str, tuple[Fraction, ...]],
    before: Before,
) -> Reason:
    """The reason for two who were level until the second list, or what comes after it."""
    found = separated(above, below, seconds.criteria, scores)
    if found is None:
        by_lot = seconds.final in (Final.LOT, Final.COIN)
        step = Step.LOT if by_lot else Step.OPEN
        words = (*before.words, last(above, below, seconds.final, seconds.lot_seed))
        name = str(seconds.final)
        return Reason(above, below, step, name, before.totals, before.verdicts, words, ())
    criterion, high, low = found
    verdict = criterion.compare(above, below, seconds.season)
    second = _second(above, below, criterion.name, high, low)
    words = tuple(dict.fromkeys((*before.words, second, verdict.sentence)))
    asked = (*before.verdicts, verdict)
    return Reason(
        above, below, Step.TIES, criterion.name, before.totals, asked, words, verdict.bouts
    )
