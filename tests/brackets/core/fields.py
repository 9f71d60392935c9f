"""Fields for the tests of the draw, and the slow way to tell who can meet when."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from random import Random

from hypothesis import strategies as st
from scipy.stats import chi2

from brackets.core.apart.criteria import KeepApart
from brackets.core.apart.field import Field
from brackets.core.draw import Entrant, ranked
from brackets.core.formats import build
from brackets.core.graph import BoutKey, Format, From, Line, LineUp, Section
from brackets.core.rules import BracketRules
from brackets.core.slots import Slots, slots
from seeding.core.lot import Lot

TEAM = KeepApart()


def entrants(teams: str, seeds: Sequence[int] = ()) -> list[Entrant]:
    """An entrant for each letter, his team; "-" has none. Seed i goes to the `seeds[i]`-th."""
    seed_of = {number: seed for seed, number in enumerate(seeds, start=1)}
    return [
        Entrant(f"e{i:03}", seed_of.get(i), "" if team == "-" else team)
        for i, team in enumerate(teams)
    ]


def random_field(chance: Random, most: int = 64, fewest: int = 8) -> list[Entrant]:
    """A field of any size, with up to 16 seeds and teams, regions and earlier bouts by chance."""
    size = chance.randint(fewest, most)
    seeds = min(size, chance.choice((0, 1, 4, 8, 12, 16)))
    teams = max(1, size // chance.choice((1, 1, 2, 3, 4, 6, 8)))
    order = chance.sample(range(1, size + 1), size)
    ids = [f"e{i:03}" for i in range(size)]
    return [
        Entrant(
            one,
            order[i] if order[i] <= seeds else None,
            f"t{chance.randrange(teams)}",
            f"r{chance.randrange(4)}",
            frozenset(chance.sample(ids, chance.choice((0, 0, 1)))),
        )
        for i, one in enumerate(ids)
    ]


def chances() -> st.SearchStrategy[Random]:
    return st.integers(0, 2**32).map(Random)


def meetings(lines: LineUp, rules: BracketRules) -> dict[frozenset[str], str]:
    """The code of the round in which each two of an elimination can meet first, by its graph."""
    bracket = build(lines, rules, 8)
    assert bracket.format is Format.ELIMINATION
    coming: dict[BoutKey, set[str]] = {}
    found: dict[frozenset[str], str] = {}
    for key, sources in bracket.sources.items():
        if bracket.round_of(key).section is not Section.CHAMPIONSHIP:
            continue
        top, bottom = (
            coming[side.bout] if isinstance(side, From) else set(_on(lines, side))
            for side in sources
            if isinstance(side, From | Line)
        )
        found.update({frozenset((a, b)): key.round for a in top for b in bottom})
        coming[key] = top | bottom
    return found


def _on(lines: LineUp, side: Line) -> Iterator[str]:
    held = lines[side.number - 1]
    if isinstance(held, tuple):
        yield held[side.half or 0]
    elif held is not None:
        yield held


def codes(lines: LineUp) -> list[str]:
    """The rounds before the final: P, R1 ... SF."""
    rounds = len(lines).bit_length() - 1
    return ["P", *(f"R{i}" for i in range(1, rounds - 2)), "QF", "SF"]


def cost(lines: LineUp, rules: BracketRules, apart: set[tuple[str, str]]) -> tuple[int, ...]:
    """How many of the pairs can meet first in each round before the final."""
    first = meetings(lines, rules)
    count = Counter(first[frozenset(pair)] for pair in apart)
    return tuple(count[code] for code in codes(lines))


def team_pairs(field: Sequence[Entrant]) -> set[tuple[str, str]]:
    named = [one for one in field if one.team]
    return {
        (min(a.id, b.id), max(a.id, b.id)) for a, b in combinations(named, 2) if a.team == b.team
    }


@dataclass(frozen=True)
class Setting:
    """A field with its slots, before the draw."""

    field: Field
    slots: Slots


def setting(
    field: Sequence[Entrant], rules: BracketRules, keep: KeepApart = TEAM, lot: str = "1912"
) -> Setting:
    order = ranked(field)
    found = slots(order.seeded, len(order.others), rules, Lot(lot, "draw"))
    return Setting(Field(field, found, keep), found)


def evenly(found: Counter[LineUp], among: set[LineUp]) -> bool:
    """Pearson's test at one in a thousand; the seeds of the lot are fixed, so it never wavers."""
    assert set(found) <= among
    mean = found.total() / len(among)
    statistic = sum((found[one] - mean) ** 2 / mean for one in among)
    return bool(statistic < chi2.ppf(0.999, len(among) - 1))
