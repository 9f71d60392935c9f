"""Reads of what scratches have left of a weight's seeds."""

from seeding.core.scratches import Scratched
from seeding.entries.models import Entry, WeightClass
from seeding.queries.order import rules_of


def holes(weight: WeightClass) -> frozenset[int]:
    """The seed numbers that stay empty in the draw, by the rule book's setting."""
    if rules_of(weight.division).scratched is not Scratched.HOLE:
        return frozenset()
    rows = Entry.objects.filter(weight_class=weight).exclude(seed=None)
    held = set(rows.filter(status=Entry.Status.ENTERED).values_list("seed", flat=True))
    left = rows.filter(status=Entry.Status.SCRATCHED).values_list("seed", flat=True)
    return frozenset(seed for seed in left if seed and seed not in held)


def seeds_void(weight: WeightClass) -> bool:
    """Whether a scratch has left the weight without seeds until its order is adopted anew."""
    if rules_of(weight.division).scratched is not Scratched.REDRAW:
        return False
    rows = Entry.objects.filter(weight_class=weight).exclude(seed=None)
    scratched = rows.filter(status=Entry.Status.SCRATCHED).exists()
    return scratched and not rows.filter(status=Entry.Status.ENTERED).exists()
