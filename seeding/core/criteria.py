"""The face that all criteria share, and what those have in common that compare two numbers."""

from abc import ABC, abstractmethod
from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar, Protocol

from seeding.core.season import PriorBout, Season
from seeding.core.verdict import Number, Sentence, Verdict


class InputKind(StrEnum):
    """What is put in by hand or file because no bout tells it."""

    RANKING = "ranking"
    PLACES = "places"
    BALLOTS = "ballots"


@dataclass(frozen=True, slots=True)
class Input:
    """What a criterion reads: a ranking, the places of an earlier event, or the ballots."""

    kind: InputKind
    name: str


Known = tuple[Number, tuple[PriorBout, ...]]


AHEAD = "{better} is ahead in {criterion}: {first} against {second}."
MORE_WINS = (
    "{better} and {worse} are level in {criterion}, and {better} has more wins: "
    "{first} against {second}."
)


class Criterion(Protocol):
    """One line of a published list.

    `compare(a, b, season)` says who is better by this line alone. It must not depend on the order
    of `a` and `b` nor of anything in the season. It need not be transitive: head-to-head is not.
    """

    @property
    def name(self) -> str: ...

    @property
    def inputs(self) -> tuple[Input, ...]: ...

    def compare(self, a: str, b: str, season: Season) -> Verdict: ...


class Missing(StrEnum):
    """How a wrestler without a number stands against one who has one."""

    WORSE = "worse"
    NOBODY = "nobody"


class Repeats(StrEnum):
    """What several bouts with one opponent count."""

    EVERY_BOUT = "every-bout"
    ONCE = "each-opponent-once"


@dataclass(frozen=True, slots=True)
class Measured(ABC):
    """A criterion that gives each wrestler a number and compares the numbers."""

    low_is_good: ClassVar[bool] = False

    name: str
    missing: Missing

    @property
    def inputs(self) -> tuple[Input, ...]:
        return ()

    @abstractmethod
    def measure(self, wrestler: str, season: Season) -> Number:
        """The wrestler's number; without value where he has none."""

    def evidence(self, wrestler: str, season: Season) -> tuple[PriorBout, ...]:
        """The bouts that made the number."""
        return ()

    def known(self, wrestler: str, season: Season) -> Known:
        """The number and its evidence, worked out once in a season."""
        kept: dict[str, Known] = season.once(self, dict)
        if wrestler not in kept:
            kept[wrestler] = self.measure(wrestler, season), self.evidence(wrestler, season)
        return kept[wrestler]

    def compare(self, a: str, b: str, season: Season) -> Verdict:
        (first, of_a), (second, of_b) = self.known(a, season), self.known(b, season)
        better = self._better(a, b, (first, second))
        sentence = self._sentence(a, b, better, (first, second))
        return Verdict(self.name, (a, b), better, (first, second), sentence, (of_a, of_b))

    def _better(self, a: str, b: str, numbers: tuple[Number, Number]) -> str | None:
        x, y = numbers
        if x.value is None or y.value is None:
            if self.missing is Missing.NOBODY or x.value == y.value:
                return None
            return a if y.value is None else b
        if x.value != y.value:
            return a if (x.value < y.value) == self.low_is_good else b
        if x.then != y.then:
            return a if x.then > y.then else b
        return None

    def _sentence(
        self, a: str, b: str, better: str | None, numbers: tuple[Number, Number]
    ) -> Sentence:
        texts = {a: numbers[0].text, b: numbers[1].text}
        if better is None:
            a, b = sorted((a, b))
            return Sentence.of(
                "{criterion} decides nothing between {one} and {other}: {first} against {second}.",
                {"one": a, "other": b},
                criterion=self.name,
                first=texts[a],
                second=texts[b],
            )
        worse = b if better == a else a
        return Sentence.of(
            MORE_WINS if numbers[0].value == numbers[1].value else AHEAD,
            {"better": better, "worse": worse},
            criterion=self.name,
            first=texts[better],
            second=texts[worse],
        )
