"""Who has nowhere to go because a ruling put another where his way leads."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.db.models import Q

from brackets.core.rulings import adrift
from brackets.models import Bout, Drawn
from brackets.queries import bracket
from results.models import Ruling
from results.queries.facts import facts
from results.queries.standing import standing_of
from seeding.entries.models import Entry, Tournament

SEATS = (Ruling.Kind.SIDES, Ruling.Kind.ADVANCEMENT)


@dataclass(frozen=True, slots=True)
class Stranded:
    """`bout`: the last one in which he stands."""

    entry: Entry
    bout: Bout


def stranded(tournament: Tournament) -> tuple[Stranded, ...]:
    """Everyone who is not out and has no ruled place; a few queries for each weight with rulings
    on seats, one without any."""
    ruled = Ruling.objects.filter(drawn__weight_class__tournament=tournament, kind__in=SEATS)
    drawn = Drawn.objects.filter(pk__in=ruled.values("drawn")).order_by("weight_class")
    weights = drawn.select_related("weight_class__division", "weight_class__tournament")
    return tuple(one for weight in weights for one in _of(weight))


def _of(drawn: Drawn) -> Iterator[Stranded]:
    known = facts(drawn)
    lost = [
        key for key in adrift(bracket(drawn), standing_of(drawn, known)) if key not in known.out
    ]
    entries = Entry.objects.filter(weight_class=drawn.weight_class_id, key__in=lost)
    for entry in entries.select_related("wrestler", "team", "weight_class").order_by("key"):
        last = drawn.bouts.filter(Q(top=entry) | Q(bottom=entry)).order_by("column").last()
        if last:
            yield Stranded(entry, last)
