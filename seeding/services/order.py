"""The order of a weight: moves by the committee, adoption, the lock."""

from collections.abc import Sequence

from django.db.models import F

from seeding.core.errors import ChallengesOpen, LeftOpen, MoveTooFar, OrderChanged
from seeding.entries.core.errors import Locked
from seeding.entries.models import Entry, WeightClass
from seeding.entries.permissions import Right, require
from seeding.entries.services.entry import open_weight
from seeding.journal.core.errors import Invalid, Problem, Stale
from seeding.journal.services import Call, Deed, act, advance_version
from seeding.models import Challenge, Override, SeedOrder
from seeding.queries import Order, first_lot_seed, order_of, rules_of
from seeding.queries.meanwhile import since
from seeding.queries.order import moved, reach
from seeding.services.recusal import stand_aside


@act
def move_seed(*, call: Call, entry: Entry, to: int, reason: str) -> Deed:
    """The committee puts an entry at place `to` of the order, with a reason.

    A move to the place where he stands is a decision too: it settles what the list left open.
    """
    weight = entry.weight_class
    require(call, entry.tournament_id, Right.SEED)
    kept = open_order(call, weight)
    move = put(call, kept, order_of(weight), entry, to, reason)
    subject = {"weight": weight.pk, "entry": entry.pk, "to": to, "move": move.pk}
    return Deed(entry.tournament.log_id, "seed.moved", subject)


def put(call: Call, kept: SeedOrder, order: Order, entry: Entry, to: int, reason: str) -> Override:
    """Write a move down, where the list and the member's own teams allow it."""
    if problems := list(_problems(order, entry, to, reason)):
        raise Invalid(problems)
    uid = entry.wrestler.uid
    _within_reach(order, entry, to)
    move = Override(
        order=kept,
        entry=entry,
        before=order.order.index(uid) + 1,
        to=to,
        reason=reason.strip(),
        author_id=call.author,
        at=call.now,
    )
    after = moved(order.proposal.order, (*order.overrides, move))
    stand_aside(call, entry.weight_class, order, after, {uid})
    move.save()
    return move


def _problems(order: Order, entry: Entry, to: int, reason: str) -> list[Problem]:
    found = []
    if not reason.strip():
        found.append(Problem("reason", "Say why, for those who will ask."))
    if entry.wrestler.uid not in order.order:
        found.append(Problem("entry", "This entry is scratched. Restore it first."))
    elif not 1 <= to <= len(order.order):
        found.append(Problem("to", f"Choose a place from 1 to {len(order.order)}."))
    return found


def _within_reach(order: Order, entry: Entry, to: int) -> None:
    most = rules_of(entry.weight_class.division).committee.largest_move
    uid = entry.wrestler.uid
    allowed = reach(order, uid, most)
    if most and to not in allowed:
        raise MoveTooFar(
            most=most, wrestler=order.names[uid], low=allowed.start, high=allowed.stop - 1
        )


@act
def take_back_move(*, call: Call, override: Override) -> Deed:
    """Undo one move of the committee."""
    weight = override.order.weight_class
    require(call, weight.tournament_id, Right.SEED)
    open_order(call, weight)
    order = order_of(weight)
    left = tuple(row for row in order.overrides if row.pk != override.pk)
    named = {override.entry.wrestler.uid}
    stand_aside(call, weight, order, moved(order.proposal.order, left), named)
    subject = {"weight": weight.pk, "entry": override.entry_id, "override": override.pk}
    override.delete()
    return Deed(weight.tournament.log_id, "seed.move-taken-back", subject)


@act
def adopt_order(*, call: Call, weight: WeightClass) -> Deed:
    """Make the order as it stands the seeds of the weight, as many as the list seeds.

    Refused while a challenge waits for its answer or the list leaves a place to the committee.
    """
    require(call, weight.tournament_id, Right.SEED)
    kept = open_order(call, weight)
    order = order_of(weight)
    _nothing_waits(kept, order)
    write_seeds(weight, order.seeds)
    SeedOrder.objects.filter(pk=kept.pk).update(
        adopted_at=call.now, adopted_by=call.author, adopted_version=F("version")
    )
    subject = {"weight": weight.pk, "seeds": order.seeds}
    return Deed(weight.tournament.log_id, "order.adopted", subject)


def _nothing_waits(kept: SeedOrder, order: Order) -> None:
    waiting = Challenge.objects.filter(order=kept, state=Challenge.State.OPEN)
    people = [
        f"{order.called(row.entry)} over {order.called(row.over)}, by {row.by}"
        for row in waiting.select_related("entry__wrestler", "over__wrestler")
    ]
    if people:
        raise ChallengesOpen(challenges="; ".join(people))
    if order.undecided:
        groups = (", ".join(order.names[uid] for uid in group) for group in order.undecided)
        raise LeftOpen(groups="; ".join(groups))


def write_seeds(weight: WeightClass, entries: Sequence[int]) -> None:
    """Give the entries (by id, best first) the seeds 1, 2, ...; the others of the weight none."""
    Entry.objects.filter(weight_class=weight).exclude(seed=None).update(
        seed=None, version=F("version") + 1
    )
    for seed, pk in enumerate(entries, start=1):
        Entry.objects.filter(pk=pk).update(seed=seed, version=F("version") + 1)


def open_order(call: Call, weight: WeightClass) -> SeedOrder:
    """The weight's order, its version raised; refused once the weight is drawn.

    Every act on the order names the weight in its subject, so that whoever comes late is told what
    happened since he looked (`OrderChanged`).
    """
    open_weight(weight)
    kept = kept_order(weight)
    try:
        advance_version(SeedOrder.objects.filter(pk=kept.pk), call, f"The order of {weight.label}")
    except Stale as stale:
        what = "; ".join(since(weight, call.expected or 0)) or "somebody else was faster"
        raise OrderChanged(weight=weight.label, what=what) from stale
    return kept


def kept_order(weight: WeightClass) -> SeedOrder:
    """What is kept of the order of a weight, made where nobody has acted on it yet."""
    return SeedOrder.objects.get_or_create(
        weight_class=weight, defaults={"lot_seed": first_lot_seed(weight)}
    )[0]


def lock_order(call: Call, weight: WeightClass) -> None:
    """Close entries and order of a weight, because it is drawn."""
    rows = WeightClass.objects.filter(pk=weight.pk)
    advance_version(rows, call, f"Weight {weight.label}")
    if not rows.filter(locked=False).update(locked=True):
        raise Locked(weight=weight.label)


def unlock_order(call: Call, weight: WeightClass) -> None:
    """Open a weight again, because its draw is taken back."""
    rows = WeightClass.objects.filter(pk=weight.pk)
    advance_version(rows, call, f"Weight {weight.label}")
    rows.update(locked=False)
