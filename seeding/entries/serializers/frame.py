"""Shapes of the frame: divisions, weights, teams."""

from typing import Any

from rest_framework import serializers

from seeding.entries.models import Division, Team, WeightClass
from seeding.entries.permissions import Sight
from seeding.journal.serializers import StrictSerializer

Item = dict[str, Any]
KEY = r"^[A-Za-z0-9_.-]+$"
SCORED = "A number that the rule book has team points for."


class DivisionSerializer(serializers.Serializer[Any]):
    """A division with the rule book that it is wrestled by."""

    key = serializers.CharField()
    name = serializers.CharField()
    rulebook = serializers.CharField(help_text="The book that the snapshot was taken of.")
    settings = serializers.DictField(
        child=serializers.JSONField(), help_text="What differs from the book, by dotted name."
    )
    snapshot = serializers.DictField(
        child=serializers.JSONField(), help_text="The whole rule book as it holds here."
    )


class DivisionDocumentSerializer(DivisionSerializer):
    """A division as a document of its own."""

    seq = serializers.IntegerField()


class DivisionsSerializer(serializers.Serializer[Any]):
    """The divisions of a tournament."""

    seq = serializers.IntegerField()
    items = DivisionSerializer(many=True)


class NewDivisionSerializer(StrictSerializer):
    """A new division."""

    key = serializers.RegexField(KEY, max_length=40, required=False)
    name = serializers.CharField(max_length=80)
    rulebook = serializers.CharField(max_length=40)
    settings = serializers.DictField(child=serializers.JSONField(), default=dict)


class EditDivisionSerializer(StrictSerializer):
    """A division's name, and before its first draw its settings."""

    name = serializers.CharField(max_length=80, required=False)
    settings = serializers.DictField(child=serializers.JSONField(), required=False)


class WeightSetSerializer(StrictSerializer):
    """The name of one of the rule book's sets of weights."""

    name = serializers.CharField(max_length=80)


class WeightSerializer(serializers.Serializer[Any]):
    """A weight. What is not published, and `version`, is told to those who have a role."""

    key = serializers.CharField()
    label = serializers.CharField()  # type: ignore[assignment]
    division = serializers.CharField()
    position = serializers.IntegerField(help_text="From light to heavy.")
    places = serializers.IntegerField(help_text="How many places are wrestled for.")
    entered = serializers.IntegerField(required=False)
    drawn = serializers.BooleanField(required=False)
    version = serializers.IntegerField(required=False)


class WeightDocumentSerializer(WeightSerializer):
    """A weight as a document of its own."""

    seq = serializers.IntegerField()


class WeightsSerializer(serializers.Serializer[Any]):
    """The weights of a tournament, light to heavy."""

    seq = serializers.IntegerField()
    items = WeightSerializer(many=True)


class NewWeightSerializer(StrictSerializer):
    """A new weight."""

    division = serializers.CharField(max_length=40)
    label = serializers.CharField(max_length=40)  # type: ignore[assignment]
    places = serializers.IntegerField(min_value=1, required=False, help_text=SCORED)
    key = serializers.RegexField(KEY, max_length=40, required=False)


class EditWeightSerializer(StrictSerializer):
    """A weight's label, and before the draw its number of places."""

    label = serializers.CharField(max_length=40, required=False)  # type: ignore[assignment]
    places = serializers.IntegerField(min_value=1, required=False, help_text=SCORED)


class TeamSerializer(serializers.Serializer[Any]):
    """A team; `members` are the schools of a co-operative one."""

    key = serializers.CharField()
    name = serializers.CharField()
    short = serializers.CharField()
    members = serializers.ListField(child=serializers.CharField())
    merged_into = serializers.CharField(allow_null=True)


class TeamDocumentSerializer(TeamSerializer):
    """A team as a document of its own."""

    seq = serializers.IntegerField()


class TeamsSerializer(serializers.Serializer[Any]):
    """The teams of a tournament by name."""

    seq = serializers.IntegerField()
    items = TeamSerializer(many=True)


class NewTeamSerializer(StrictSerializer):
    """A new team; without a short form one is made from the name."""

    name = serializers.CharField(max_length=120)
    short = serializers.CharField(max_length=12, required=False)
    members = serializers.ListField(
        child=serializers.CharField(max_length=120), default=list, max_length=64
    )
    key = serializers.RegexField(KEY, max_length=40, required=False)


class EditTeamSerializer(StrictSerializer):
    """What of a team can change; what is not named stays."""

    name = serializers.CharField(max_length=120, required=False)
    short = serializers.CharField(max_length=12, required=False)
    members = serializers.ListField(
        child=serializers.CharField(max_length=120), required=False, max_length=64
    )


def division_item(row: Division) -> Item:
    """A division with its rule book."""
    return {
        "key": row.key,
        "name": row.name,
        "rulebook": row.rulebook,
        "settings": row.settings,
        "snapshot": row.snapshot,
    }


def weight_item(row: WeightClass, seen: Sight) -> Item:
    """A weight as whoever looks may see it."""
    item: Item = {
        "key": row.key,
        "label": row.label,
        "division": row.division.key,
        "position": row.position,
        "places": row.places,
    }
    if seen.own or seen.tournament.shows_entries:
        item["entered"] = getattr(row, "entered", 0)
    if seen.own or seen.tournament.shows_draw:
        item["drawn"] = row.locked
    if seen.own:
        item["version"] = row.version
    return item


def team_item(row: Team) -> Item:
    """A team."""
    return {
        "key": row.key,
        "name": row.name,
        "short": row.short,
        "members": row.members,
        "merged_into": row.merged_into.key if row.merged_into else None,
    }
