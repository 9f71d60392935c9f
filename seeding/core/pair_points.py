"""Pair points: each pair is decided by the first criterion that can, for a point."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from seeding.core.circles import Circle, circles
from seeding.core.criteria import Criterion
from seeding.core.meetings import HeadToHead
from seeding.core.pairs import HALF, Pair, Total, add_up, every_pair
from seeding.core.season import Season
from seeding.core.shapes import Arrangement, SettledCircle
from seeding.core.ties import Seconds
from seeding.core.totals import Totals, arranged
from seeding.core.verdict import Sentence
from seeding.core.walks import beat, in_words, inside, round_through, walk, walk_on


class Nobody(StrEnum):
    """What each gets out of a pair that no criterion decides."""

    HALF = "half"
    NOTHING = "nothing"


class Circles(StrEnum):
    """What becomes of meetings that run in a circle: A beat B, B beat C, C beat A, or longer."""

    STAND = "stand"
    HALF = "half"
    NEXT = "next-criterion"


SETTLED = {
    Circles.STAND: "By the list the meetings of a circle stand: each gives its point.",
    Circles.HALF: "By the list each pair of the circle gives half a point to both.",
    Circles.NEXT: "By the list the meetings of the circle are set aside, and each pair goes on to "
    "the next criterion.",
}


@dataclass(frozen=True, slots=True)
class PairPoints:
    """A point for the better of each pair, by the first criterion that decides it.

    A circle is a strongly connected component of the pairs that a meeting decided: every such pair
    inside it lies on some way round.
    """

    criteria: tuple[Criterion, ...]
    undecided: Nobody
    circles: Circles

    def arrange(self, field: Iterable[str], season: Season, seconds: Seconds) -> Arrangement:
        names = sorted(field)
        level = self.undecided is Nobody.HALF
        pairs = {two: walk(two, self.criteria, season, level) for two in every_pair(names)}
        met = {two: pair for two, pair in pairs.items() if self._met(pair)}
        found = circles(beat(pair.deciding) for pair in met.values() if pair.deciding)
        for circle in found if self.circles is not Circles.STAND else ():
            for two in inside(met, circle.wrestlers):
                pairs[two] = self._opened(pairs[two], circle, season)
        points = add_up(names, pairs.values())
        sums = {name: (Total("points", points[name]),) for name in names}
        words = Sentence.of(SETTLED[self.circles], {})
        return arranged(
            Totals(sums, pairs, tuple(SettledCircle(one, words) for one in found)), seconds
        )

    def _met(self, pair: Pair) -> bool:
        """Whether a head-to-head line decided the pair."""
        return pair.deciding is not None and isinstance(
            self.criteria[len(pair.verdicts) - 1], HeadToHead
        )

    def _opened(self, pair: Pair, circle: Circle, season: Season) -> Pair:
        words = Sentence.of(SETTLED[self.circles], {})
        remarks = (in_words(round_through(circle, pair.wrestlers)), words)
        if self.circles is Circles.HALF:
            return Pair(pair.wrestlers, pair.verdicts, (HALF, HALF), None, remarks)
        level = self.undecided is Nobody.HALF
        return walk_on(pair, self.criteria, season, remarks, level)
