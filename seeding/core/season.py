"""The season: what is known about the wrestlers of a weight before they are put in order."""

from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import dataclass, field, fields, replace
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
    """At which weight something happened: the one being seeded, it or a neighbour, or whichever."""

    THIS_WEIGHT = "this-weight"
    ADJACENT = "adjacent-weights"
    OTHER = "other-weights"
    ANY_WEIGHT = "any-weight"


class LineUp(StrEnum):
    """In which line-up a bout was wrestled; a report that does not say is of the varsity."""

    ANY = "any"
    VARSITY = "varsity"


class TeamMates(StrEnum):
    """Whether bouts between wrestlers of one team count."""

    COUNT = "count"
    LEFT_OUT = "left-out"


@dataclass(frozen=True, slots=True, order=True)
class PriorBout:
    """One bout of the season; wrestlers are ids, `score` is written winner first ("11-1").

    `time` is that of a fall or technical fall, `level` the line-up ("varsity"), the divisions are
    those of the two teams; all empty where the report does not say.
    """

    date: date
    weight: str
    winner: str
    loser: str
    kind: str
    score: str = ""
    event: str = ""
    time: str = ""
    level: str = ""
    winner_division: str = ""
    loser_division: str = ""

    def __str__(self) -> str:
        how = " ".join(filter(None, (self.kind, self.score, self.time)))
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
class Ballot:
    """One voter's ranks (1 is best); `own` are the wrestlers whom he may not rank."""

    voter: str
    ranks: Mapping[str, int]
    own: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Eligible:
    """Which bouts count at all, for whatever purpose.

    `days`: at most so long before the tournament (0 = however long). `cut_off_days`: at least so
    long before it. `divisions`: both teams are of these (none = of any); a report that does not say
    is believed to be.
    """

    days: int = 0
    cut_off_days: int = 0
    line_up: LineUp = LineUp.ANY
    team_mates: TeamMates = TeamMates.COUNT
    divisions: frozenset[str] = frozenset()

    def holds(self, bout: PriorBout, season: "Season") -> bool:
        if self.line_up is LineUp.VARSITY and bout.level not in ("", "varsity"):
            return False
        sides = {bout.winner_division, bout.loser_division} - {""}
        if self.divisions and not sides <= self.divisions:
            return False
        if self.team_mates is TeamMates.LEFT_OUT and season.mates(bout.winner, bout.loser):
            return False
        return season.lies(bout, self.days, self.cut_off_days)


@dataclass(frozen=True, slots=True)
class Counted:
    """Which bouts count for a purpose: of these kinds of result, at these weights, and the last
    `days` days before the tournament (0 = the whole season)."""

    kinds: frozenset[str]
    at: At
    days: int = 0
    eligible: Eligible = Eligible()

    def counts(self, bout: PriorBout, season: "Season") -> bool:
        return (
            bout.kind in self.kinds
            and season.weighs(bout.weight, self.at)
            and season.lies(bout, self.days, 0)
            and self.eligible.holds(bout, season)
        )


@dataclass(frozen=True, slots=True)
class Season:
    """Everything that seeding one weight may look at; the order in which it was put in is lost.

    `entrants` are the wrestlers entered at `weight`; `bouts` may be those of the whole season, also
    of others. `rankings` are the numbers put in per ranking and wrestler (1 is best). `homes` names
    the team of the season by wrestler, `weights` the division's weights from light to heavy,
    `starts` the day of the tournament. Graphs of bouts are built once per way of counting and kept.
    """

    weight: str
    bouts: tuple[PriorBout, ...]
    entrants: frozenset[str] = frozenset()
    rankings: Mapping[str, Mapping[str, int]] = field(default_factory=dict)
    placings: tuple[Placing, ...] = ()
    ballots: tuple[Ballot, ...] = ()
    homes: Mapping[str, str] = field(default_factory=dict)
    weights: tuple[str, ...] = ()
    starts: date | None = None
    _kept: dict[Hashable, object] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def __post_init__(self) -> None:
        tables = {name: MappingProxyType(dict(table)) for name, table in self.rankings.items()}
        object.__setattr__(self, "bouts", tuple(sorted(self.bouts, key=by_date)))
        object.__setattr__(self, "placings", tuple(sorted(self.placings)))
        object.__setattr__(self, "rankings", MappingProxyType(tables))
        object.__setattr__(self, "homes", MappingProxyType(dict(self.homes)))
        ballots = sorted(self.ballots, key=lambda ballot: ballot.voter)
        object.__setattr__(self, "ballots", tuple(ballots))

    def entered(self, wrestlers: Iterable[str]) -> "Season":
        """The same season seen by these entrants."""
        return replace(self, entrants=frozenset(wrestlers))

    def weighs(self, weight: str, at: At) -> bool:
        """Whether something at `weight` is at the weights meant."""
        if at is At.ANY_WEIGHT or weight == self.weight:
            return at is not At.OTHER
        return at is At.OTHER or (at is At.ADJACENT and weight in self.once("adjacent", self._next))

    def _next(self) -> frozenset[str]:
        """The weights beside this one."""
        if self.weight not in self.weights:
            return frozenset()
        at = self.weights.index(self.weight)
        return frozenset((*self.weights[max(at - 1, 0) : at], *self.weights[at + 1 : at + 2]))

    def mates(self, one: str, other: str) -> bool:
        """Whether the two are of one team."""
        home = self.homes.get(one, "")
        return bool(home) and home == self.homes.get(other, "")

    def lies(self, bout: PriorBout, days: int, cut_off_days: int) -> bool:
        """Whether the bout is at most `days` (0 = any) and at least `cut_off_days` before."""
        if self.starts is None or not (days or cut_off_days):
            return True
        before = (self.starts - bout.date).days
        return before >= cut_off_days and (not days or before <= days)

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
            if counted.counts(bout, self):
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
            and self.weighs(placing.weight, at)
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
