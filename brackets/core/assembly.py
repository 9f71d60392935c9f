"""From rounds and sources to a checked bracket: the graph and its numbers."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

import networkx as nx

from brackets.core.graph import Bracket
from brackets.core.laws import check
from brackets.core.rules import Wrestleback
from brackets.core.sources import (
    Beaten,
    BoutKey,
    Format,
    From,
    LineUp,
    Needed,
    Pool,
    Ranked,
    Round,
    Sources,
    victims,
)
from brackets.core.wiring import Parts, filled, wire


@dataclass(frozen=True, slots=True)
class Design:
    """What a format plans.

    `rounds` are in running order; `sources` may come in any order. `rank_places`: the places that
    ranks of pools have without a bout.
    """

    rounds: Sequence[Round]
    sources: Mapping[BoutKey, Sources]
    wrestleback: Wrestleback = Wrestleback.EVERYONE
    pools: tuple[Pool, ...] = ()
    rank_places: Mapping[Ranked, int] = field(default_factory=dict)


def assemble(form: Format, lines: LineUp, places: int, design: Design) -> Bracket:
    """Build the bracket of a design and hold it to the laws.

    Raises `BracketBroken`, naming the law, when the bracket is none.
    """
    sources = design.sources
    by_code = {one.code: one for one in design.rounds}
    keys = sorted(sources, key=lambda key: (by_code[key.round].column, key.position))
    wiring = wire(Parts(lines, keys, sources, by_code, design.pools, design.rank_places))
    byes, real = [], []
    for key, sides in zip(keys, filled(wiring, lines), strict=True):
        if sum(sides) == 1:
            byes.append(key)
        elif all(sides):
            real.append(key)
    bracket = Bracket(
        format=form,
        lines=lines,
        places=places,
        rounds=tuple(design.rounds),
        sources=MappingProxyType({key: sources[key] for key in keys}),
        bouts=tuple(real),
        byes=frozenset(byes),
        wrestleback=design.wrestleback,
        pools=design.pools,
        graph=_graph(keys, design, by_code),
        wiring=wiring,
    )
    check(bracket)
    return bracket


def _graph(
    keys: Sequence[BoutKey], design: Design, rounds: Mapping[str, Round]
) -> "nx.DiGraph[BoutKey]":
    graph: nx.DiGraph[BoutKey] = nx.DiGraph()
    for key in keys:
        graph.add_node(key, round=rounds[key.round], sources=design.sources[key])
    for key in keys:
        graph.add_edges_from((one, key) for one in _waited_for(key, design, rounds[key.round]))
        for slot, source in enumerate(design.sources[key]):
            if isinstance(source, From):
                graph.add_edge(source.bout, key, exit=source.exit, slot=slot)
    nx.freeze(graph)
    return graph


def _waited_for(key: BoutKey, design: Design, here: Round) -> Iterator[BoutKey]:
    """The bouts on which it hangs who comes to a bout, or whether it is needed, but its feeders."""
    for source in design.sources[key]:
        if isinstance(source, Beaten):
            yield from (source.by, *victims(design.sources, source))
        elif isinstance(source, Ranked):
            yield from design.pools[source.pool].bouts
    if here.needed is Needed.LEVEL:
        yield from (one for pool in design.pools for one in pool.bouts if one != key)
