"""Reads of a committed draw."""

from django.db.models import Count, Q

from brackets.models import Commitment, Drawn, TakenBack
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.queries.groups import is_waiting


def commitment_of(tournament: Tournament) -> Commitment | None:
    """The commitment of a tournament, if there is one."""
    return Commitment.objects.filter(tournament=tournament).first()


def draws_before(weight: WeightClass) -> list[TakenBack]:
    """The committed draws of a weight that were taken back, the first one first."""
    return list(TakenBack.objects.filter(weight_class=weight).order_by("number"))


def taken_back(tournament: Tournament) -> list[TakenBack]:
    """All committed draws that were taken back, light to heavy."""
    rows = TakenBack.objects.filter(weight_class__tournament=tournament)
    return list(rows.select_related("weight_class").order_by("weight_class__position", "number"))


def anything_drawn(tournament: Tournament) -> bool:
    """Whether a weight is drawn, or was and was taken back under a commitment."""
    drawn = Drawn.objects.filter(weight_class__tournament=tournament)
    return drawn.exists() or bool(taken_back(tournament))


def waiting(tournament: Tournament) -> bool:
    """Whether a weight that has two entries at least is not drawn yet."""
    entered = Q(entries__status=Entry.Status.ENTERED)
    rows = WeightClass.objects.filter(tournament=tournament, locked=False)
    rows = rows.annotate(field=Count("entries", filter=entered)).filter(field__gte=2)
    return any(not is_waiting(row) for row in rows.select_related("division"))
