"""Drawing a weight, and taking the draw back."""

import secrets
from collections.abc import Iterable

from brackets.core.draw import Entrant, draw, draw_by_region
from brackets.core.errors import AlreadyDrawn, TooFew
from brackets.core.graph import LineUp
from brackets.models import Bout, Drawn
from brackets.queries import bracket, find_drawn, rules_of
from brackets.services.progress import advance
from seeding.core.errors import NoSpot, SeedsVoid
from seeding.core.lot import LOT_VERSION, Lot
from seeding.core.qualifying import Held, LinesByRegion
from seeding.entries.models import Entry, WeightClass
from seeding.journal.services import Call
from seeding.queries import rules_of as seeding_rules
from seeding.queries.qualifying import spots
from seeding.queries.scratches import holes, seeds_void
from seeding.services import lock_order, unlock_order


def make_draw(call: Call, weight: WeightClass, lot_seed: str = "") -> Drawn:
    """Draw a weight by its seeds and lot, or by region and place, as its rule book fills lines.

    The act is `results.services.draw_weight`: a place can be certain, and worth points, at once.
    """
    lock_order(call, weight)
    lot_seed = lot_seed or secrets.token_hex(16)
    return set_lines(weight, lay(weight, lot_seed), lot_seed)


def lay(weight: WeightClass, lot_seed: str) -> LineUp:
    """The line-up that the weight's entries take now; writes nothing."""
    rows = list(
        Entry.objects.filter(weight_class=weight, status=Entry.Status.ENTERED).select_related(
            "wrestler"
        )
    )
    if len(rows) < 2:
        raise TooFew(weight=weight.label, count=len(rows))
    rules, fill = rules_of(weight.division), seeding_rules(weight.division).fill
    if isinstance(fill, LinesByRegion):
        return draw_by_region(_held(weight, rows), fill, rules)
    if seeds_void(weight):
        raise SeedsVoid(weight=weight.label)
    entrants = [Entrant(row.key, row.seed, str(row.team_id)) for row in rows]
    return draw(entrants, rules, Lot(lot_seed, f"draw/{weight.key}"), holes(weight))


def _held(weight: WeightClass, rows: Iterable[Entry]) -> list[Held]:
    known = spots(weight)
    for row in rows:
        if row.key not in known:
            raise NoSpot(entry=row.wrestler.name, weight=weight.label)
    return [Held(row.key, known[row.key]) for row in rows]


def set_lines(weight: WeightClass, lines: LineUp, lot_seed: str) -> Drawn:
    """Keep a line-up as the weight's bracket and lay out its bouts."""
    if find_drawn(weight):
        raise AlreadyDrawn(weight=weight.label)
    made = Drawn.objects.create(
        weight_class=weight,
        places=weight.places,
        lines=[list(line) if isinstance(line, tuple) else line for line in lines],
        lot_seed=lot_seed,
        lot_version=LOT_VERSION,
    )
    built = bracket(made)
    Drawn.objects.filter(pk=made.pk).update(format=built.format)
    nodes = built.graph.nodes
    Bout.objects.bulk_create(
        Bout(
            drawn=made,
            round=key.round,
            position=key.position,
            column=nodes[key]["round"].column,
            status=Bout.Status.WAITING,
        )
        for key in nodes
    )
    advance(made, {})
    return made


def undo_draw(call: Call, weight: WeightClass) -> None:
    """Remove a weight's bracket and open its entries again (act: `results`)."""
    Drawn.objects.filter(weight_class=weight).delete()
    unlock_order(call, weight)
