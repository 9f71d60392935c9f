"""The ladder: the one over whom nobody holds the criteria comes next; he is removed; again.

Where several have nobody over them the second list parts them. Where everybody has somebody over
him the list runs in a circle, and the circle policy says who comes next.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from seeding.core.circle_policies import CirclePolicy, parts
from seeding.core.circles import Circle, top
from seeding.core.criteria import Criterion
from seeding.core.pairs import Key, Pair, every_pair
from seeding.core.rungs import ByLadder, Level, Rung, over
from seeding.core.season import Season
from seeding.core.shapes import Arrangement, SettledCircle
from seeding.core.ties import Seconds, Settled, scored
from seeding.core.verdict import Sentence
from seeding.core.walks import beats, inside, walk


@dataclass(frozen=True, slots=True)
class Ladder:
    """One place after the other, from the top.

    `restart`: after one of several who were level, or of a circle, is placed, the others go back to
    the first criterion; without it the whole group is placed at once, in the order found.
    """

    criteria: tuple[Criterion, ...]
    circles: CirclePolicy
    restart: bool

    def arrange(self, field: Iterable[str], season: Season, seconds: Seconds) -> Arrangement:
        names = sorted(field)
        climb = _Climb(
            self, seconds, {two: walk(two, self.criteria, season) for two in every_pair(names)}
        )
        while len(climb.order) < len(names):
            climb.place(sorted(set(names).difference(climb.order)))
        pairs = MappingProxyType(climb.pairs)
        return Arrangement(
            order=tuple(climb.order),
            totals=MappingProxyType(dict.fromkeys(names, ())),
            pairs=pairs,
            drawn=tuple(climb.drawn),
            open=tuple(climb.open),
            circles=tuple(climb.circles.values()),
            account=ByLadder(pairs, tuple(climb.rungs)),
            seedable=len(names),
        )


@dataclass(frozen=True, slots=True)
class _Next:
    """Who fills the next place or places, and how they came out.

    `levels`: the groups that were looked at, the widest first; `among`: those in the race at last.
    `pairs`: with what was thrown out.
    """

    among: tuple[str, ...]
    settled: Settled
    levels: tuple[Level, ...]
    circles: tuple[SettledCircle, ...]
    pairs: dict[Key, Pair]


class _Climb:
    """The order while it grows."""

    def __init__(self, ladder: Ladder, seconds: Seconds, pairs: dict[Key, Pair]) -> None:
        self.ladder = ladder
        self.seconds = seconds
        self.pairs = pairs
        self.order: list[str] = []
        self.drawn: list[tuple[str, ...]] = []
        self.open: list[tuple[str, ...]] = []
        self.circles: dict[tuple[str, ...], SettledCircle] = {}
        self.rungs: list[Rung] = []

    def place(self, left: Sequence[str]) -> None:
        """Fill the next place, or those of a group."""
        here = {two: self.pairs[two] for two in inside(self.pairs, left)}
        found = self._next(left, _Next(tuple(left), Settled((), {}), (), (), here))
        placed = self._placed(found.settled)
        for two, pair in found.pairs.items():
            if not self.ladder.restart or set(placed).intersection(two):
                self.pairs[two] = pair
        for one in found.circles:
            self.circles.setdefault(one.circle.wrestlers, one)
        self.drawn += _with(placed, found.settled.drawn)
        self.open += _with(placed, found.settled.open)
        among = {two: found.pairs[two] for two in inside(found.pairs, found.among)}
        known = over(left, found.pairs) | over(found.among, among)
        self.rungs.append(Rung(placed, found.levels, frozenset(found.among), known))
        self.order += placed

    def _placed(self, settled: Settled) -> tuple[str, ...]:
        """All, or with a restart the first; a group that is left to people goes together."""
        if not self.ladder.restart:
            return settled.order
        together = _with(settled.order[:1], settled.open)
        return settled.order[: len(together[0]) if together else 1]

    def _next(self, left: Sequence[str], seen: _Next) -> _Next:
        standing = beats({two: seen.pairs[two] for two in inside(seen.pairs, left)})
        components = top(left, standing)
        alone = tuple(part[0] for part in components if len(part) == 1)
        if alone:
            settled = self.seconds.settle(alone, len(self.order) + 1)
            level = Level(alone, settled.scores, self.seconds)
            return replace(seen, settled=settled, levels=(*seen.levels, level))
        group = tuple(sorted(name for part in components for name in part))
        policy = self.ladder.circles
        around = parts(group, seen.pairs)
        if policy.opens:
            seen = replace(seen, circles=(*seen.circles, *_settled(around, policy.words)))
            return self._next(left, replace(seen, pairs=seen.pairs | self._opened(around, seen)))
        seconds = policy.seconds(self.seconds)
        made = policy.order(group, seen.pairs, seconds, len(self.order) + 1)
        level = Level(group, made.settled.scores, seconds, policy.policy, around, (made.words,))
        found = replace(
            seen,
            settled=made.settled,
            levels=(*seen.levels, level),
            circles=(*seen.circles, *_settled(around, made.words)),
        )
        best = self._best(group)
        return self._next(best, replace(found, among=best)) if len(best) < len(group) else found

    def _opened(self, around: Iterable[Circle], seen: _Next) -> dict[Key, Pair]:
        policy, lines, season = self.ladder.circles, self.ladder.criteria, self.seconds.season
        return {
            two: pair
            for circle in around
            for two, pair in policy.opened(circle, seen.pairs, lines, season).items()
        }

    def _best(self, group: tuple[str, ...]) -> tuple[str, ...]:
        """With a restart: those of a circle who are best by the circle's criteria, if several."""
        policy = self.ladder.circles
        best = group
        for criterion in policy.criteria if self.ladder.restart else ():
            scores = scored(best, criterion, self.seconds.season)
            best = tuple(one for one in best if scores[one] == max(scores.values()))
        return best if len(best) > 1 else group


def _settled(around: Iterable[Circle], words: Sentence) -> tuple[SettledCircle, ...]:
    return tuple(SettledCircle(one, words) for one in around)


def _with(placed: Iterable[str], groups: Iterable[tuple[str, ...]]) -> list[tuple[str, ...]]:
    """The groups of which somebody is placed now."""
    now = set(placed)
    return [group for group in groups if now.intersection(group)]
