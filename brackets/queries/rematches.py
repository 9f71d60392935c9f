"""When opponents can meet again, for any format that a division's rule book can be set to."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from brackets.core.crossings import Exchange
from brackets.core.elimination import championship_round
from brackets.core.formats import build, shape
from brackets.core.graph import Format
from brackets.core.latest import Certificate, certify, exchanges
from brackets.core.pools import DEALT, POOL_ORDER
from brackets.core.rematch import Row, rematches
from brackets.core.rules import (
    PLACES,
    SIZES,
    BracketRules,
    Crossing,
    Searched,
    Size,
    Wrestleback,
)

AS_SET = "as-set"
CROSSINGS = (AS_SET, str(Searched.LATEST), *map(str, Crossing))


@dataclass(frozen=True, slots=True)
class Asked:
    """A full field of so many lines, wrestled for so many places.

    `crossing`: one of `CROSSINGS`, the same for every round; `AS_SET` is what the rule book says.
    """

    lines: int
    places: int
    wrestleback: Wrestleback
    crossing: str

    @classmethod
    def usual(cls, rules: BracketRules) -> "Asked":
        """What the rule book itself says, for 32 lines."""
        return cls(32, rules.places, rules.wrestleback, AS_SET)


@dataclass(frozen=True, slots=True)
class Crossed:
    """The crossing of a championship round, by the rule books' name or as the order of bouts."""

    round: str
    exchange: Exchange


@dataclass(frozen=True, slots=True)
class Rematches:
    """The table for a format. `certificate`: whether no crossing delays rematches more, worked out
    where everybody wrestles back; None elsewhere."""

    format: Format
    crossed: tuple[Crossed, ...]
    rows: tuple[Row, ...]
    certificate: Certificate | None

    @property
    def pairs(self) -> list[tuple[int, int]]:
        """What the crossing reaches beside the latest that counting allows, the earliest first."""
        told = self.certificate
        return list(zip(sorted(told.reached), told.limit, strict=True)) if told else []


def sizes_of(rules: BracketRules) -> tuple[int, ...]:
    """The numbers of lines that there is a format for."""
    known = (*POOL_ORDER, *DEALT, *SIZES)
    return tuple(lines for lines in known if shape(lines, rules).lines == lines)


def table_of(rules: BracketRules, asked: Asked) -> Rematches:
    """The table; refuses more places than the format gives."""
    used = replace(rules, wrestleback=asked.wrestleback, sizes=tuple(_sizes(rules, asked)))
    lines = tuple(str(at) for at in range(1, asked.lines + 1))
    built = build(lines, used, asked.places)
    crossed: tuple[Crossed, ...] = ()
    certificate = None
    if asked.lines in SIZES and asked.wrestleback in CROSSING_WAYS and asked.places > PLACES[0]:
        made = exchanges(used.size(asked.lines))
        last = asked.lines.bit_length() - 1
        crossed = tuple(
            Crossed(championship_round(at, last), one) for at, one in enumerate(made, start=2)
        )
        if asked.wrestleback is Wrestleback.EVERYONE:
            certificate = certify(asked.lines, made)
    return Rematches(built.format, crossed, rematches(built), certificate)


CROSSING_WAYS = (Wrestleback.EVERYONE, Wrestleback.TO_FIFTH, Wrestleback.DOUBLE_ELIMINATION)
"""The ways back in which losers drop into a consolation under way, round after round."""


def _sizes(rules: BracketRules, asked: Asked) -> Iterator[Size]:
    for size in rules.sizes:
        if asked.crossing == AS_SET:
            yield size
        elif asked.crossing == Searched.LATEST:
            yield replace(size, crossings=Searched.LATEST)
        else:
            rounds = size.lines.bit_length() - 3
            yield replace(size, crossings=(Crossing(asked.crossing),) * rounds)
