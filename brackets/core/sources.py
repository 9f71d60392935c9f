"""The words of a bracket: bouts and their keys, rounds, and who comes to a side of a bout.

Codes of rounds, at most eight characters:

* P: pigtail, wrestled for a line. R1, R2, ..., QF, SF: the rounds of the championship side, the
  last three always QF, SF, 1st. UF: the final of the unbeaten, in a double elimination. 1st: the
  final; 1st2: its second bout, in a double elimination, when the unbeaten lost the first.
* CP: consolation pigtail, wrestled for a place in the first consolation round. C1, C2, ...: the
  rounds of the consolation side in their order, chains of a repechage among them.
* 3rd, 5th, 7th, ..., 15th: the bout for that place; 3rd twice where two thirds are given. 9SF and
  13SF: the two bouts whose winners wrestle for 9th or 13th, their losers for 11th or 15th.
* 2nd, 4th, 6th: true placement, the loser of the bout for the place before against the winner of
  the bout for the place after (2nd: the losing finalist against the third).
* RR1, RR2, ...: the rounds of a round robin, of pools, or the bouts of a best of three.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Self

from brackets.core.errors import NoSuchBout


class Format(StrEnum):
    """How a weight is wrestled; which elimination, `rules.Wrestleback` says."""

    ELIMINATION = "elimination"
    ROUND_ROBIN = "round-robin"
    BEST_OF_THREE = "best-of-three"
    TWO_POOLS = "two-pools"


class Section(StrEnum):
    """The part of a bracket that a round belongs to."""

    CHAMPIONSHIP = "championship"
    CONSOLATION = "consolation"
    POOL = "pool"


class Exit(StrEnum):
    """The two ways out of a bout."""

    WINNER = "winner"
    LOSER = "loser"


class Needed(StrEnum):
    """When a bout is wrestled that is not always needed.

    LEVEL: while neither of the two has won two bouts. UNMET: when both are there and have not met
    in the weight. UPSET: when the bout before was won by its bottom side. Where it is not needed
    its top side goes on as if it had won, its bottom side as if it had lost.
    """

    LEVEL = "level"
    UNMET = "unmet"
    UPSET = "upset"


@dataclass(frozen=True, slots=True, order=True)
class BoutKey:
    """A bout's identity within its weight: round code and position from the top, from 1."""

    round: str
    position: int

    def __str__(self) -> str:
        return f"{self.round}-{self.position}"

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read what `str` writes.

        >>> BoutKey.parse("R1-9")
        BoutKey(round='R1', position=9)
        """
        code, _, position = text.rpartition("-")
        if not code or not position.isascii() or not position.isdigit():
            raise NoSuchBout(bout=text)
        return cls(code, int(position))


@dataclass(frozen=True, slots=True)
class Round:
    """One round of a bracket; its `code` as above.

    `places`: what winner and loser of a placing bout take, unless a way leads on; None for other
    rounds. `loser_place`: what a loser takes whose winner goes on. `when`: its time in the running
    order of all formats and sizes, counted from the end (see `numbering`). `needed`: when it is
    wrestled, None for always. `column`: its place in the running order, from 1, once it has one.
    """

    code: str
    section: Section
    places: tuple[int, int] | None = None
    loser_place: int | None = None
    when: tuple[int, int] = (0, 0)
    needed: Needed | None = None
    column: int = 0

    @property
    def placing(self) -> bool:
        """Whether only places are at stake, so that who lost twice before may wrestle."""
        return self.places is not None or self.code in ("9SF", "13SF")


@dataclass(frozen=True, slots=True)
class Line:
    """A starting line, from 1, top to bottom; `half` 0 or 1 where a pigtail shares the line."""

    number: int
    half: int | None = None


@dataclass(frozen=True, slots=True)
class From:
    """The winner or the loser of an earlier bout."""

    bout: BoutKey
    exit: Exit


@dataclass(frozen=True, slots=True)
class Beaten:
    """Whom the winner of bout `by` beat on his way there in round `round`: nobody after a bye."""

    by: BoutKey
    round: str


@dataclass(frozen=True, slots=True)
class Ranked:
    """Who has a rank, from 1, in a finished pool, counted from 0."""

    pool: int
    rank: int


Source = Line | From | Beaten | Ranked
Sources = tuple[Source, Source]

LineUp = tuple[str | tuple[str, str] | None, ...]
"""Who starts on which line: an entry, None for a bye, a pair for a pigtail."""


@dataclass(frozen=True, slots=True)
class Seat:
    """One side of a bout: 0 the top one, 1 the bottom one."""

    bout: BoutKey
    slot: int


@dataclass(frozen=True, slots=True)
class Pool:
    """A group in which everyone meets everyone: its lines, from 1, best first, and its bouts."""

    lines: tuple[int, ...]
    bouts: tuple[BoutKey, ...]


def victims(sources: Mapping[BoutKey, Sources], beaten: Beaten) -> tuple[BoutKey, ...]:
    """The bouts of the round through which a winner can have come to bout `beaten.by`."""
    found: list[BoutKey] = []
    waiting = [beaten.by]
    while waiting:
        for source in sources[waiting.pop()]:
            if isinstance(source, From) and source.exit is Exit.WINNER:
                (found if source.bout.round == beaten.round else waiting).append(source.bout)
    return tuple(sorted(found))
