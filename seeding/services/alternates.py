"""Alternates: who steps in for whom, and the way back."""

from zoneinfo import ZoneInfo

from django.db.models import Q

from seeding.core.errors import NobodyStandsBy, NotSteppedIn, PlaceHeld, TooLate
from seeding.entries.models import Entry
from seeding.entries.permissions import Right, require
from seeding.entries.services.entry import open_weight
from seeding.journal.core.errors import Stale
from seeding.journal.services import Call, Deed, act
from seeding.models import Berth, QualifyingPlan
from seeding.queries.qualifying import berths, first_alternate, standings
from seeding.services.qualifying import needed_plan, put


@act
def step_in(*, call: Call, entry: Entry, alternate: Entry) -> Deed:
    """The first alternate takes the line of a scratched entry, until the stated time.

    `alternate` is whom the caller saw as the first; refused where it is another's turn now.
    """
    require(call, entry.tournament_id, Right.DIRECT)
    open_weight(entry.weight_class)
    came = let_in(call, entry, alternate)
    subject = {"entry": came.pk, "for": entry.pk}
    return Deed(entry.tournament.log_id, "alternate.stepped-in", subject)


def let_in(call: Call, entry: Entry, alternate: Entry | None = None) -> Entry:
    """The first alternate takes the place of a scratched entry, inside a greater act.

    Whether the weight is drawn is for the caller to look at. `alternate` as in `step_in`.
    """
    first = first_alternate(entry.weight_class)
    if first is None:
        raise NobodyStandsBy(weight=entry.weight_class.label)
    _in_time(call, entry, needed_plan(entry.tournament))
    _left_open(entry)
    if alternate and first.entry_id != alternate.pk:
        raise Stale(what=f"The order of the alternates of {entry.weight_class.label}")
    Berth.objects.filter(pk=first.pk).update(stepped_in_at=call.now, stepped_in_for=entry)
    put(first.entry, Entry.Status.ENTERED)
    return first.entry


def inherit(call: Call, entry: Entry, came: Entry) -> None:
    """Who replaces a qualifier without having stood by holds his line of the field."""
    old = Berth.objects.filter(entry=entry).first()
    if old and not Berth.objects.filter(entry=came).exists():
        Berth.objects.create(
            entry=came,
            how=Berth.How.ALTERNATE,
            region=old.region,
            stepped_in_at=call.now,
            stepped_in_for=entry,
        )


def _in_time(call: Call, entry: Entry, plan: QualifyingPlan) -> None:
    until = plan.alternates_until
    if until and call.now > until:
        zone = entry.tournament.time_zone
        raise TooLate(until=f"{until.astimezone(ZoneInfo(zone)):%Y-%m-%d %H:%M} ({zone})")


def _left_open(entry: Entry) -> None:
    """Refuse where the entry has no spot of the field, is still in it, or was replaced already."""
    every = standings(berths(Q(entry__weight_class=entry.weight_class_id)))
    mine = every.get(entry.pk)
    other = next((one for one in every.values() if one.berth.stepped_in_for_id == entry.pk), None)
    why = ""
    if mine is None or mine.spot is None:
        why = "he came neither by place nor by wild card"
    elif mine.berth.entry.status != Entry.Status.SCRATCHED:
        why = "he is not scratched"
    elif other:
        why = f"{other.name} stepped in already"
    if why:
        raise PlaceHeld(entry=entry.wrestler.name, why=why)


@act
def step_back(*, call: Call, entry: Entry) -> Deed:
    """An alternate who stepped in stands by again, at his place of the list."""
    require(call, entry.tournament_id, Right.DIRECT)
    open_weight(entry.weight_class)
    rows = Berth.objects.filter(entry=entry).exclude(stepped_in_at=None)
    came_for = rows.values_list("stepped_in_for", flat=True).first()
    if came_for is None:
        raise NotSteppedIn(entry=entry.wrestler.name)
    _not_replaced(entry)
    rows.update(stepped_in_at=None, stepped_in_for=None)
    put(entry, Entry.Status.STANDBY)
    return Deed(
        entry.tournament.log_id, "alternate.stepped-back", {"entry": entry.pk, "for": came_for}
    )


def _not_replaced(entry: Entry) -> None:
    other = Berth.objects.filter(stepped_in_for=entry).select_related("entry__wrestler").first()
    if other:
        why = f"{other.entry.wrestler.name} stepped in for him; take that back first"
        raise PlaceHeld(entry=entry.wrestler.name, why=why)
