"""The season: what is known about the wrestlers of a weight before they are put in order."""

from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import dataclass, field, fields
from datetime import date
from enum import StrEnum
from operator import attrgetter
from types import MappingProxyType
from typing import TypeVar, cast

import networkx as nx

T = TypeVar("T")


class ResultKind(StrEnum):
    """How a prior bout was won. A bout that nobody won is no evidence and is not kept."""

    DECISION = "decision"
    MAJOR = "major decision"
    TECHNICAL_FALL = "technical fall"
    FALL = "fall"
    INJURY = "injury default"
    FORFEIT = "forfeit"
    MEDICAL = "medical forfeit"
    DISQUALIFICATION = "disqualification"


class At(StrEnum):
    """At which weight something happened: the one being seeded, or whichever."""

    THIS_WEIGHT = "this-weight"
    ANY_WEIGHT = "any-weight"


@dataclass(frozen=True, slots=True, order=True)
class PriorBout:
    """One bout of the season; wrestlers are ids, `score` is written winner first ("11-1")."""

    date: date
    weight: str
    winner: str
    loser: str
    kind: str
    score: str = ""
    event: str = ""

    def __str__(self) -> str:
        how = " ".join(filter(None, (self.kind, self.score)))
        return ", ".join(filter(None, (how, self.event, self.date.isoformat())))


by_date = attrgetter(*(part.name for part in fields(PriorBout)))


@dataclass(frozen=True, slots=True, order=True)
class Placing:
    """A place at an earlier event, such as "state last season"; 0 = took part, did not place."""

    event: str
    wrestler: str
    place: int
    weight: str = ""


@dataclass(frozen=True, slots=True)
class Counted:
    """Which bouts count for a purpose: of these kinds of result, at this or any weight."""

    kinds: frozenset[str]
    at: At

    def counts(self, bout: PriorBout, weight: str) -> bool:
        return bout.kind in self.kinds and (self.at is At.ANY_WEIGHT or bout.weight == weight)


@dataclass(frozen=True, slots=True)
class Season:
    """Everything that seeding one weight may look at; the order in which it was put in is lost.

    `entrants` are the wrestlers entered at `weight`; `bouts` may be those of the whole season, also
    of others. `rankings` are the numbers put in per ranking and wrestler (1 is best).
    Graphs of bouts are built once per way of counting and kept.
    """

    weight: str
    bouts: tuple[PriorBout, ...]
    entrants: frozenset[str] = frozenset()
    rankings: Mapping[str, Mapping[str, int]] = field(default_factory=dict)
    placings: tuple[Placing, ...] = ()
    _kept: dict[Hashable, object] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def __post_init__(self) -> None:
        tables = {name: MappingProxyType(dict(table)) for name, table in self.rankings.items()}
        object.__setattr__(self, "bouts", tuple(sorted(self.bouts, key=by_date)))
        object.__setattr__(self, "placings", tuple(sorted(self.placings)))
        object.__setattr__(self, "rankings", MappingProxyType(tables))

    def entered(self, wrestlers: Iterable[str]) -> "Season":
        """The same season seen by these entrants."""
        return Season(self.weight, self.bouts, frozenset(wrestlers), self.rankings, self.placings)

    def once(self, key: Hashable, make: Callable[[], T]) -> T:
        """What `make` gives, made at the first call with this key and kept for the next."""
        if key not in self._kept:
            self._kept[key] = make()
        return cast(T, self._kept[key])

    def graph(self, counted: Counted) -> "nx.MultiDiGraph[str]":
        """The bouts that count as edges winner -> loser, each with its `bout`; frozen."""
        return self.once(counted, lambda: self._graph(counted))

    def _graph(self, counted: Counted) -> "nx.MultiDiGraph[str]":
        graph: nx.MultiDiGraph[str] = nx.MultiDiGraph()
        graph.add_nodes_from(sorted(self.entrants))
        for bout in self.bouts:
            if counted.counts(bout, self.weight):
                graph.add_edge(bout.winner, bout.loser, bout=bout)
        nx.freeze(graph)
        return graph

    def places(self, event: str, wrestler: str, at: At) -> tuple[int, ...]:
        """The wrestler's places at the event, best first, "took part" (0) last."""
        found = (
            placing.place
            for placing in self.placings
            if placing.event == event
            and placing.wrestler == wrestler
            and (at is At.ANY_WEIGHT or placing.weight == self.weight)
        )
        return tuple(sorted(found, key=lambda place: (place == 0, place)))


def wins(graph: "nx.MultiDiGraph[str]", winner: str, loser: str) -> tuple[PriorBout, ...]:
    """The bouts that `winner` won over `loser`, by date."""
    if not graph.has_edge(winner, loser):
        return ()
    return tuple(edge["bout"] for edge in graph[winner][loser].values())


def opponents(graph: "nx.MultiDiGraph[str]", wrestler: str) -> set[str]:
    """Everyone whom the wrestler has met."""
    if wrestler not in graph:
        return set()
    return {*graph.successors(wrestler), *graph.predecessors(wrestler)}


@dataclass(frozen=True, slots=True)
class Record:
    """Bouts won and lost; a bout can be a win for one without being a loss for the other."""

    won: tuple[PriorBout, ...]
    lost: tuple[PriorBout, ...]

    def __str__(self) -> str:
        return f"{len(self.won)}-{len(self.lost)}"

    def __len__(self) -> int:
        return len(self.won) + len(self.lost)


class Records:
    """Everybody's record by one way of counting, each looked up once."""

    def __init__(self, won: "nx.MultiDiGraph[str]", lost: "nx.MultiDiGraph[str]") -> None:
        self._won, self._lost = won, lost
        self._found: dict[str, Record] = {}

    def of(self, wrestler: str) -> Record:
        if wrestler not in self._found:
            won = _bouts(self._won.out_edges([wrestler], data="bout"))
            lost = _bouts(self._lost.in_edges([wrestler], data="bout"))
            self._found[wrestler] = Record(won, lost)
        return self._found[wrestler]

    def counts(self, wrestler: str, without: str) -> tuple[int, int]:
        """Bouts won and lost against others than `without`."""
        record = self.of(wrestler)
        won = self._won.number_of_edges(wrestler, without)
        lost = self._lost.number_of_edges(without, wrestler)
        return len(record.won) - won, len(record.lost) - lost


@dataclass(frozen=True, slots=True)
class Ledger:
    """How a record is kept: what counts as a win, and what as a loss."""

    win: Counted
    loss: Counted

    def records(self, season: Season) -> Records:
        return season.once(self, lambda: Records(season.graph(self.win), season.graph(self.loss)))


def _bouts(edges: Iterable[tuple[str, str, PriorBout]]) -> tuple[PriorBout, ...]:
    return tuple(sorted((bout for _, _, bout in edges), key=by_date))
