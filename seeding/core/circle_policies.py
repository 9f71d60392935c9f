"""Circle policies: what a list does where everybody left has somebody over him."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from fractions import Fraction

from seeding.core.circles import Circle, circles
from seeding.core.criteria import Criterion
from seeding.core.pairs import HALF, Key, Pair
from seeding.core.season import Season
from seeding.core.ties import Final, Seconds, Settled
from seeding.core.verdict import Sentence
from seeding.core.violations import FewestViolations, fewest_violations
from seeding.core.walks import beats, in_words, inside, round_through, walk_on


class Policy(StrEnum):
    """How a circle is settled.

    next-criterion: what made the circle is thrown out, each of its pairs goes on to its next
    criterion. weakest-link: of what made it the weakest is thrown out: the last criterion of the
    list, of it the smallest difference, of these the oldest bouts; again while a circle is left.
    group: all of the circle are put in order by criteria of their own. fewest-violations: they
    stand in the order that goes against fewest. committee: the committee decides.
    """

    NEXT = "next-criterion"
    WEAKEST = "weakest-link"
    GROUP = "group"
    FEWEST = "fewest-violations"
    COMMITTEE = "committee"


@dataclass(frozen=True, slots=True)
class CirclePolicy:
    """A policy; `criteria`: those of the policy group, first first."""

    policy: Policy
    criteria: tuple[Criterion, ...] = ()

    @property
    def opens(self) -> bool:
        """Whether it throws out what made the circle, so that the ladder looks again."""
        return self.policy in (Policy.NEXT, Policy.WEAKEST)

    def opened(
        self, circle: Circle, here: Mapping[Key, Pair], criteria: Sequence[Criterion], known: Season
    ) -> dict[Key, Pair]:
        """The pairs of the circle that change when it is opened."""
        pairs = [two for two in inside(here, circle.wrestlers) if here[two].deciding is not None]
        if self.policy is Policy.WEAKEST:
            weak = _weakest(pairs, here, criteria)
            return {two: _set_aside(here[two], circle) for two in weak}
        return {
            two: walk_on(here[two], criteria, known, self._remarks(circle, two)) for two in pairs
        }

    def _remarks(self, circle: Circle, two: Key) -> tuple[Sentence, Sentence]:
        return in_words(round_through(circle, two)), self.words

    def seconds(self, seconds: Seconds) -> Seconds:
        """What orders the group of a circle that is not opened."""
        if self.policy is Policy.COMMITTEE:
            return replace(seconds, criteria=(), final=Final.COMMITTEE)
        return replace(seconds, criteria=(*self.criteria, *seconds.criteria))

    def order(
        self, group: Sequence[str], here: Mapping[Key, Pair], seconds: Seconds, first: int
    ) -> "Chosen":
        """The group in the order of the policy; by fewest violations without scores.

        Where several orders go against as few, the second list and what comes last choose.
        """
        settled = seconds.settle(group, first)
        if self.policy is not Policy.FEWEST:
            return Chosen(settled, self.words)
        known = beats(_of(group, here))
        best = fewest_violations(group, known, settled.order)
        scores: dict[str, tuple[Fraction, ...]] = dict.fromkeys(group, ())
        drawn, left = (settled.drawn, settled.open) if best.count != 1 else ((), ())
        return Chosen(Settled(best.order, scores, drawn, left), _fewest(best, len(known)))

    @property
    def words(self) -> Sentence:
        """What the policy does, in a sentence; by fewest violations `order` says it."""
        if self.policy is Policy.GROUP:
            names = ", then ".join(line.name for line in self.criteria)
            return Sentence.of("The list settles the circle by {names}.", {}, names=names)
        return Sentence.of(WORDS[self.policy], {})


@dataclass(frozen=True, slots=True)
class Chosen:
    """The order of a circle, and in words how it came about."""

    settled: Settled
    words: Sentence


def _fewest(found: FewestViolations, known: int) -> Sentence:
    return Sentence.of(
        "The list settles the circle by the order that goes against fewest: {least} of {all}; "
        "{count}.",
        {},
        least=len(found.violated),
        all=known,
        count=_equally_good(found.count),
    )


WORDS = {
    Policy.NEXT: "The list throws out what made the circle; each pair goes on to its next "
    "criterion.",
    Policy.WEAKEST: "The list throws out the weakest link of the circle.",
    Policy.COMMITTEE: "The list leaves a circle to the committee.",
}


def _equally_good(count: int | None) -> str:
    if count is None:
        return "how many orders are as good is not counted"
    if count == 1:
        return "no other order is as good"
    return f"{count} orders are as good, and of these the second list or else the lot chose"


def parts(group: Sequence[str], here: Mapping[Key, Pair]) -> tuple[Circle, ...]:
    """The circles among the group."""
    return circles(beats(_of(group, here)))


def _of(group: Sequence[str], here: Mapping[Key, Pair]) -> dict[Key, Pair]:
    return {two: here[two] for two in inside(here, group)}


def _weakest(
    pairs: Sequence[Key], here: Mapping[Key, Pair], criteria: Sequence[Criterion]
) -> list[Key]:
    places = {line.name: at for at, line in enumerate(criteria)}
    strength = {two: _strength(here[two], places) for two in pairs}
    least = min(strength.values())
    return [two for two in pairs if strength[two] == least]


def _strength(pair: Pair, places: Mapping[str, int]) -> tuple[int, Fraction, date]:
    """The earlier criterion is stronger, then the larger difference, then the later bout."""
    verdict = pair.deciding
    if verdict is None:
        raise ValueError(f"Nothing is decided between {pair.wrestlers}.")
    x, y = (number.value for number in verdict.numbers)
    difference = abs(x - y) if x is not None and y is not None else Fraction(0)
    latest = max((bout.date for bout in verdict.bouts), default=date.min)
    return -places[verdict.criterion], difference, latest


def _set_aside(pair: Pair, circle: Circle) -> Pair:
    one, other = pair.wrestlers
    weakest = Sentence.of(
        "The list throws out its weakest link, what stood between {one} and {other}.",
        {"one": one, "other": other},
    )
    said = (*pair.remarks, in_words(round_through(circle, pair.wrestlers)), weakest)
    return Pair(pair.wrestlers, pair.verdicts, (HALF, HALF), None, said)
