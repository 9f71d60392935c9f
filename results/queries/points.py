"""Team points: the table of a division, and the parts behind every total."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.db.models import Q, QuerySet, Sum

from results.core.points import Item, Part, Scorer, TeamLine, table
from results.models import Adjustment, LedgerPart
from seeding.entries.models import Division, Entry, Team, Tournament


@dataclass(frozen=True, slots=True)
class TeamRow:
    """A team with its line in the table."""

    team: Team
    line: TeamLine


def team_table(division: Division) -> tuple[TeamRow, ...]:
    """The teams of a division from most points to fewest, as of the last result."""
    teams = list(_teams(division))
    sums = (
        LedgerPart.objects.filter(weight_class__division=division)
        .values("entry__team_id", "item")
        .annotate(points=Sum("points"))
    )
    parts, scorers = _as_parts(sums)
    lines = table(parts, scorers, _adjusted(division), [str(team.pk) for team in teams])
    by_id = {str(team.pk): team for team in teams}
    return tuple(TeamRow(by_id[line.team], line) for line in lines)


def _teams(division: Division) -> QuerySet[Team]:
    entered = Entry.objects.filter(weight_class__division=division).values("team_id")
    adjusted = Adjustment.objects.filter(division=division).values("team_id")
    return Team.objects.filter(Q(pk__in=entered) | Q(pk__in=adjusted)).order_by("name")


def _as_parts(sums: Iterable[Mapping[str, Any]]) -> tuple[list[Part], dict[str, Scorer]]:
    """The sums per team and item as parts, so that the core's table adds them up."""
    parts, scorers = [], {}
    for row in sums:
        team = str(row["entry__team_id"])
        scorers[team] = Scorer(team=team, scoring=True)
        parts.append(
            Part(team, Item(str(row["item"])), Decimal(str(row["points"])), None, None, "sum")
        )
    return parts, scorers


def _adjusted(division: Division) -> dict[str, Decimal]:
    found: dict[str, Decimal] = defaultdict(Decimal)
    for team, points in Adjustment.objects.filter(division=division).values_list("team", "points"):
        found[str(team)] += points
    return dict(found)


def parts_of_team(team: Team) -> QuerySet[LedgerPart]:
    """Which bout or place gave a team what."""
    return (
        LedgerPart.objects.filter(entry__team=team)
        .select_related("entry__wrestler", "weight_class", "bout")
        .order_by("weight_class__position", "entry", "pk")
    )


def adjustments(tournament: Tournament) -> QuerySet[Adjustment]:
    """Every adjustment of a tournament."""
    rows = Adjustment.objects.filter(team__tournament=tournament)
    return rows.select_related("team", "division", "author")
