"""What a weight is drawn from as things stand."""

from collections.abc import Iterable

from django.db.models import Q

from brackets.core.apart.basis import Basis, Row, with_meetings
from brackets.core.rules import Apart
from brackets.queries import rules_of
from seeding.core.season import ResultKind
from seeding.entries.models import Entry, WeightClass
from seeding.models import Berth
from seeding.queries import season_bouts
from seeding.queries.qualifying import spots
from seeding.queries.scratches import holes

UNWRESTLED = (ResultKind.FORFEIT, ResultKind.MEDICAL)
"""Who won so has not met the other on a mat."""


def field_of(weight: WeightClass) -> list[Entry]:
    """The entries that are drawn."""
    rows = Entry.objects.filter(weight_class=weight, status=Entry.Status.ENTERED)
    return list(rows.select_related("wrestler", "team"))


def basis_of(weight: WeightClass, field: Iterable[Entry]) -> Basis:
    """The field of a weight with all that the draw looks at."""
    entries = list(field)
    regions, held = _regions(weight), spots(weight)
    rows = [
        Row(
            entry=one.key,
            seed=one.seed,
            team=one.team.key,
            region=regions.get(one.pk, ""),
            spot=str(held.get(one.key, "")),
        )
        for one in entries
    ]
    if Apart.MET in rules_of(weight.division).keep_apart:
        rows = with_meetings(rows, _met(weight, entries))
    return Basis.of(weight.key, rows, holes(weight))


def _regions(weight: WeightClass) -> dict[int, str]:
    rows = Berth.objects.filter(entry__weight_class=weight).exclude(region=None)
    return dict(rows.values_list("entry_id", "region__letter"))


def _met(weight: WeightClass, field: Iterable[Entry]) -> list[tuple[str, str]]:
    """The pairs of the field that wrestled each other in the season before."""
    keys = {one.wrestler_id: one.key for one in field}
    bouts = season_bouts(weight.tournament).exclude(kind__in=UNWRESTLED)
    rows = bouts.filter(Q(winner__in=keys) & Q(loser__in=keys))
    return [(keys[winner], keys[loser]) for winner, loser in rows.values_list("winner", "loser")]
