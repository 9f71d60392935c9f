"""The shape of a bracket: bouts, where their sides come from, and what their exits give."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

Key = tuple[str, int]
Time = tuple[int, int]
Seat = str | None  # an entry, "" while it is not known, None where nobody will come
UNKNOWN = ""


@dataclass(frozen=True)
class Line:
    """Whoever starts on a line; `half` tells the two of a pigtail apart."""

    index: int
    half: int = 0


@dataclass(frozen=True)
class Exit:
    """The winner or the loser of a bout."""

    key: Key
    won: bool


@dataclass(frozen=True)
class Beaten:
    """Whom the winner of a leader's bout beat in a round; `at`: in this bout of it."""

    leader: Key
    code: str
    at: int | None = None


@dataclass(frozen=True)
class Rank:
    """Who has a rank in a pool."""

    pool: int
    rank: int


Source = Line | Exit | Beaten | Rank


@dataclass(frozen=True)
class Node:
    """A bout of the plan. `need`: "", or why it may turn out not to be needed."""

    key: Key
    time: Time
    sources: tuple[Source, Source]
    side: str  # championship, consolation, placing, final, pool
    win_place: int | None = None
    lose_place: int | None = None
    need: str = ""


@dataclass
class Plan:
    """All bouts of a weight in running order."""

    nodes: dict[Key, Node] = field(default_factory=dict)
    pools: list[list[Line]] = field(default_factory=list)
    pool_places: dict[tuple[int, int], int] = field(default_factory=dict)

    def add(
        self,
        code: str,
        time: Time,
        pairs: Iterable[tuple[Source, Source]],
        side: str,
        *places: int | None,
        need: str = "",
    ) -> None:
        """A round, top to bottom; `places`: of its winners and losers, if any."""
        win, lose = (*places, None, None)[:2]
        for position, pair in enumerate(pairs, 1):
            key = (code, position)
            self.nodes[key] = Node(key, time, pair, side, win, lose, need)

    def count(self, code: str) -> int:
        """How many bouts a round has."""
        return sum(1 for key in self.nodes if key[0] == code)

    def exits(self, code: str, won: bool) -> list[Source]:
        """The winners or the losers of a round, top to bottom."""
        return [Exit((code, i), won) for i in range(1, self.count(code) + 1)]

    def ordered(self) -> None:
        """Put the bouts into running order."""
        keys = sorted(self.nodes, key=lambda k: (self.nodes[k].time, k[1]))
        self.nodes = {key: self.nodes[key] for key in keys}

    def users(self) -> dict[Exit, tuple[Key, int]]:
        """Which seat each exit leads to."""
        return {
            source: (key, slot)
            for key, node in self.nodes.items()
            for slot, source in enumerate(node.sources)
            if isinstance(source, Exit)
        }


def pairs(sources: list[Source]) -> list[tuple[Source, Source]]:
    """Neighbours against each other."""
    return list(zip(sources[::2], sources[1::2], strict=True))
