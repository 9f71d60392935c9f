"""The pipeline: stages, one after the other, until everybody has a place."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from seeding.core.pairs import HALF, Key, Pair, every_pair, key
from seeding.core.reasons import Reason
from seeding.core.season import Season
from seeding.core.shapes import Account, Arrangement
from seeding.core.stages import Block, Done, Line, Ordered, Stage
from seeding.core.ties import Seconds
from seeding.core.totals import Totals, arranged
from seeding.core.verdict import Sentence


@dataclass(frozen=True, slots=True)
class _ByTies:
    """The shape of what no stage ordered: everybody is level."""

    def arrange(self, field: Iterable[str], season: Season, seconds: Seconds) -> Arrangement:
        names = sorted(field)
        pairs = {
            two: Pair(two, (), (HALF, HALF), None, (_unparted(two),)) for two in every_pair(names)
        }
        return arranged(Totals(dict.fromkeys(names, ()), pairs), seconds)


def _unparted(two: Key) -> Sentence:
    people = dict(zip(("one", "other"), two, strict=True))
    return Sentence.of("No stage of the list parts {one} and {other}.", people)


@dataclass(frozen=True, slots=True)
class Pipeline:
    """Begins with everybody in one unordered block; what stays unordered is settled as ties are."""

    stages: tuple[Stage, ...]

    def arrange(self, field: Iterable[str], season: Season, seconds: Seconds) -> Arrangement:
        names = sorted(field)
        line: Line = (Block(tuple(names)),) if names else ()
        steps: list[tuple[Line, Done]] = []
        for stage in (*self.stages, Ordered(_ByTies(), seconds.criteria, 0, ())):
            done = stage.run(line, season, seconds)
            steps.append((line, done))
            line = done.line
        order = tuple(one for block in line for one in block.members)
        return Arrangement(
            order=order,
            totals=MappingProxyType(dict.fromkeys(names, ())),
            pairs=MappingProxyType({}),
            drawn=tuple(group for _, done in steps for group in done.drawn),
            open=tuple(group for _, done in steps for group in done.open),
            circles=tuple(circle for _, done in steps for circle in done.circles),
            account=ByStages(tuple(_Change.of(*step) for step in steps)),
            seedable=sum(len(block.members) for block in line if block.seedable),
        )


@dataclass(frozen=True, slots=True)
class _Change:
    """Where everybody stood before and after a stage; equal numbers = not parted."""

    before: MappingProxyType[str, int]
    after: MappingProxyType[str, int]
    account: Account
    remarks: Mapping[Key, tuple[Sentence, ...]]

    @classmethod
    def of(cls, line: Line, done: Done) -> "_Change":
        return cls(_places(line), _places(done.line), done.account, done.remarks)

    def parts(self, above: str, below: str) -> bool:
        """Whether this stage put the one above the other."""
        return self.after[above] < self.after[below] and not self.before[above] < self.before[below]


def _places(line: Line) -> MappingProxyType[str, int]:
    found: dict[str, int] = {}
    for block in line:
        first = len(found)
        for at, one in enumerate(block.members):
            found[one] = first + at if block.ordered else first
    return MappingProxyType(found)


@dataclass(frozen=True, slots=True)
class ByStages:
    """Explains any two by the last stage that put the one above the other."""

    changes: tuple[_Change, ...]

    def reason(self, above: str, below: str) -> Reason:
        """The reason for `above` over `below`, in this direction."""
        last = [change for change in self.changes if change.parts(above, below)][-1]
        found = last.account.reason(above, below)
        two = key(above, below)
        words = (word for change in self.changes for word in change.remarks.get(two, ()))
        return replace(found, sentences=(*found.sentences, *words))
