"""How the lines of the next level are filled: by seed, or by region and place.

A rule book says which in the section `[seeding]`:

    fill          "seeds": the draw places the seeds and draws the rest by lot;
                  "regions": every line is that of one place of one region
    region_lines  table, needed where `fill` is "regions": for each number of lines the spots in
                  the order of the lines, top to bottom, each once. "A1" is the winner of region A,
                  "B4" the fourth of region B, "*1" the first wild card

    [seeding.region_lines]
    8 = ["A1", "B4", "B2", "A3", "B1", "A4", "A2", "B3"]
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from seeding.core.counting_rules import bad, unique
from seeding.core.errors import NoLineFor, SpotTwice
from seeding.entries.core.rulebook import Section

SEEDS, REGIONS = "seeds", "regions"
WILD_CARD = "*"
SPOT = re.compile(r"([A-Z]{1,2}|\*)([1-9]\d?)")


@dataclass(frozen=True, slots=True)
class LinesBySeed:
    """The draw places the seeds, and all others by lot."""


@dataclass(frozen=True, slots=True)
class LinesByRegion:
    """Every line belongs to a spot; `patterns` by number of lines, top to bottom."""

    patterns: Mapping[int, tuple[str, ...]]

    def pattern(self, spots: Sequence[str]) -> tuple[str, ...]:
        """The smallest pattern that has a line for each of the spots; refuses where none has."""
        ordered = [self.patterns[lines] for lines in sorted(self.patterns)]
        for pattern in ordered:
            if set(spots) <= set(pattern):
                return pattern
        strange = sorted(set(spots) - set(ordered[-1])) or sorted(set(spots))
        raise NoLineFor(spots=", ".join(strange), lines=", ".join(map(str, sorted(self.patterns))))


Fill = LinesBySeed | LinesByRegion


@dataclass(frozen=True, slots=True)
class Spot:
    """A place at a region's event, or of the wild cards, which have no region.

    >>> str(Spot("A", 1)), str(Spot("", 2))
    ('A1', '*2')
    """

    region: str
    place: int

    def __str__(self) -> str:
        return f"{self.region or WILD_CARD}{self.place}"


@dataclass(frozen=True, slots=True)
class Held:
    """An entry of the field with the spot that it holds."""

    entry: str
    spot: Spot


def read_fill(section: Section) -> Fill:
    """What the section says about its lines; raises a RuleBookRefusal.

    The table of lines may stand there unused, so that one setting turns it on.
    """
    by_region = section.text("fill", among=(SEEDS, REGIONS)) == REGIONS
    if not (by_region or section.has("region_lines")):
        return LinesBySeed()
    patterns = {}
    with section.section("region_lines") as table:
        for lines, key in section.numbered("region_lines"):
            patterns[lines] = _pattern(table, lines, key)
    if not patterns:
        raise bad(section, "region_lines", "a table with one number of lines at least")
    return LinesByRegion(MappingProxyType(patterns)) if by_region else LinesBySeed()


def _pattern(table: Section, lines: int, key: str) -> tuple[str, ...]:
    spots = table.texts(key)
    if len(spots) != lines:
        raise bad(table, key, f"a list of {lines} spots")
    for spot in spots:
        if not SPOT.fullmatch(spot):
            raise bad(table, key, f"a list of spots such as A1 or *1, which “{spot}” is not")
    unique(table, key, spots)
    return spots


def seat(pattern: Sequence[str], field: Sequence[Held]) -> tuple[str | None, ...]:
    """Who starts on each line of the pattern; None (a bye) where nobody holds the spot.

    The same whatever order the field comes in. Refuses two entries with one spot, and a spot
    that the pattern does not name.

    >>> seat(("A1", "B2", "B1", "A2"), [Held("x", Spot("B", 1)), Held("y", Spot("A", 1))])
    ('y', None, 'x', None)
    """
    found: dict[str, str] = {}
    for held in sorted(field, key=lambda one: one.entry):
        spot = str(held.spot)
        if spot in found:
            raise SpotTwice(spot=spot, one=found[spot], other=held.entry)
        if spot not in pattern:
            raise NoLineFor(spots=spot, lines=len(pattern))
        found[spot] = held.entry
    return tuple(found.get(spot) for spot in pattern)
