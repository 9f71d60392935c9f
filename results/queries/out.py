"""Who is out of the tournament, and from whom one can withdraw."""

from dataclasses import dataclass

from django.db.models import QuerySet

from brackets.models import Bout, Drawn
from brackets.queries import numbered
from results.models import Withdrawal
from seeding.entries.models import Entry, Tournament


def withdrawals(tournament: Tournament) -> QuerySet[Withdrawal]:
    """The withdrawals of a tournament, the last first."""
    return (
        Withdrawal.objects.filter(entry__tournament=tournament)
        .select_related("entry__wrestler", "entry__team", "entry__weight_class", "author")
        .order_by("-at", "-pk")
    )


def still_in(tournament: Tournament) -> QuerySet[Entry]:
    """The entries of drawn weights that have not withdrawn, light to heavy."""
    return (
        Entry.objects.filter(
            tournament=tournament,
            status=Entry.Status.ENTERED,
            weight_class__in=Drawn.objects.values("weight_class"),
        )
        .exclude(pk__in=Withdrawal.objects.values("entry"))
        .select_related("weight_class", "wrestler", "team")
        .order_by("weight_class__position", "wrestler__family", "wrestler__given", "pk")
    )


@dataclass(frozen=True, slots=True)
class Ahead:
    """An entry with the bouts that he is named in and that are still open."""

    entry: Entry
    bouts: tuple[Bout, ...]


def ahead(tournament: Tournament, entry: Entry) -> Ahead:
    """What a withdrawal would forfeit at once."""
    opened = numbered(tournament).filter(status__in=[Bout.Status.READY, Bout.Status.WAITING])
    own = opened.filter(top=entry) | opened.filter(bottom=entry)
    return Ahead(entry, tuple(own))
