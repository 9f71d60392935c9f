"""A bracket as a graph: every bout a node, every way on from a bout an edge.

A bout has two sides; each side is filled from one source: a starting line of the bracket, or the
winner or the loser of an earlier bout. That single definition is the node attribute `sources`;
the edges follow from it. Byes and vacant bouts are nodes too: they keep the shape regular.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Self

import networkx as nx

from brackets.core.errors import NoSuchBout


class Format(StrEnum):
    """How a weight is wrestled."""

    ELIMINATION = "elimination"
    ROUND_ROBIN = "round-robin"


class Section(StrEnum):
    """The part of a bracket that a round belongs to."""

    CHAMPIONSHIP = "championship"
    CONSOLATION = "consolation"
    POOL = "pool"


class Exit(StrEnum):
    """The two ways out of a bout."""

    WINNER = "winner"
    LOSER = "loser"


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
    """One round of a bracket.

    `code`: P (pigtail), R1, R2, ..., QF, SF, 1st on the championship side; CP (consolation
    pigtail), C1, C2, ..., 7th, 5th, 3rd on the consolation side; RR1, RR2, ... in a round robin.
    `column`: its place in the running order, from 1. `places`: what winner and loser of a placing
    bout take, None for other rounds.
    """

    code: str
    section: Section
    column: int
    places: tuple[int, int] | None = None


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


Source = Line | From
Sources = tuple[Source, Source]

LineUp = tuple[str | tuple[str, str] | None, ...]
"""Who starts on which line: an entry, None for a bye, a pair for a pigtail."""


@dataclass(frozen=True, slots=True)
class Seat:
    """One side of a bout: 0 the top one, 1 the bottom one."""

    bout: BoutKey
    slot: int


@dataclass(frozen=True, slots=True)
class Wiring:
    """The graph as whole numbers, for fast passes.

    Bout i is `keys[i]`; its winner is value 2i, its loser value 2i + 1, and the occupant of line
    n (half h) value 2 * len(keys) + 2(n - 1) + h. `inputs[i]` are the two values that fill its
    sides; `onward[v]` is the seat (2 * bout + slot) that value v fills, or -1.
    """

    keys: tuple[BoutKey, ...]
    inputs: tuple[tuple[int, int], ...]
    onward: tuple[int, ...]
    places: tuple[tuple[int, int] | None, ...]
    championship: tuple[bool, ...]
    index: Mapping[BoutKey, int]


@dataclass(frozen=True)
class Bracket:
    """A weight's bracket, built and checked; see `formats.build`.

    `rounds` and `sources` are in running order, which is also a topological order. `bouts` are the
    nodes that will really be wrestled if everyone appears, `byes` those where the draw leaves one
    side empty; the remaining nodes are vacant. `places` is how many places can be taken.
    """

    format: Format
    lines: LineUp
    places: int
    rounds: tuple[Round, ...]
    sources: Mapping[BoutKey, Sources]
    bouts: tuple[BoutKey, ...]
    byes: frozenset[BoutKey]
    graph: "nx.DiGraph[BoutKey]" = field(repr=False, compare=False)
    wiring: Wiring = field(repr=False, compare=False)

    def entries(self) -> Iterator[str]:
        """Every entry of the line-up, top to bottom."""
        for line in self.lines:
            if isinstance(line, tuple):
                yield from line
            elif line is not None:
                yield line

    def round_of(self, key: BoutKey) -> Round:
        """The round of a bout; refuses a bout that the bracket does not have."""
        if key not in self.sources:
            raise NoSuchBout(bout=key)
        found: Round = self.graph.nodes[key]["round"]
        return found

    def onward(self, key: BoutKey, way: Exit) -> Seat | None:
        """Where the winner or the loser of a bout goes; None where his way ends."""
        if key not in self.sources:
            raise NoSuchBout(bout=key)
        wiring = self.wiring
        seat = wiring.onward[2 * wiring.index[key] + (way is Exit.LOSER)]
        return None if seat < 0 else Seat(wiring.keys[seat // 2], seat % 2)

    def awaited(self, key: BoutKey, slot: int) -> Source:
        """Who comes to a side of a bout, byes looked through.

        The winner of a bye is whoever comes to the bye: a loser of a real bout, or a line. Of a
        side that nobody comes to it is its plain source.
        """
        came = self.sources[key][slot]
        while isinstance(came, From) and came.exit is Exit.WINNER and came.bout in self.byes:
            (came,) = (one for one in self.sources[came.bout] if self._brings(one))
        return came

    def _brings(self, came: Source) -> bool:
        if isinstance(came, Line):
            return self.lines[came.number - 1] is not None
        return came.bout in self.bouts or (came.exit is Exit.WINNER and came.bout in self.byes)
