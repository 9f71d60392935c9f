"""Circles: A stands over B, B over C, and C over A, so that every order breaks one."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import networkx as nx

from seeding.core.season import PriorBout


@dataclass(frozen=True, slots=True, order=True)
class Beat:
    """One wrestler stands over another, by these bouts or, without any, by the criterion `by`."""

    better: str
    worse: str
    bouts: tuple[PriorBout, ...]
    by: str = ""

    def __post_init__(self) -> None:
        if self.better == self.worse:
            raise ValueError(f"{self.better!r} cannot stand over himself.")


@dataclass(frozen=True, slots=True)
class Circle:
    """Wrestlers who all stand over each other, directly or through others.

    `round`: a shortest circle among them, beat by beat, each one's worse the next one's better;
    of several the first in alphabetical order of ids. `beats`: every beat between them.
    """

    wrestlers: tuple[str, ...]
    round: tuple[Beat, ...]
    beats: tuple[Beat, ...]


def circles(beats: Iterable[Beat]) -> tuple[Circle, ...]:
    """The strongly connected components of two or more (Tarjan 1972), first id first."""
    known = sorted(beats)
    graph = _graph((), known)
    parts = [sorted(part) for part in nx.strongly_connected_components(graph) if len(part) > 1]
    return tuple(_circle(tuple(part), known) for part in sorted(parts))


def top(nodes: Iterable[str], beats: Iterable[Beat]) -> tuple[tuple[str, ...], ...]:
    """Who cannot be put below anybody else: wrestlers alone, or the whole of a circle.

    These are the components over which nobody outside of them stands, in alphabetical order.
    """
    graph = _graph(nodes, beats)
    condensed = nx.condensation(graph)
    first = [part for part, over in condensed.in_degree() if over == 0]
    return tuple(sorted(tuple(sorted(condensed.nodes[part]["members"])) for part in first))


def triads(nodes: Iterable[str], beats: Iterable[Beat]) -> int:
    """How many three of a complete tournament stand in a circle.

    All threes less those in which one stands over both others: n(n-1)(n-2)/6 - sum of s(s-1)/2
    over the scores s. Source: Kendall & Babington Smith 1940 (from memory, unconfirmed).

    ValueError unless of every two exactly one stands over the other.
    """
    everybody = sorted(set(nodes))
    n = len(everybody)
    over = {(beat.better, beat.worse) for beat in beats}
    pairs = {frozenset(pair) for pair in over}
    if not len(over) == len(pairs) == n * (n - 1) // 2 or not set().union(*pairs) <= {*everybody}:
        raise ValueError(
            "Circular triads are counted where of every two one stands over the other."
        )
    scores = [sum(better == wrestler for better, _ in over) for wrestler in everybody]
    return n * (n - 1) * (n - 2) // 6 - sum(score * (score - 1) // 2 for score in scores)


def _graph(nodes: Iterable[str], beats: Iterable[Beat]) -> "nx.DiGraph[str]":
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_nodes_from(nodes)
    graph.add_edges_from((beat.better, beat.worse) for beat in beats)
    return graph


def _circle(wrestlers: tuple[str, ...], known: list[Beat]) -> Circle:
    inside = {*wrestlers}
    beats = tuple(beat for beat in known if beat.better in inside and beat.worse in inside)
    under = below(wrestlers, beats)
    # Each shortest round begins at its own first id, and min() keeps the first of equal ones.
    walk = min((way(start, start, under) for start in wrestlers), key=len)
    first = {(beat.better, beat.worse): beat for beat in reversed(beats)}
    steps = zip(walk, (*walk[1:], walk[0]), strict=True)
    return Circle(wrestlers, tuple(first[step] for step in steps), beats)


def below(wrestlers: Iterable[str], beats: Iterable[Beat]) -> dict[str, list[str]]:
    """Over whom each stands, in the order of the beats."""
    found: dict[str, list[str]] = {wrestler: [] for wrestler in wrestlers}
    for beat in beats:
        found[beat.better].append(beat.worse)
    return found


def way(start: str, end: str, under: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    """A shortest walk down from `start` to one who stands over `end`, breadth first.

    `under` as `below` gives it: where that is in alphabetical order, so is the choice among
    several walks. ValueError: no walk leads there.
    """
    walks: dict[str, tuple[str, ...]] = {start: (start,)}
    for wrestler in (queue := [start]):
        for worse in under[wrestler]:
            if worse == end:
                return walks[wrestler]
            if worse not in walks:
                walks[worse] = (*walks[wrestler], worse)
                queue.append(worse)
    raise ValueError(f"No walk leads from {start!r} to {end!r}.")
