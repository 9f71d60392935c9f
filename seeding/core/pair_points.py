"""Pair points: each pair is decided by the first criterion that can, for a point."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

import networkx as nx

from seeding.core.criteria import Criterion
from seeding.core.meetings import HeadToHead
from seeding.core.season import Season
from seeding.core.shapes import (
    HALF,
    NONE,
    ONE,
    Arrangement,
    Key,
    Pair,
    Total,
    add_up,
    every_pair,
    key,
    tiers,
)
from seeding.core.verdict import Sentence, Verdict


class Nobody(StrEnum):
    """What each gets out of a pair that no criterion decides."""

    HALF = "half"
    NOTHING = "nothing"


class Circles(StrEnum):
    """What becomes of a head-to-head circle of three: A beat B, B beat C, C beat A."""

    STAND = "stand"
    HALF = "half"
    NEXT = "next-criterion"


@dataclass(frozen=True, slots=True)
class PairPoints:
    """A point for the better of each pair, by the first criterion that decides it.

    Circles longer than three stand.
    """

    criteria: tuple[Criterion, ...]
    undecided: Nobody
    circles: Circles

    def arrange(self, field: Iterable[str], season: Season) -> Arrangement:
        names = sorted(field)
        pairs = {two: self._pair(two, season) for two in every_pair(names)}
        if self.circles is not Circles.STAND:
            for two, remark in _circles(self._head_to_head(pairs)).items():
                pairs[two] = self._open(pairs[two], remark, season)
        points = add_up(names, pairs.values())
        totals = {name: (Total("points", points[name]),) for name in names}
        return Arrangement(tiers(totals), MappingProxyType(totals), MappingProxyType(pairs))

    def _pair(self, two: Key, season: Season, start: int = 0) -> Pair:
        verdicts: list[Verdict] = []
        for criterion in self.criteria[start:]:
            verdicts.append(criterion.compare(*two, season))
            if verdicts[-1].better is not None:
                a = ONE if verdicts[-1].better == two[0] else NONE
                return Pair(two, tuple(verdicts), (a, ONE - a), verdicts[-1])
        each = HALF if self.undecided is Nobody.HALF else NONE
        return Pair(two, tuple(verdicts), (each, each), None)

    def _head_to_head(self, pairs: Mapping[Key, Pair]) -> dict[Key, Verdict]:
        """The pairs that a head-to-head line decided."""
        return {
            two: pair.deciding
            for two, pair in pairs.items()
            if pair.deciding is not None
            and isinstance(self.criteria[len(pair.verdicts) - 1], HeadToHead)
        }

    def _open(self, pair: Pair, remark: Sentence, season: Season) -> Pair:
        if self.circles is Circles.HALF:
            return Pair(pair.wrestlers, pair.verdicts, (HALF, HALF), None, remark)
        walked = len(pair.verdicts)
        later = self._pair(pair.wrestlers, season, walked)
        verdicts = pair.verdicts + later.verdicts
        return Pair(pair.wrestlers, verdicts, later.shares, later.deciding, remark)


def _circles(decided: Mapping[Key, Verdict]) -> dict[Key, Sentence]:
    """The pairs that lie on a circle of three, each with the first such circle in words."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    for verdict in decided.values():
        if verdict.better is not None and verdict.worse is not None:
            graph.add_edge(verdict.better, verdict.worse)
    found: dict[Key, Sentence] = {}
    for better, worse in graph.edges:
        thirds = set(graph.successors(worse)) & set(graph.predecessors(better))
        if thirds:
            found[key(better, worse)] = _circle(better, worse, min(thirds), decided)
    return found


def _circle(a: str, b: str, c: str, decided: Mapping[Key, Verdict]) -> Sentence:
    won = {
        name: "; ".join(str(bout) for bout in decided[key(x, y)].bouts if bout.winner == x)
        for name, x, y in (("ab", a, b), ("bc", b, c), ("ca", c, a))
    }
    return Sentence.of(
        "Head-to-head runs in a circle: "
        "{a} beat {b} ({ab}), {b} beat {c} ({bc}), {c} beat {a} ({ca}).",
        {"a": a, "b": b, "c": c},
        **won,
    )
