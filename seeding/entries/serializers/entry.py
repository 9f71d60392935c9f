"""Shapes of entries as the desk sees them."""

from typing import Any

from rest_framework import serializers

from seeding.entries.models import Entry
from seeding.journal.serializers import StrictSerializer

Item = dict[str, Any]
PUBLISH = Entry.Publish.values
WEIGH_IN = Entry.WeighIn.values
STATUS = Entry.Status.values


def number(most: int, text: str = "") -> serializers.IntegerField:
    """A number from 1 that can be absent."""
    return serializers.IntegerField(
        min_value=1, max_value=most, allow_null=True, required=False, help_text=text
    )


class DeskEntrySerializer(serializers.Serializer[Any]):
    """An entry with the full name, for those who have a role."""

    seq = serializers.IntegerField()
    key = serializers.CharField()
    weight = serializers.CharField()
    team = serializers.CharField()
    wrestler = serializers.CharField(help_text="The wrestler's own id.")
    given = serializers.CharField(allow_blank=True)
    family = serializers.CharField()
    seed = serializers.IntegerField(allow_null=True)
    scoring = serializers.BooleanField(help_text="Whether the entry scores for the team.")
    status = serializers.ChoiceField(STATUS)
    publish = serializers.ChoiceField(PUBLISH, help_text="How the public may see the name.")
    weigh_in = serializers.ChoiceField(WEIGH_IN)
    rank = serializers.IntegerField(allow_null=True, help_text="In the coaches' ranking.")
    qualifying_place = serializers.IntegerField(allow_null=True)
    version = serializers.IntegerField()


class EditEntrySerializer(StrictSerializer):
    """What of an entry can change: weight, team and seed until the weight is drawn."""

    weight = serializers.CharField(max_length=40, required=False)
    team = serializers.CharField(max_length=40, required=False)
    seed = number(999)
    scoring = serializers.BooleanField(required=False)
    publish = serializers.ChoiceField(PUBLISH, required=False)
    rank = number(9999)
    qualifying_place = number(9999)


class NewEntrySerializer(StrictSerializer):
    """A wrestler who is entered for a team."""

    given = serializers.CharField(max_length=80, allow_blank=True, default="")
    family = serializers.CharField(max_length=80)
    home = serializers.CharField(
        max_length=120,
        allow_blank=True,
        default="",
        help_text="The team of his season, where that is another one.",
    )
    team = serializers.CharField(max_length=40, help_text="The key of the team.")
    seed = number(999)
    scoring = serializers.BooleanField(required=False)
    publish = serializers.ChoiceField(PUBLISH, required=False)
    rank = number(9999)
    qualifying_place = number(9999)


class NameSerializer(StrictSerializer):
    """A name, spelled otherwise."""

    given = serializers.CharField(max_length=80, allow_blank=True)
    family = serializers.CharField(max_length=80)


class WeighInSerializer(StrictSerializer):
    """What the scale said, never the figure."""

    state = serializers.ChoiceField(WEIGH_IN)


def desk_entry_item(row: Entry) -> Item:
    """An entry with the full name."""
    return {
        "key": row.key,
        "weight": row.weight_class.key,
        "team": row.team.key,
        "wrestler": row.wrestler.uid,
        "given": row.wrestler.given,
        "family": row.wrestler.family,
        "seed": row.seed,
        "scoring": row.scoring,
        "status": row.status,
        "publish": row.publish,
        "weigh_in": row.weigh_in,
        "rank": row.rank,
        "qualifying_place": row.qualifying_place,
        "version": row.version,
    }
