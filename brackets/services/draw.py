"""Drawing a weight, and taking the draw back."""

import secrets

from brackets.core.draw import Entrant, draw
from brackets.core.errors import AlreadyDrawn, TooFew
from brackets.core.graph import LineUp
from brackets.models import Bout, Drawn
from brackets.queries import bracket, find_drawn, rules_of
from brackets.services.progress import advance
from seeding.core.lot import LOT_VERSION, Lot
from seeding.entries.models import Entry, WeightClass
from seeding.journal.services import Call
from seeding.services import lock_order, unlock_order


def make_draw(call: Call, weight: WeightClass, lot_seed: str = "") -> Drawn:
    """Draw a weight: seeds by the published order, the rest by lot from a recorded seed.

    The act is `results.services.draw_weight`: a place can be certain, and worth points, at once.
    """
    lock_order(call, weight)
    lot_seed = lot_seed or secrets.token_hex(16)
    entrants = [
        Entrant(id=row.key, seed=row.seed, team=str(row.team_id))
        for row in Entry.objects.filter(weight_class=weight, status=Entry.Status.ENTERED)
    ]
    if len(entrants) < 2:
        raise TooFew(weight=weight.label, count=len(entrants))
    lines = draw(entrants, rules_of(weight.division), Lot(lot_seed, f"draw/{weight.key}"))
    return set_lines(weight, lines, lot_seed)


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
