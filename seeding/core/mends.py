"""Stages that mend a finished line: a floor for some, team-mates kept apart."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from seeding.core.criteria import Input
from seeding.core.reasons import Reason, Step
from seeding.core.season import Season
from seeding.core.stages import Block, ByVerdict, Done, Line
from seeding.core.tables import ReturningPlacer
from seeding.core.ties import Seconds
from seeding.core.verdict import Sentence


def straight(line: Line) -> tuple[list[str], int]:
    """The members of the ordered blocks at the top of the line, and how many blocks those are."""
    order: list[str] = []
    count = 0
    for block in line:
        if not (block.ordered and block.seedable):
            break
        order += block.members
        count += 1
    return order, count


@dataclass(frozen=True, slots=True)
class Floor:
    """Those of the first group of an earlier event stand at place `place` or better.

    From the last of them, each is put there or, where that place is taken by another of them, one
    better; if there are more of them than places, the best have these. All others move down.
    """

    criterion: ReturningPlacer
    place: int

    @property
    def inputs(self) -> tuple[Input, ...]:
        return self.criterion.inputs

    def run(self, line: Line, season: Season, seconds: Seconds) -> Done:
        order, count = straight(line)
        lifted = [one for one in order if self.criterion.group(one, season) == 0][: self.place]
        new = [one for one in order if one not in lifted]
        for place, one in zip(self._places(order, lifted), lifted, strict=True):
            new.insert(place, one)
        lead = f"By the list {{above}} stands at place {self.place} or better."
        line = (Block(tuple(new), ordered=True), *line[count:]) if order else line
        return Done(line, ByVerdict(self.criterion, season, lead))

    def _places(self, order: Sequence[str], lifted: Sequence[str]) -> list[int]:
        """The places from 0 of those who are lifted or stand well, best first."""
        found: list[int] = []
        limit = self.place
        for one in reversed(lifted):
            limit = min(order.index(one), limit - 1)
            found.append(limit)
        return found[::-1]


class Apart(StrEnum):
    """In which part of the bracket team-mates may not meet."""

    HALF = "half"
    QUARTER = "quarter"


@dataclass(frozen=True, slots=True)
class TeamMatesApart:
    """Team-mates among the first `count` come into different halves or quarters of the bracket.

    From the top: who shares his part with a team-mate above him changes with the next below him
    with whom neither then does. Parts are those of lines in mirrored order: seed s and seed
    2^k + 1 - s meet, so that their part is the same.
    """

    apart: Apart
    count: int

    @property
    def inputs(self) -> tuple[Input, ...]:
        return ()

    def run(self, line: Line, season: Season, seconds: Seconds) -> Done:
        order, blocks = straight(line)
        new = order[:]
        for at in range(1, min(self.count, len(new))):
            if self._clashes(new, at, season):
                self._changed(new, at, season)
        line = (Block(tuple(new), ordered=True), *line[blocks:]) if order else line
        return Done(line, _Kept(self.apart))

    def _changed(self, order: list[str], at: int, season: Season) -> None:
        for below in range(at + 1, min(self.count, len(order))):
            order[at], order[below] = order[below], order[at]
            if not (self._clashes(order, at, season) or self._clashes(order, below, season)):
                return
            order[at], order[below] = order[below], order[at]

    def _clashes(self, order: Sequence[str], at: int, season: Season) -> bool:
        parts = 2 if self.apart is Apart.HALF else 4
        mine = part(at + 1, parts)
        return any(
            season.mates(order[at], order[above]) and part(above + 1, parts) == mine
            for above in range(at)
        )


def part(seed: int, parts: int) -> int:
    """In which of 2 or 4 parts of the bracket a seed starts, named by its best seed.

    >>> [part(seed, 2) for seed in range(1, 9)], [part(seed, 4) for seed in range(1, 9)]
    ([1, 2, 2, 1, 1, 2, 2, 1], [1, 2, 3, 4, 4, 3, 2, 1])
    """
    while seed > parts:
        size = 1 << (seed - 1).bit_length()
        seed = size + 1 - seed
    return seed


@dataclass(frozen=True, slots=True)
class _Kept:
    apart: Apart

    def reason(self, above: str, below: str) -> Reason:
        words = Sentence.of(
            "Places were changed so that team-mates start in different {parts}; since then {above} "
            "stands above {below}.",
            {"above": above, "below": below},
            parts="halves" if self.apart is Apart.HALF else "quarters",
        )
        return Reason(above, below, Step.STAGE, "team-mates apart", (), (), (words,), ())
