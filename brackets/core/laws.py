"""The laws that every bracket keeps, whatever its format."""

from collections import Counter
from collections.abc import Iterable, Iterator

import networkx as nx

from brackets.core.errors import BracketBroken
from brackets.core.graph import Bracket
from brackets.core.rules import Wrestleback
from brackets.core.sources import (
    Beaten,
    BoutKey,
    Exit,
    From,
    Line,
    Round,
    Section,
    Source,
    victims,
)
from brackets.core.wiring import NOWHERE

FULL = (Wrestleback.EVERYONE, Wrestleback.DOUBLE_ELIMINATION)


def check(bracket: Bracket) -> None:
    """Hold a bracket to the laws; raises `BracketBroken` with the first law broken."""
    for law, broken in _laws(bracket):
        if broken:
            raise BracketBroken(law=f"{law} ({', '.join(map(str, broken))})")


Finding = tuple[str, list[object]]


def _laws(bracket: Bracket) -> Iterator[Finding]:
    graph, sources = bracket.graph, bracket.sources
    if not nx.is_directed_acyclic_graph(graph):
        yield "no bout comes before itself", ["a circle"]
    order = {key: i for i, key in enumerate(sources)}
    yield (
        "what feeds a bout comes before it in the running order",
        [(a, b) for a, b in graph.edges if order[a] >= order[b]],
    )
    fed = Counter(source for sides in sources.values() for source in sides)
    yield (
        "one source fills one side",
        [one for one, n in fed.items() if n > 1 and not (bracket.pools and isinstance(one, Line))],
    )
    yield "every entry starts somewhere", [one for one in _starts(bracket) if one not in fed]
    yield from _ways_on(bracket)
    yield "who may come back from a loss has no other way on", _taken_twice(bracket)
    yield "nobody who lost twice wrestles for more than a place", _third_chances(bracket)
    yield "a place is one more than the number of better ones", _places_out_of_line(bracket)


def _starts(bracket: Bracket) -> Iterable[Source]:
    for number, line in enumerate(bracket.lines, start=1):
        if isinstance(line, tuple):
            yield from (Line(number, 0), Line(number, 1))
        else:
            yield Line(number)


def _ways_on(bracket: Bracket) -> Iterator[Finding]:
    """A winner goes on, a loser drops once, a placing bout is the end, but for a challenge."""
    stuck: list[object] = []
    strays: list[object] = []
    back = any(one.section is Section.CONSOLATION and not one.placing for one in bracket.rounds)
    for key in bracket.sources:
        here = bracket.round_of(key)
        win, loss = (bracket.onward(key, way) for way in Exit)
        into = [bracket.round_of(seat.bout) if seat else None for seat in (win, loss)]
        if here.places is not None:
            strays += [key for one in into if one is not None and one.needed is None]
        elif here.section is not Section.POOL:
            stuck += [] if _goes_on(bracket, here, into[0]) else [key]
            full = back and bracket.wrestleback in FULL
            strays += [] if _may_lose(here, into[1], full=full) else [key]
    yield "a winner goes on in his section until a place is wrestled for", stuck
    yield "a first loss leads to the consolation side, a second one to a placing bout", strays


def _goes_on(bracket: Bracket, here: Round, there: Round | None) -> bool:
    if there is None:
        return False
    joins = bracket.wrestleback is Wrestleback.DOUBLE_ELIMINATION and there.code == "1st"
    return joins or there.section is here.section


def _may_lose(here: Round, there: Round | None, *, full: bool) -> bool:
    """Whether a loser may go there; `full`: everyone wrestles back."""
    if here.section is Section.CHAMPIONSHIP:
        if there is None:
            return not full
        return there.section is Section.CONSOLATION and not (full and there.placing)
    return there is None or there.placing


def _taken_twice(bracket: Bracket) -> list[object]:
    """Losers whom two chains may take, or a chain and a bout of their own."""
    sources = [source for sides in bracket.sources.values() for source in sides]
    chances = Counter(
        key
        for source in sources
        if isinstance(source, Beaten)
        for key in victims(bracket.sources, source)
    )
    led = {source.bout for source in sources if isinstance(source, From) and _lost(source)}
    return [key for key, times in chances.items() if times > 1 or key in led]


def _lost(source: From) -> bool:
    return source.exit is Exit.LOSER


def _third_chances(bracket: Bracket) -> list[object]:
    """Bouts before the placing ones into which somebody can come who lost twice."""
    losses: dict[BoutKey, int] = {}
    for key, sides in bracket.sources.items():
        losses[key] = max((_carried(bracket, losses, side) for side in sides), default=0)
    return [key for key, lost in losses.items() if lost > 1 and not bracket.round_of(key).placing]


def _carried(bracket: Bracket, losses: dict[BoutKey, int], source: Source) -> int:
    if isinstance(source, From):
        return losses[source.bout] + _lost(source)
    if isinstance(source, Beaten):
        return max((losses[key] + 1 for key in victims(bracket.sources, source)), default=0)
    return 0


def _places_out_of_line(bracket: Bracket) -> list[object]:
    wiring = bracket.wiring
    ends = sorted(
        place
        for place, seat in zip(wiring.ends, wiring.onward, strict=True)
        if place < NOWHERE and seat < 0
    )
    return [place for place in sorted(set(ends)) if ends.index(place) != place - 1]
