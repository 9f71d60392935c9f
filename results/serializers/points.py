"""Shapes of team points: the table, and which bout or place gave what."""

from typing import Any

from rest_framework import serializers

from results.core.points import Item as Kind
from results.models import Adjustment
from results.queries.figures import plain
from results.queries.race import Earned, Earner, Race, Standing
from results.serializers.persons import PersonSerializer, person_item
from seeding.entries.serializers.people import moment
from seeding.journal.serializers import FollowingSerializer, StrictSerializer

Item = dict[str, Any]


class TeamLineSerializer(serializers.Serializer[Any]):
    """A team in the table; points are decimals as texts, such as "75.5"."""

    team = serializers.CharField()
    name = serializers.CharField()
    short = serializers.CharField()
    place = serializers.IntegerField(help_text="Shared places skip the next.")
    placement = serializers.CharField()
    advancement = serializers.CharField()
    bonus = serializers.CharField()
    adjustments = serializers.CharField(help_text="By hand, and what misconduct cost.")
    total = serializers.CharField()


class DivisionPointsSerializer(serializers.Serializer[Any]):
    """The teams of a division from most points to fewest."""

    division = serializers.CharField()
    teams = TeamLineSerializer(many=True)


class TeamPointsSerializer(serializers.Serializer[Any]):
    """The team points of a tournament, as of the newest result."""

    seq = serializers.IntegerField()
    divisions = DivisionPointsSerializer(many=True)


class PointsQuerySerializer(FollowingSerializer):
    """Query parameters of the team points."""

    division = serializers.CharField(required=False, max_length=40)


class PartSerializer(serializers.Serializer[Any]):
    """One part of a total: for what, and the bout or place that gave it."""

    item = serializers.ChoiceField([str(kind) for kind in Kind])
    points = serializers.CharField()
    number = serializers.IntegerField(allow_null=True, help_text="The number of the bout.")
    round = serializers.CharField(allow_blank=True)
    place = serializers.IntegerField(allow_null=True)
    reason = serializers.CharField(help_text="Such as `fall` or `running`.")


class EarnerSerializer(serializers.Serializer[Any]):
    """A wrestler with everything that he earned."""

    weight = serializers.CharField()
    wrestler = PersonSerializer()
    total = serializers.CharField()
    parts = PartSerializer(many=True)


class GivenSerializer(serializers.Serializer[Any]):
    """Points given or taken by hand."""

    points = serializers.CharField()
    reason = serializers.CharField()


class DivisionLedgerSerializer(TeamLineSerializer):
    """A team's line in a division with everything behind it."""

    division = serializers.CharField()
    earners = EarnerSerializer(many=True)
    given = GivenSerializer(many=True)


class TeamLedgerSerializer(serializers.Serializer[Any]):
    """What is behind a team's points.

    `explained` is false, and nobody listed, where results or entries are not published.
    """

    seq = serializers.IntegerField()
    explained = serializers.BooleanField()
    divisions = DivisionLedgerSerializer(many=True)


class AdjustmentSerializer(serializers.Serializer[Any]):
    """An adjustment. `author` and `at` are told to those who have a role."""

    id = serializers.IntegerField()
    division = serializers.CharField()
    team = serializers.CharField()
    points = serializers.CharField()
    reason = serializers.CharField()
    author = serializers.CharField(required=False, allow_null=True)
    at = serializers.DateTimeField(required=False)


class AdjustmentsSerializer(serializers.Serializer[Any]):
    """The adjustments of a tournament."""

    seq = serializers.IntegerField()
    items = AdjustmentSerializer(many=True)


class NewAdjustmentSerializer(StrictSerializer):
    """Points for a team, or with a minus taken from it, and why."""

    division = serializers.CharField(max_length=40)
    team = serializers.CharField(max_length=40)
    points = serializers.DecimalField(max_digits=7, decimal_places=3)
    reason = serializers.CharField(max_length=300)


def line_item(standing: Standing) -> Item:
    """A team in the table."""
    team, line = standing.team, standing.line
    return {
        "team": team.key,
        "name": team.name,
        "short": team.short,
        "place": line.place,
        "placement": plain(line.placement),
        "advancement": plain(line.advancement),
        "bonus": plain(line.bonus),
        "adjustments": plain(line.adjustments),
        "total": plain(line.total),
    }


def race_item(race: Race) -> Item:
    """The teams of a division."""
    return {"division": race.division.key, "teams": [line_item(one) for one in race.teams]}


def ledger_item(division: str, standing: Standing, *, own: bool) -> Item:
    """A team's line with everything behind it."""
    return {
        **line_item(standing),
        "division": division,
        "earners": [_earner(one, own=own) for one in standing.earners],
        "given": [{"points": plain(one.points), "reason": one.reason} for one in standing.adjusted],
    }


def _earner(earner: Earner, *, own: bool) -> Item:
    return {
        "weight": earner.person.weight.key,
        "wrestler": person_item(earner.person, own=own),
        "total": plain(earner.total),
        "parts": [part_item(part) for part in earner.parts],
    }


def part_item(part: Earned) -> Item:
    """One part of a total."""
    return {
        "item": str(part.item),
        "points": plain(part.points),
        "number": part.number,
        "round": part.round,
        "place": part.place,
        "reason": part.reason,
    }


def adjustment_item(row: Adjustment, *, own: bool) -> Item:
    """An adjustment."""
    item: Item = {
        "id": row.pk,
        "division": row.division.key,
        "team": row.team.key,
        "points": plain(row.points),
        "reason": row.reason,
    }
    if own:
        item |= {"author": row.author.username if row.author else None, "at": moment(row.at)}
    return item
