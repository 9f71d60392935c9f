"""What public pages read besides brackets, people and points."""

from django.db.models import Q, QuerySet

from seeding.entries.models import Tournament, WeightClass


def published() -> list[Tournament]:
    """The tournaments that show anything to the public, newest first."""
    opened = Q(shows_entries=True) | Q(shows_draw=True) | Q(shows_team_points=True)
    rows = Tournament.objects.filter(opened).select_related("log", "organisation")
    return list(rows.order_by("-starts_on", "name"))


def weights(tournament: Tournament) -> QuerySet[WeightClass]:
    """The weights from light to heavy with their divisions."""
    return WeightClass.objects.filter(tournament=tournament).select_related("division")
