"""What follows in the seeding room when an entry is scratched or restored before the draw."""

from django.db.models import F

from seeding.core.errors import PlaceHeld
from seeding.core.scratches import Scratched, after_scratch
from seeding.entries.models import Entry, WeightClass
from seeding.journal.services import Call
from seeding.models import Berth, SeedOrder
from seeding.queries import rules_of


def follow_turn(call: Call, entry: Entry) -> None:
    """Bring seeds and field into line with an entry that was scratched or restored."""
    if entry.status == Entry.Status.SCRATCHED:
        _reseed(entry)
    else:
        _back_in_the_field(entry)


def _reseed(entry: Entry) -> None:
    """The seeds of the others, as the rule book's `scratched` says."""
    if entry.seed is None:
        return
    policy = rules_of(entry.weight_class.division).scratched
    rows = Entry.objects.filter(weight_class=entry.weight_class, status=Entry.Status.ENTERED)
    seeds = {str(pk): seed for pk, seed in rows.values_list("pk", "seed") if seed}
    after = after_scratch(seeds, entry.seed, policy)
    for pk, seed in sorted(seeds.items(), key=lambda item: item[1]):
        if after.get(pk) != seed:
            rows.filter(pk=pk).update(seed=after.get(pk), version=F("version") + 1)
    if policy is Scratched.REDRAW:
        _not_adopted(entry.weight_class)


def void_seeds(weight: WeightClass) -> None:
    """Take every seed of an undrawn weight away: other wrestlers are in it than were seeded."""
    rows = Entry.objects.filter(weight_class=weight).exclude(seed=None)
    rows.update(seed=None, version=F("version") + 1)
    _not_adopted(weight)


def _not_adopted(weight: WeightClass) -> None:
    SeedOrder.objects.filter(weight_class=weight).update(
        adopted_at=None, adopted_by=None, version=F("version") + 1
    )


def _back_in_the_field(entry: Entry) -> None:
    """Who only stood by stands by again; whose line an alternate took over cannot have it back."""
    other = Berth.objects.filter(stepped_in_for=entry).select_related("entry__wrestler").first()
    if other:
        why = f"{other.entry.wrestler.family} stepped in; take that back first"
        raise PlaceHeld(entry=entry.wrestler.family, why=why)
    waiting = (Berth.How.ALTERNATE, Berth.How.CANDIDATE)
    if Berth.objects.filter(entry=entry, how__in=waiting, stepped_in_at=None).exists():
        Entry.objects.filter(pk=entry.pk).update(status=Entry.Status.STANDBY, seed=None)
