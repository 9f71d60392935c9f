"""The draw: who starts on which line."""

from collections.abc import Sequence
from dataclasses import dataclass

from brackets.core.errors import SeedTwice
from brackets.core.formats import shape
from brackets.core.graph import Format, LineUp
from brackets.core.lines import line_order
from brackets.core.rules import BracketRules
from seeding.core.lot import Lot


@dataclass(frozen=True, slots=True)
class Entrant:
    """Who takes part in a draw. `seed` None: placed by lot."""

    id: str
    seed: int | None
    team: str


def draw(entrants: Sequence[Entrant], rules: BracketRules, lot: Lot) -> LineUp:
    """The line-up of a field, the same whatever order the entrants come in.

    Seeds take the best ranks in their order (a gap closes), all others the
    ranks after them by lot. A rank starts on the line that the line order gives it. Ranks that
    nobody has are the byes, so these fall beside the best. Rank lines + j shares the line of rank
    lines + 1 - j as a pigtail. A round robin has its entrants in the order of rank.
    Refuses a field that has no format, and a seed given twice.
    """
    form = shape(len(entrants), rules)
    ranked = _ranked(entrants, lot)
    if form.format is Format.ROUND_ROBIN:
        return tuple(ranked)
    return tuple(
        _on_line(rank, 2 * form.lines + 1 - rank, ranked) for rank in line_order(form.lines, rules)
    )


def _ranked(entrants: Sequence[Entrant], lot: Lot) -> list[str]:
    seeded: dict[int, str] = {}
    others = []
    for entrant in sorted(entrants, key=lambda one: one.id):
        if entrant.seed is None:
            others.append(entrant.id)
        elif entrant.seed in seeded:
            raise SeedTwice(seed=entrant.seed)
        else:
            seeded[entrant.seed] = entrant.id
    return [seeded[seed] for seed in sorted(seeded)] + lot.shuffled(others)


def _on_line(rank: int, sharing: int, ranked: Sequence[str]) -> str | tuple[str, str] | None:
    if rank > len(ranked):
        return None
    if sharing > len(ranked):
        return ranked[rank - 1]
    return ranked[rank - 1], ranked[sharing - 1]
