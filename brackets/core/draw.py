"""The draw: who starts on which line."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from brackets.core.errors import SeedTwice
from brackets.core.formats import shape
from brackets.core.graph import Format, LineUp
from brackets.core.lines import line_order
from brackets.core.rules import BracketRules
from seeding.core.lot import Lot
from seeding.core.qualifying import Held, LinesByRegion, seat


@dataclass(frozen=True, slots=True)
class Entrant:
    """Who takes part in a draw. `seed` None: placed by lot."""

    id: str
    seed: int | None
    team: str


def draw(
    entrants: Sequence[Entrant], rules: BracketRules, lot: Lot, holes: Collection[int] = ()
) -> LineUp:
    """The line-up of a field, the same whatever order the entrants come in.

    Seeds take the best ranks in their order (a gap closes; a seed number of `holes`, whose holder
    was scratched, keeps its rank empty), all others the ranks after them by lot. A rank starts on
    the line that the line order gives it. Ranks that nobody has are the byes, so these fall beside
    the best. Rank lines + j shares the line of rank lines + 1 - j as a pigtail. A round robin has
    its entrants in the order of rank.
    Refuses a field that has no format, and a seed given twice.
    """
    if shape(len(entrants), rules).format is Format.ROUND_ROBIN:
        return tuple(one for one in _ranked(entrants, lot, ()) if one)
    ranked = _ranked(entrants, lot, holes)
    lines = shape(len(ranked), rules).lines
    return tuple(_on_line(rank, 2 * lines + 1 - rank, ranked) for rank in line_order(lines, rules))


def draw_by_region(field: Sequence[Held], fill: LinesByRegion, rules: BracketRules) -> LineUp:
    """The line-up of a field whose lines belong to places of regions, without any lot.

    The rule book's smallest plan that has a line for each; a spot that nobody holds is a bye. A
    field small enough for a round robin has its entrants in the order of the lines.
    """
    lines = seat(fill.pattern([str(one.spot) for one in field]), field)
    if shape(len(field), rules).format is Format.ROUND_ROBIN:
        return tuple(one for one in lines if one)
    return lines


def _ranked(entrants: Sequence[Entrant], lot: Lot, holes: Collection[int]) -> list[str | None]:
    seeded: dict[int, str | None] = dict.fromkeys(holes)
    others = []
    for entrant in sorted(entrants, key=lambda one: one.id):
        if entrant.seed is None:
            others.append(entrant.id)
        elif seeded.get(entrant.seed) is not None:
            raise SeedTwice(seed=entrant.seed)
        else:
            seeded[entrant.seed] = entrant.id
    return [seeded[seed] for seed in sorted(seeded)] + list(lot.shuffled(others))


def _on_line(rank: int, sharing: int, ranked: Sequence[str | None]) -> str | tuple[str, str] | None:
    """Who has the rank, together with who shares its line; a rank left empty gives him the line."""
    both = [ranked[one - 1] for one in (rank, sharing) if one <= len(ranked)]
    there = [one for one in both if one is not None]
    if len(there) > 1:
        return there[0], there[1]
    return there[0] if there else None
