"""The order of a weight: moves by the committee, adoption, the lock; the season's bouts."""

from collections.abc import Mapping, Sequence

from django.db.models import F

from seeding.entries.core.errors import Locked
from seeding.entries.models import Entry, WeightClass
from seeding.entries.permissions import Right, require
from seeding.entries.services.entry import open_weight
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import OPERATOR, Call, Deed, act, advance_version
from seeding.models import Override, SeedOrder
from seeding.queries import first_lot_seed, order_of


@act
def move_seed(*, call: Call, entry: Entry, to: int, reason: str) -> Deed:
    """The committee puts an entry at place `to` of the order, with a reason."""
    weight = entry.weight_class
    require(call, entry.tournament_id, Right.SEED)
    if not reason.strip():
        raise Invalid([Problem("reason", "Say why, for those who will ask.")])
    order = open_order(call, weight)
    last = Entry.objects.filter(weight_class=weight, status=Entry.Status.ENTERED).count()
    if not 1 <= to <= last:
        raise Invalid([Problem("to", f"Choose a place from 1 to {last}.")])
    Override.objects.create(
        order=order, entry=entry, to=to, reason=reason, author_id=_author(call), at=call.now
    )
    return Deed(entry.tournament.log_id, "seed.moved", {"entry": entry.pk, "to": to})


@act
def take_back_move(*, call: Call, override: Override) -> Deed:
    """Undo one move of the committee."""
    weight = override.order.weight_class
    require(call, weight.tournament_id, Right.SEED)
    open_order(call, weight)
    gone = override.pk
    override.delete()
    return Deed(weight.tournament.log_id, "seed.move-taken-back", {"override": gone})


@act
def adopt_order(*, call: Call, weight: WeightClass) -> Deed:
    """Make the order as it stands the seeds of the weight, as many as the rule book seeds."""
    require(call, weight.tournament_id, Right.SEED)
    order = open_order(call, weight)
    seeds = order_of(weight).seeds
    write_seeds(weight, seeds)
    SeedOrder.objects.filter(pk=order.pk).update(adopted_at=call.now, adopted_by=_author(call))
    return Deed(weight.tournament.log_id, "order.adopted", {"weight": weight.pk, "seeds": seeds})


@act
def set_inputs(
    *, call: Call, weight: WeightClass, values: Mapping[int, tuple[int | None, int | None]]
) -> Deed:
    """Put in what no bout tells: rank and qualifying place by entry's id."""
    require(call, weight.tournament_id, Right.SEED)
    open_order(call, weight)
    rows = {row.pk: row for row in Entry.objects.filter(weight_class=weight, pk__in=values)}
    changed = []
    for pk, row in rows.items():
        rank, place = values[pk]
        if (row.rank, row.qualifying_place) != (rank, place):
            changed.append(pk)
            Entry.objects.filter(pk=pk).update(
                rank=rank, qualifying_place=place, version=F("version") + 1
            )
    return Deed(weight.tournament.log_id, "ranks.set", {"weight": weight.pk, "entry": changed})


def write_seeds(weight: WeightClass, entries: Sequence[int]) -> None:
    """Give the entries (by id, best first) the seeds 1, 2, ...; the others of the weight none."""
    Entry.objects.filter(weight_class=weight).exclude(seed=None).update(
        seed=None, version=F("version") + 1
    )
    for seed, pk in enumerate(entries, start=1):
        Entry.objects.filter(pk=pk).update(seed=seed, version=F("version") + 1)


def open_order(call: Call, weight: WeightClass) -> SeedOrder:
    """The weight's order, its version raised; refused once the weight is drawn."""
    open_weight(weight)
    order, _made = SeedOrder.objects.get_or_create(
        weight_class=weight, defaults={"lot_seed": first_lot_seed(weight)}
    )
    advance_version(SeedOrder.objects.filter(pk=order.pk), call, f"The order of {weight.label}")
    return order


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


def _author(call: Call) -> int | None:
    return None if call.actor == OPERATOR else call.actor
