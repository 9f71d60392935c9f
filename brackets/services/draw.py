"""Drawing a weight, and taking the draw back."""

import secrets

from brackets.core.draw import Entrant, draw
from brackets.core.errors import AlreadyDrawn, AlreadyWrestled, TooFew
from brackets.core.graph import LineUp
from brackets.models import Bout, Drawn
from brackets.queries import bracket, find_drawn, rules_of
from brackets.services.progress import advance
from seeding.core.lot import LOT_VERSION, Lot
from seeding.entries.models import Entry, WeightClass
from seeding.entries.permissions import Right, require
from seeding.journal.services import Call, Deed, act
from seeding.services import lock_order, unlock_order


@act
def draw_weight(*, call: Call, weight: WeightClass, lot_seed: str = "") -> Deed:
    """Draw a weight: seeds by the published order, the rest by lot from a recorded seed."""
    require(call, weight.tournament_id, Right.DIRECT)
    lock_order(call, weight)
    lot_seed = lot_seed or secrets.token_hex(16)
    entrants = [
        Entrant(id=row.key, seed=row.seed, team=str(row.team_id))
        for row in Entry.objects.filter(weight_class=weight, status=Entry.Status.ENTERED)
    ]
    if len(entrants) < 2:
        raise TooFew(weight=weight.label, count=len(entrants))
    lines = draw(entrants, rules_of(weight.division), Lot(lot_seed, f"draw/{weight.key}"))
    made = set_lines(weight, lines, lot_seed)
    return Deed(weight.tournament.log_id, "weight.drawn", {"weight": weight.pk, "drawn": made.pk})


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


@act
def take_back_draw(*, call: Call, weight: WeightClass) -> Deed:
    """Undo a draw of which nothing has been wrestled."""
    require(call, weight.tournament_id, Right.DIRECT)
    drawn = find_drawn(weight)
    wrestled = Bout.objects.filter(drawn=drawn, status=Bout.Status.DECIDED, implied=False)
    if wrestled.exists():
        raise AlreadyWrestled(weight=weight.label, count=wrestled.count())
    if drawn:
        drawn.delete()
    unlock_order(call, weight)
    return Deed(weight.tournament.log_id, "draw.taken-back", {"weight": weight.pk})
