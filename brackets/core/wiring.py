"""The graph of a bracket as whole numbers, for fast passes."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from brackets.core.sources import (
    Beaten,
    BoutKey,
    Exit,
    Line,
    LineUp,
    Needed,
    Pool,
    Ranked,
    Round,
    Section,
    Source,
    Sources,
    victims,
)

NOWHERE = 1_000
"""Worse than every place: a way that ends without one."""


@dataclass(frozen=True, slots=True)
class Victim:
    """A `Beaten` in numbers: the value whose occupant beat him, and the bouts where that was."""

    by: int
    bouts: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Wiring:
    """The graph as whole numbers.

    Bout i is `keys[i]`; its winner is value 2i, its loser value 2i + 1, and the occupant of line
    n (half h) value 2 * len(keys) + 2(n - 1) + h. From `first_special` on come those who are known
    only from what happened, as `specials` says. `inputs[i]` are the two values that fill the sides
    of bout i; `onward[v]` is the seat (2 * bout + slot) that value v fills, or -1 (of a pool's
    lines always -1). `chances`: the loser's values that a special may take, and that special.
    `ends[v]`: the place of who goes no further that way, `NOWHERE` where it is none. `pool[i]`:
    bout i belongs to a pool, whose bouts may be wrestled in any order.
    """

    keys: tuple[BoutKey, ...]
    inputs: tuple[tuple[int, int], ...]
    onward: tuple[int, ...]
    places: tuple[tuple[int, int] | None, ...]
    championship: tuple[bool, ...]
    index: Mapping[BoutKey, int]
    first_special: int
    specials: tuple[Victim | Ranked, ...]
    chances: Mapping[int, int]
    ends: tuple[int, ...]
    needed: tuple[Needed | None, ...]
    pool: tuple[bool, ...]


@dataclass(frozen=True, slots=True)
class Parts:
    """What a bracket is made of: `keys` in running order; the places that ranks of pools have."""

    lines: LineUp
    keys: Sequence[BoutKey]
    sources: Mapping[BoutKey, Sources]
    rounds: Mapping[str, Round]
    pools: Sequence[Pool]
    rank_places: Mapping[Ranked, int]


def wire(parts: Parts) -> Wiring:
    """The numbers of a bracket's parts."""
    keys = parts.keys
    index = {key: i for i, key in enumerate(keys)}
    first = 2 * (len(keys) + len(parts.lines))
    found = _specials(parts)
    numbers = {source: first + at for at, source in enumerate(found)}

    def value(source: Source) -> int:
        if isinstance(source, Line):
            return 2 * (len(keys) + source.number - 1) + (source.half or 0)
        if isinstance(source, Beaten | Ranked):
            return numbers[source]
        return 2 * index[source.bout] + (source.exit is Exit.LOSER)

    inputs = tuple(
        (value(top), value(bottom)) for top, bottom in (parts.sources[key] for key in keys)
    )
    specials = tuple(_special(source, parts.sources, index) for source in found)
    rounds = [parts.rounds[key.round] for key in keys]
    pooled = {key for pool in parts.pools for key in pool.bouts}
    return Wiring(
        keys=tuple(keys),
        inputs=inputs,
        onward=_onward(inputs, first + len(found), range(2 * len(keys), first)),
        places=tuple(one.places for one in rounds),
        championship=tuple(one.section is Section.CHAMPIONSHIP for one in rounds),
        index=MappingProxyType(index),
        first_special=first,
        specials=specials,
        chances=MappingProxyType(_chances(specials, first)),
        ends=tuple(
            _ends(
                rounds,
                first,
                [parts.rank_places.get(one) if isinstance(one, Ranked) else None for one in found],
            )
        ),
        needed=tuple(one.needed for one in rounds),
        pool=tuple(key in pooled for key in keys),
    )


def _specials(parts: Parts) -> list[Beaten | Ranked]:
    fed = [source for key in parts.keys for source in parts.sources[key]]
    named: list[Source] = [*fed, *parts.rank_places]
    return list(dict.fromkeys(one for one in named if isinstance(one, Beaten | Ranked)))


def _special(
    source: Beaten | Ranked, sources: Mapping[BoutKey, Sources], index: Mapping[BoutKey, int]
) -> Victim | Ranked:
    if isinstance(source, Ranked):
        return source
    bouts = tuple(index[key] for key in victims(sources, source))
    return Victim(2 * index[source.by], bouts)


def _chances(specials: Sequence[Victim | Ranked], first: int) -> dict[int, int]:
    return {
        2 * bout + 1: first + at
        for at, one in enumerate(specials)
        if isinstance(one, Victim)
        for bout in one.bouts
    }


def _onward(inputs: Sequence[tuple[int, int]], values: int, lines: range) -> tuple[int, ...]:
    onward = [-1] * values
    for i, sides in enumerate(inputs):
        for slot, fed in enumerate(sides):
            if fed not in lines:
                onward[fed] = 2 * i + slot
    return tuple(onward)


def _ends(rounds: Sequence[Round], first: int, ranks: Sequence[int | None]) -> list[int]:
    ends = [NOWHERE] * first + [NOWHERE if place is None else place for place in ranks]
    for i, one in enumerate(rounds):
        if one.places is not None:
            ends[2 * i], ends[2 * i + 1] = one.places
        elif one.loser_place is not None:
            ends[2 * i + 1] = one.loser_place
    return ends


def starters(lines: LineUp) -> Iterable[str | None]:
    """Two values per line, as `Wiring` counts them: the occupant (or both halves), else None."""
    for line in lines:
        yield from line if isinstance(line, tuple) else (line, None)


def filled(wiring: Wiring, lines: LineUp) -> Iterable[tuple[bool, bool]]:
    """Per bout, whether each side can be filled if everybody appears and every bout is won."""
    values = [False] * (2 * len(wiring.keys)) + [one is not None for one in starters(lines)]
    values += [False] * len(wiring.specials)
    for i, (top, bottom) in enumerate(wiring.inputs):
        for fed in (top, bottom):
            if fed >= wiring.first_special:
                values[fed] = _may_come(wiring.specials[fed - wiring.first_special], values)
        sides = values[top], values[bottom]
        values[2 * i], values[2 * i + 1] = any(sides), all(sides)
        yield sides


def _may_come(special: Victim | Ranked, values: Sequence[bool]) -> bool:
    return isinstance(special, Ranked) or any(values[2 * bout + 1] for bout in special.bouts)
