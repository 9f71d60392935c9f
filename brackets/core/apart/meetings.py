"""When those can meet first who were to be kept apart."""

from collections.abc import Collection, Iterator, Mapping
from itertools import product

from brackets.core.apart.criteria import Pair
from brackets.core.apart.result import Meeting
from brackets.core.elimination import championship_round
from brackets.core.graph import Bracket
from brackets.core.rules import Apart, Wrestleback
from brackets.core.sources import Beaten, BoutKey, Line, Ranked, Source

Sought = Mapping[Apart, Collection[Pair]]
"""The pairs to be kept apart, by criterion."""


def meetings(
    sought: Sought, lines: Mapping[str, int], rounds: int, wrestleback: Wrestleback
) -> Iterator[Meeting]:
    """In an elimination of so many rounds, by the line (from 0) of each entrant."""
    double = wrestleback is Wrestleback.DOUBLE_ELIMINATION
    codes = ["P", *(championship_round(number, rounds) for number in range(1, rounds))]
    codes.append("UF" if double else championship_round(rounds, rounds))
    for criterion, some in sought.items():
        for one, other in sorted(some):
            code = codes[(lines[one] ^ lines[other]).bit_length()]
            yield Meeting(criterion, one, other, code)


def small_meetings(sought: Sought, bracket: Bracket) -> Iterator[Meeting]:
    """In a round robin, a best of three or in pools."""
    rounds = _first_rounds(bracket)
    for criterion, some in sought.items():
        for one, other in sorted(some):
            yield Meeting(criterion, one, other, rounds[frozenset((one, other))])


def _first_rounds(bracket: Bracket) -> Mapping[frozenset[str], str]:
    entries = tuple(bracket.entries())
    coming: dict[BoutKey, frozenset[str]] = {}
    found: dict[frozenset[str], str] = {}

    def comers(side: Source) -> frozenset[str]:
        if isinstance(side, Line):
            return frozenset((entries[side.number - 1],))
        if isinstance(side, Ranked):
            return frozenset(entries[line - 1] for line in bracket.pools[side.pool].lines)
        return coming[side.by if isinstance(side, Beaten) else side.bout]

    for key, (top, bottom) in bracket.sources.items():
        coming[key] = comers(top) | comers(bottom)
        for one, other in product(comers(top), comers(bottom)):
            found.setdefault(frozenset((one, other)), key.round)
    return found
