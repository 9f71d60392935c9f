"""Stages of a pipeline: each parts, orders or mends the line that the stage before left."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from fractions import Fraction
from typing import Protocol

from seeding.core.circles import Beat, circles
from seeding.core.criteria import Criterion, Input, Measured
from seeding.core.meetings import HeadToHead
from seeding.core.pairs import Key, every_pair, key
from seeding.core.reasons import Reason, Step
from seeding.core.season import Season
from seeding.core.shapes import Account, SettledCircle, Shape
from seeding.core.tables import ReturningPlacer
from seeding.core.ties import Seconds
from seeding.core.verdict import Sentence, Verdict, decimal, plain
from seeding.core.walks import beat, in_words, round_through


@dataclass(frozen=True, slots=True)
class Block:
    """Part of the line. Those of an unordered block are not parted yet.

    `group`: the number of the group it was made as, 0 = none. `seedable`: they may be seeded.
    """

    members: tuple[str, ...]
    ordered: bool = False
    group: int = 0
    seedable: bool = True


Line = tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Done:
    """What a stage left: the line, an account of what it changed, and what it could not part.

    `remarks`: what is to be said of two though the stage left them as they stood.
    """

    line: Line
    account: Account
    drawn: tuple[tuple[str, ...], ...] = ()
    open: tuple[tuple[str, ...], ...] = ()
    circles: tuple[SettledCircle, ...] = ()
    remarks: Mapping[Key, tuple[Sentence, ...]] = field(default_factory=dict)


class Stage(Protocol):
    """One step of a pipeline."""

    @property
    def inputs(self) -> tuple[Input, ...]: ...

    def run(self, line: Line, season: Season, seconds: Seconds) -> Done: ...


@dataclass(frozen=True, slots=True)
class ByVerdict:
    """Explains a change by what a criterion says about the two."""

    criterion: Criterion
    season: Season
    lead: str = ""

    def reason(self, above: str, below: str) -> Reason:
        verdict = self.criterion.compare(above, below, self.season)
        return told(above, below, verdict, self.lead)


def told(above: str, below: str, verdict: Verdict, lead: str = "") -> Reason:
    """A stage's reason; `lead` says in a sentence what the stage did to the two."""
    people = {"above": above, "below": below}
    first = (Sentence.of(lead, people),) if lead else ()
    words = (*first, verdict.sentence)
    return Reason(above, below, Step.STAGE, verdict.criterion, (), (verdict,), words, verdict.bouts)


class Rest(StrEnum):
    """What becomes of those whom a filter holds back."""

    BEHIND = "behind"
    UNSEEDED = "unseeded"


@dataclass(frozen=True, slots=True)
class Filter:
    """Those whose number is at least so much go before the rest, who may be left unseeded."""

    criterion: Measured
    at_least: Fraction
    rest: Rest

    @property
    def inputs(self) -> tuple[Input, ...]:
        return self.criterion.inputs

    def run(self, line: Line, season: Season, seconds: Seconds) -> Done:
        passed = {one for block in line for one in block.members if self._passes(one, season)}
        kept = [_cut(block, passed.__contains__) for block in line]
        held = [_cut(block, lambda one: one not in passed) for block in line]
        if self.rest is Rest.UNSEEDED:
            held = [replace(block, seedable=False) for block in held]
        new = sorted(_filled((*kept, *held)), key=lambda block: not block.seedable)
        return Done(tuple(new), _Held(self, season))

    def _passes(self, wrestler: str, season: Season) -> bool:
        value = self.criterion.measure(wrestler, season).value
        return value is not None and value >= self.at_least


@dataclass(frozen=True, slots=True)
class _Held:
    stage: Filter
    season: Season

    def reason(self, above: str, below: str) -> Reason:
        stage, least = self.stage, self.stage.at_least
        verdict = stage.criterion.compare(above, below, self.season)
        sentence = Sentence.of(
            "The list asks for at least {least} in {criterion}: {above} has {high}, "
            "{below} has {low}.",
            {"above": above, "below": below},
            criterion=stage.criterion.name,
            least=decimal(least, 3) if 0 < least < 1 else plain(least),
            high=verdict.numbers[0].text,
            low=verdict.numbers[1].text,
        )
        return told(above, below, replace(verdict, sentence=sentence))


def _cut(block: Block, keep: Callable[[str], bool]) -> Block:
    return replace(block, members=tuple(one for one in block.members if keep(one)))


def _filled(line: Iterable[Block]) -> Line:
    return tuple(block for block in line if block.members)


@dataclass(frozen=True, slots=True)
class Groups:
    """Placers of an earlier event first, group by group; the last group is everybody else."""

    criterion: ReturningPlacer

    @property
    def inputs(self) -> tuple[Input, ...]:
        return self.criterion.inputs

    def run(self, line: Line, season: Season, seconds: Seconds) -> Done:
        parted = [
            replace(block, members=tuple(members), group=number)
            for block in line
            for number, members in self._parted(block, season).items()
        ]
        return Done(_filled(parted), ByVerdict(self.criterion, season))

    def _parted(self, block: Block, season: Season) -> dict[int, list[str]]:
        if block.ordered:
            return {block.group: list(block.members)}
        groups: dict[int, list[str]] = {at: [] for at in range(1, len(self.criterion.groups) + 2)}
        for one in block.members:
            groups[self.criterion.group(one, season) + 1].append(one)
        return groups


@dataclass(frozen=True, slots=True)
class Ordered:
    """The members of a group (0 = of every unordered block) in the order of a shape.

    `ties`: the second list inside the group.
    """

    shape: Shape
    ties: tuple[Criterion, ...]
    group: int
    needs: tuple[Input, ...]

    @property
    def inputs(self) -> tuple[Input, ...]:
        return self.needs

    def run(self, line: Line, season: Season, seconds: Seconds) -> Done:
        new: list[Block] = []
        made = []
        place = seconds.offset
        for block in line:
            if block.ordered or self.group not in (0, block.group):
                new.append(block)
            else:
                inner = replace(seconds, criteria=self.ties, offset=place)
                made.append(self.shape.arrange(block.members, season, inner))
                new.append(replace(block, members=made[-1].order, ordered=True))
            place += len(block.members)
        accounts = {one: part.account for part in made for one in part.order}
        return Done(
            tuple(new),
            _Inner(accounts),
            tuple(group for part in made for group in part.drawn),
            tuple(group for part in made for group in part.open),
            tuple(circle for part in made for circle in part.circles),
        )


@dataclass(frozen=True, slots=True)
class _Inner:
    accounts: Mapping[str, Account]

    def reason(self, above: str, below: str) -> Reason:
        return self.accounts[above].reason(above, below)


@dataclass(frozen=True, slots=True)
class Swaps:
    """One-step swaps in an ordered group: who beat the one directly above him changes with him.

    From the top, each wrestler once. Meetings that run in a circle move nobody.
    """

    criterion: HeadToHead
    group: int

    @property
    def inputs(self) -> tuple[Input, ...]:
        return ()

    def run(self, line: Line, season: Season, seconds: Seconds) -> Done:
        new = [
            self._swapped(block, season)
            if block.ordered and self.group in (0, block.group)
            else block
            for block in line
        ]
        lead = "{above} stood one place below {below}, and they changed places."
        thrown = Sentence.of(THROWN, {})
        around = tuple(
            circle
            for block in new
            if block.ordered and self.group in (0, block.group)
            for circle in circles(self._beats(block.members, season))
        )
        return Done(
            tuple(new),
            ByVerdict(self.criterion, season, lead),
            circles=tuple(SettledCircle(circle, thrown) for circle in around),
            remarks={
                two: (in_words(round_through(circle, two)), thrown)
                for circle in around
                for two in (key(one.better, one.worse) for one in circle.beats)
            },
        )

    def _beats(self, members: Sequence[str], season: Season) -> list[Beat]:
        verdicts = (self.criterion.compare(*two, season) for two in every_pair(members))
        return [beat(verdict) for verdict in verdicts if verdict.better is not None]

    def _swapped(self, block: Block, season: Season) -> Block:
        known = self._beats(block.members, season)
        around = [set(circle.wrestlers) for circle in circles(known)]
        beat_him = {
            (one.better, one.worse)
            for one in known
            if not any({one.better, one.worse} <= circle for circle in around)
        }
        order, at = list(block.members), 0
        while at < len(order) - 1:
            if (order[at + 1], order[at]) in beat_him:
                order[at : at + 2] = order[at + 1], order[at]
                at += 1
            at += 1
        return replace(block, members=tuple(order))


THROWN = "The meetings of the circle are thrown out: none of them moves anybody."
