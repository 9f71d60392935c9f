"""The draw: who starts on which line."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from brackets.core.errors import SeedTwice
from brackets.core.formats import shape
from brackets.core.graph import Format, LineUp
from brackets.core.rules import BracketRules
from seeding.core.lot import Lot
from seeding.core.qualifying import Held, LinesByRegion, seat


@dataclass(frozen=True, slots=True)
class Entrant:
    """Who takes part in a draw. `seed` None: placed by lot.

    `team`, `region`: empty where he has none. `met`: ids of those whom he met before, as far as
    the draw shall know.
    """

    id: str
    seed: int | None
    team: str
    region: str = ""
    met: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Ranked:
    """The seeds in their order, None for a scratched one's rank; the others in order of id."""

    seeded: tuple[str | None, ...]
    others: tuple[str, ...]


def in_order(entrants: Sequence[Entrant], lot: Lot) -> LineUp:
    """The line-up of a round robin: seeds in their order, all others after them by lot. Refuses a
    seed given twice.
    """
    field = ranked(entrants)
    return tuple(one for one in field.seeded if one) + tuple(lot.shuffled(field.others))


def draw_by_region(field: Sequence[Held], fill: LinesByRegion, rules: BracketRules) -> LineUp:
    """The line-up of a field whose lines belong to places of regions, without any lot.

    The rule book's smallest plan that has a line for each; a spot that nobody holds is a bye. A
    field small enough for a round robin has its entrants in the order of the lines.
    """
    lines = seat(fill.pattern([str(one.spot) for one in field]), field)
    if shape(len(field), rules).format is not Format.ELIMINATION:
        return tuple(one for one in lines if one)
    return lines


def ranked(entrants: Sequence[Entrant], holes: Collection[int] = ()) -> Ranked:
    """The field in its order, without any lot. Refuses a seed given twice."""
    seeded: dict[int, str | None] = dict.fromkeys(holes)
    others = []
    for entrant in sorted(entrants, key=lambda one: one.id):
        if entrant.seed is None:
            others.append(entrant.id)
        elif seeded.get(entrant.seed) is not None:
            raise SeedTwice(seed=entrant.seed)
        else:
            seeded[entrant.seed] = entrant.id
    return Ranked(tuple(seeded[seed] for seed in sorted(seeded)), tuple(others))
