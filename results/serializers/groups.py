"""Shapes of changes to groups formed after weigh-in, for those who direct."""

from typing import Any

from rest_framework import serializers

from results.queries.regroup import After, Regrouped
from seeding.entries.serializers.groups import (
    BrokenLimitSerializer,
    WeighedSerializer,
    broken_item,
    weighed_item,
)
from seeding.journal.serializers import StrictSerializer

Item = dict[str, Any]


class LeavingSerializer(StrictSerializer):
    """Entries that leave a group, and the key of the one they go to; null for a new one."""

    entries = serializers.ListField(
        child=serializers.CharField(max_length=40), min_length=1, max_length=200
    )
    target = serializers.CharField(max_length=40, allow_null=True)


class RegroupSerializer(LeavingSerializer):
    """The same, to be done; a broken limit needs a reason."""

    reason = serializers.CharField(max_length=300, allow_blank=True, default="")


class GroupAfterSerializer(serializers.Serializer[Any]):
    """A group as it would be; `weight` is null for a new one."""

    weight = serializers.CharField(allow_null=True)
    members = WeighedSerializer(many=True)
    broken = BrokenLimitSerializer(many=True)
    drawn = serializers.BooleanField(help_text="Whether a draw of it would be taken back.")
    wrestled = serializers.IntegerField(help_text="Bouts with a result or ruling: it stands.")


class RegroupedSerializer(serializers.Serializer[Any]):
    """Both groups as they would be."""

    groups = GroupAfterSerializer(many=True)
    needs_reason = serializers.BooleanField()


def regrouped_item(seen: Regrouped) -> Item:
    """Both groups as they would be."""
    return {"groups": [_after(one) for one in seen.sides], "needs_reason": seen.needs_reason}


def _after(side: After) -> Item:
    return {
        "weight": side.weight.key if side.weight else None,
        "members": [weighed_item(one) for one in side.members],
        "broken": [broken_item(one) for one in side.broken],
        "drawn": side.drawn,
        "wrestled": side.wrestled,
    }
