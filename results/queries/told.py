"""The rows behind published bouts: results in their parts, and versions for those who record."""

from django.db.models import Q

from brackets.models import Bout
from results.models import Result
from seeding.entries.models import Tournament, WeightClass


def results_of(tournament: Tournament, weight: WeightClass | None = None) -> dict[int, Result]:
    """The results by the primary key of their bout."""
    rows = Result.objects.filter(_where("bout__drawn__", tournament, weight))
    return {row.bout_id: row for row in rows}


def versions_of(tournament: Tournament, weight: WeightClass | None = None) -> dict[int, int]:
    """The versions of bouts by their primary key."""
    rows = Bout.objects.filter(_where("drawn__", tournament, weight))
    return dict(rows.values_list("pk", "version"))


def _where(path: str, tournament: Tournament, weight: WeightClass | None) -> Q:
    if weight:
        return Q(**{f"{path}weight_class": weight})
    return Q(**{f"{path}weight_class__tournament": tournament})
