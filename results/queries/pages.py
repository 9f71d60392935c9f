"""What public pages read besides brackets, people and points."""

from collections.abc import Iterable

from django.db.models import Q, QuerySet

from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.queries.groups import is_waiting


def published() -> list[Tournament]:
    """The tournaments that show anything to the public, newest first."""
    opened = Q(shows_entries=True) | Q(shows_draw=True) | Q(shows_team_points=True)
    rows = Tournament.objects.filter(opened).select_related("log", "organisation")
    return list(rows.order_by("-starts_on", "name"))


def weights(tournament: Tournament) -> QuerySet[WeightClass]:
    """The weights from light to heavy with their divisions."""
    return WeightClass.objects.filter(tournament=tournament).select_related("division")


def listed(rows: Iterable[WeightClass]) -> list[WeightClass]:
    """The weights that a page lists; where entrants wait to be grouped, while anybody does."""
    entered = Entry.objects.filter(status=Entry.Status.ENTERED)
    return [row for row in rows if not is_waiting(row) or entered.filter(weight_class=row).exists()]
