"""A bracket as a graph: every bout a node, every way on from a bout an edge.

A bout has two sides; each side is filled from one source: a starting line, the winner or the loser
of an earlier bout, whom somebody beat on his way, or who has a rank in a pool. That single
definition is the node attribute `sources`; the edges follow from it. Byes and vacant bouts are
nodes too: they keep the shape regular.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

import networkx as nx

from brackets.core.errors import NoSuchBout
from brackets.core.rules import Wrestleback
from brackets.core.sources import (
    Beaten,
    BoutKey,
    Exit,
    Format,
    From,
    Line,
    LineUp,
    Needed,
    Pool,
    Ranked,
    Round,
    Seat,
    Section,
    Source,
    Sources,
    victims,
)
from brackets.core.wiring import Wiring

__all__ = [
    "Beaten",
    "BoutKey",
    "Bracket",
    "Exit",
    "Format",
    "From",
    "Line",
    "LineUp",
    "Needed",
    "Pool",
    "Ranked",
    "Round",
    "Seat",
    "Section",
    "Source",
    "Sources",
    "Wiring",
]


@dataclass(frozen=True)
class Bracket:
    """A weight's bracket, built and checked; see `formats.build`.

    `rounds` and `sources` are in running order, which is also a topological order. `bouts` are the
    nodes that can be wrestled if everyone appears, those that may turn out not to be needed among
    them; `byes` those where the draw leaves one side empty; the remaining nodes are vacant.
    `places` is how many places can be taken. `graph` has an edge for everything that a bout waits
    for; those of winners and losers name the `exit` and the `slot`.
    """

    format: Format
    lines: LineUp
    places: int
    rounds: tuple[Round, ...]
    sources: Mapping[BoutKey, Sources]
    bouts: tuple[BoutKey, ...]
    byes: frozenset[BoutKey]
    wrestleback: Wrestleback
    pools: tuple[Pool, ...]
    graph: "nx.DiGraph[BoutKey]" = field(repr=False, compare=False)
    wiring: Wiring = field(repr=False, compare=False)

    @property
    def ranked(self) -> bool:
        """Whether the ranking of its one pool is the ranking of the weight."""
        return len(self.pools) == 1

    def entries(self) -> Iterator[str]:
        """Every entry of the line-up, top to bottom."""
        for line in self.lines:
            if isinstance(line, tuple):
                yield from line
            elif line is not None:
                yield line

    def members(self, pool: Pool) -> tuple[str, ...]:
        """The entries of a pool in the order of its lines."""
        return tuple(str(self.lines[number - 1]) for number in pool.lines)

    def round_of(self, key: BoutKey) -> Round:
        """The round of a bout; refuses a bout that the bracket does not have."""
        if key not in self.sources:
            raise NoSuchBout(bout=key)
        found: Round = self.graph.nodes[key]["round"]
        return found

    def onward(self, key: BoutKey, way: Exit) -> Seat | None:
        """Where the winner or the loser of a bout goes; None where his way ends, or may end."""
        if key not in self.sources:
            raise NoSuchBout(bout=key)
        wiring = self.wiring
        seat = wiring.onward[2 * wiring.index[key] + (way is Exit.LOSER)]
        return None if seat < 0 else Seat(wiring.keys[seat // 2], seat % 2)

    def chance(self, key: BoutKey) -> Seat | None:
        """Where the loser of a bout goes if the man who beat him goes on; None where nowhere."""
        wiring = self.wiring
        special = wiring.chances.get(2 * wiring.index[key] + 1)
        if special is None:
            return None
        seat = wiring.onward[special]
        return Seat(wiring.keys[seat // 2], seat % 2)

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
        if isinstance(came, From):
            return came.bout in self.bouts or (came.exit is Exit.WINNER and came.bout in self.byes)
        return isinstance(came, Ranked) or any(
            key in self.bouts for key in victims(self.sources, came)
        )
