"""Drawing a weight and taking the draw back, with what that is worth."""

from django.db.models import Count, Q

from brackets.core.errors import AlreadyWrestled
from brackets.queries import drawn
from brackets.services import make_draw, reveal_when_drawn, undo_draw
from results.core.errors import RulingsStand
from results.models import LedgerPart, Result, Ruling, VoidBout, Withdrawal
from results.services.settle import settle
from seeding.entries.core.errors import StillWaiting
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.permissions import Right, require
from seeding.entries.queries.groups import is_waiting
from seeding.journal.services import Call, Deed, act


@act
def draw_weight(*, call: Call, weight: WeightClass, lot_seed: str = "") -> Deed:
    """Draw a weight: seeds by the published order, the rest by lot from a recorded seed.

    Where the draw is committed the seed is settled; with the last weight the secret is revealed.
    """
    require(call, weight.tournament_id, Right.DIRECT)
    if is_waiting(weight):
        raise StillWaiting(weight=weight.label)
    settle(make_draw(call, weight, lot_seed))
    reveal_when_drawn(call, weight.tournament)
    return Deed(weight.tournament.log_id, "weight.drawn", {"weight": weight.pk})


def draw_every(*, call: Call, tournament: Tournament) -> int:
    """Draw every weight that has no bracket yet and two entries at least; returns how many.

    Each is an act of its own: a weight that is refused does not undo those drawn before it.
    """
    require(call, tournament.pk, Right.DIRECT)
    entered = Q(entries__status=Entry.Status.ENTERED)
    rows = WeightClass.objects.filter(tournament=tournament, locked=False)
    waiting = rows.annotate(field=Count("entries", filter=entered)).filter(field__gte=2)
    done = 0
    for weight in waiting.select_related("tournament", "division").order_by("position"):
        if is_waiting(weight):
            continue
        key = call.key and f"{call.key}/{weight.pk}"
        draw_weight(call=Call(call.actor, call.now, key), weight=weight)
        done += 1
    return done


@act
def take_back_draw(*, call: Call, weight: WeightClass, reason: str = "") -> Deed:
    """Undo a draw of which nothing has been wrestled; withdrawals from it lapse.

    A committed draw needs a reason, which is published with the next one.
    """
    require(call, weight.tournament_id, Right.DIRECT)
    undo(call, weight, reason)
    return Deed(weight.tournament.log_id, "draw.taken-back", {"weight": weight.pk})


def undo(call: Call, weight: WeightClass, reason: str) -> None:
    """Take a draw back inside a greater act; refused once anything of it is wrestled or ruled."""
    refuse_begun(weight)
    LedgerPart.objects.filter(weight_class=weight).delete()
    Withdrawal.objects.filter(entry__weight_class=weight).delete()
    undo_draw(call, weight, reason)


def refuse_begun(weight: WeightClass) -> None:
    """Refuse a drawn weight of which anything is wrestled or ruled."""
    wrestled = Result.objects.filter(bout__drawn=drawn(weight)).count()
    if wrestled:
        raise AlreadyWrestled(weight=weight.label, count=wrestled)
    rulings = Ruling.objects.filter(drawn__weight_class=weight).count()
    void = VoidBout.objects.filter(bout__drawn__weight_class=weight).count()
    if rulings or void:
        raise RulingsStand(weight=weight.label, rulings=rulings, void=void)
