"""From rounds and sources to a checked bracket: the graph, its numbers, its laws."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType

import networkx as nx

from brackets.core.errors import BracketBroken
from brackets.core.graph import (
    BoutKey,
    Bracket,
    Exit,
    Format,
    From,
    Line,
    LineUp,
    Round,
    Section,
    Source,
    Sources,
    Wiring,
)


def assemble(
    form: Format,
    lines: LineUp,
    places: int,
    rounds: Sequence[Round],
    sources: Mapping[BoutKey, Sources],
) -> Bracket:
    """Build the bracket of `sources` and hold it to the laws.

    `rounds` are in running order; `sources` may come in any order. Raises `BracketBroken`, naming
    the law, when the bracket is none.
    """
    by_code = {one.code: one for one in rounds}
    keys = sorted(sources, key=lambda key: (by_code[key.round].column, key.position))
    wiring = _wire(keys, sources, by_code, lines)
    byes, real = [], []
    for key, sides in zip(keys, _filled(wiring, lines), strict=True):
        if sum(sides) == 1:
            byes.append(key)
        elif all(sides):
            real.append(key)
    bracket = Bracket(
        format=form,
        lines=lines,
        places=places,
        rounds=tuple(rounds),
        sources=MappingProxyType({key: sources[key] for key in keys}),
        bouts=tuple(real),
        byes=frozenset(byes),
        graph=_graph(keys, sources, by_code),
        wiring=wiring,
    )
    check(bracket)
    return bracket


def _graph(
    keys: Sequence[BoutKey], sources: Mapping[BoutKey, Sources], rounds: Mapping[str, Round]
) -> "nx.DiGraph[BoutKey]":
    graph: nx.DiGraph[BoutKey] = nx.DiGraph()
    for key in keys:
        graph.add_node(key, round=rounds[key.round], sources=sources[key])
    for key in keys:
        for slot, source in enumerate(sources[key]):
            if isinstance(source, From):
                graph.add_edge(source.bout, key, exit=source.exit, slot=slot)
    nx.freeze(graph)
    return graph


def _wire(
    keys: Sequence[BoutKey],
    sources: Mapping[BoutKey, Sources],
    rounds: Mapping[str, Round],
    lines: LineUp,
) -> Wiring:
    index = {key: i for i, key in enumerate(keys)}
    onward = [-1] * (2 * len(keys))

    def value(source: Source) -> int:
        if isinstance(source, Line):
            return 2 * (len(keys) + source.number - 1) + (source.half or 0)
        return 2 * index[source.bout] + (source.exit is Exit.LOSER)

    inputs = []
    for i, key in enumerate(keys):
        top, bottom = map(value, sources[key])
        inputs.append((top, bottom))
        for slot, fed in enumerate((top, bottom)):
            if fed < len(onward):
                onward[fed] = 2 * i + slot
    return Wiring(
        keys=tuple(keys),
        inputs=tuple(inputs),
        onward=tuple(onward),
        places=tuple(rounds[key.round].places for key in keys),
        championship=tuple(rounds[key.round].section is Section.CHAMPIONSHIP for key in keys),
        index=MappingProxyType(index),
    )


def starters(lines: LineUp) -> Iterable[str | None]:
    """Two values per line, as `Wiring` counts them: the occupant (or both halves), else None."""
    for line in lines:
        yield from line if isinstance(line, tuple) else (line, None)


def _filled(wiring: Wiring, lines: LineUp) -> Iterable[tuple[bool, bool]]:
    """Per bout, whether each side will be filled if everybody appears and every bout is won."""
    values = [False] * (2 * len(wiring.keys)) + [one is not None for one in starters(lines)]
    for i, (top, bottom) in enumerate(wiring.inputs):
        sides = values[top], values[bottom]
        values[2 * i], values[2 * i + 1] = any(sides), all(sides)
        yield sides


def check(bracket: Bracket) -> None:
    """Hold a bracket to the laws; raises `BracketBroken` with the first law broken."""
    for law, broken in _laws(bracket):
        if broken:
            raise BracketBroken(law=f"{law} ({', '.join(map(str, broken))})")


def _laws(bracket: Bracket) -> Iterable[tuple[str, list[object]]]:
    graph, sources = bracket.graph, bracket.sources
    if not nx.is_directed_acyclic_graph(graph):
        yield "no bout comes before itself", ["a circle"]
    order = {key: i for i, key in enumerate(sources)}
    yield (
        "what feeds a bout comes before it in the running order",
        [(a, b) for a, b in graph.edges if order[a] >= order[b]],
    )
    fed = Counter(source for sides in sources.values() for source in sides)
    yield "one source fills one side", [one for one, n in fed.items() if n > _uses(bracket, one)]
    yield "every entry starts somewhere", [one for one in _starts(bracket) if one not in fed]
    if bracket.format is Format.ELIMINATION:
        yield from _ways_on(bracket)


def _uses(bracket: Bracket, source: Source) -> int:
    if bracket.format is Format.ROUND_ROBIN and isinstance(source, Line):
        return len(bracket.lines) - 1
    return 1


def _starts(bracket: Bracket) -> Iterable[Source]:
    for number, line in enumerate(bracket.lines, start=1):
        if isinstance(line, tuple):
            yield from (Line(number, 0), Line(number, 1))
        else:
            yield Line(number)


def _ways_on(bracket: Bracket) -> Iterable[tuple[str, list[object]]]:
    """Laws of an elimination: a winner goes on, a loser drops once, a placing bout is the end."""
    stuck: list[object] = []
    strays: list[object] = []
    for key in bracket.sources:
        here = bracket.round_of(key)
        seats = {way: bracket.onward(key, way) for way in Exit}
        if here.places is not None:
            strays += [key for seat in seats.values() if seat is not None]
            continue
        if (win := seats[Exit.WINNER]) is None or (
            bracket.round_of(win.bout).section is not here.section
        ):
            stuck.append(key)
        if (loss := seats[Exit.LOSER]) is not None and not _may_drop(
            here, bracket.round_of(loss.bout)
        ):
            strays.append(key)
        if loss is None and here.section is Section.CHAMPIONSHIP:
            strays.append(key)
    yield "a winner goes on in his section until a place is wrestled for", stuck
    yield "a first loss leads to the consolation side, a second one to a placing bout", strays


def _may_drop(here: Round, there: Round) -> bool:
    if here.section is Section.CHAMPIONSHIP:
        return there.section is Section.CONSOLATION and there.places is None
    return there.places is not None
