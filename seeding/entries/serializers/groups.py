"""Shapes of groups formed after weigh-in, for those who direct."""

from typing import Any

from rest_framework import serializers

from seeding.entries.core.groups import Broken, Limit, Why
from seeding.entries.models import Division
from seeding.entries.queries.groups import (
    GroupSeen,
    Member,
    Proposed,
    group_rules,
    groups,
    members,
    proposed,
    waiting_of,
)
from seeding.entries.services.groups import Figures
from seeding.journal.serializers import StrictSerializer

Item = dict[str, Any]
WHY = [one.value for one in Why]
LIMITS = [one.value for one in Limit]


class WeighedSerializer(serializers.Serializer[Any]):
    """An entry with what was measured; null where it is not known."""

    entry = serializers.CharField()
    weight = serializers.DecimalField(max_digits=5, decimal_places=2, allow_null=True)
    age = serializers.IntegerField(
        allow_null=True, help_text="Whole years on the first day of the tournament."
    )
    experience = serializers.IntegerField(allow_null=True, help_text="Whole years.")
    version = serializers.IntegerField(help_text="Of the figures; 0 where there are none.")


class BrokenLimitSerializer(serializers.Serializer[Any]):
    """A limit that a group breaks."""

    limit = serializers.ChoiceField(LIMITS)
    found = serializers.CharField()
    allowed = serializers.CharField()


class GroupSerializer(serializers.Serializer[Any]):
    """A group as it stands; `weight` is the key of its weight class."""

    weight = serializers.CharField()
    label = serializers.CharField()  # type: ignore[assignment]
    drawn = serializers.BooleanField()
    members = WeighedSerializer(many=True)
    broken = BrokenLimitSerializer(many=True)


class LeftOverSerializer(serializers.Serializer[Any]):
    """Who would be in no group, and how many others are within every limit of him."""

    entry = serializers.CharField()
    why = serializers.ChoiceField(WHY)
    near = serializers.IntegerField()


class ProposedGroupsSerializer(serializers.Serializer[Any]):
    """The groups that those who wait would form; `digest` is sent back as `shown`."""

    groups = serializers.ListField(child=serializers.ListField(child=serializers.CharField()))
    left = LeftOverSerializer(many=True)
    digest = serializers.CharField()


class DivisionGroupsSerializer(serializers.Serializer[Any]):
    """Groups, who waits, and what would be formed."""

    seq = serializers.IntegerField()
    unit = serializers.ChoiceField(["lb", "kg"])
    groups = GroupSerializer(many=True)
    waiting = WeighedSerializer(many=True)
    proposed = ProposedGroupsSerializer()


class FormGroupsSerializer(StrictSerializer):
    """The outcome that was looked at; left out, whatever would be formed now."""

    shown = serializers.CharField(max_length=16, required=False)


class MeasuredSerializer(StrictSerializer):
    """What was measured of one entry."""

    entry = serializers.CharField(max_length=40)
    weight = serializers.DecimalField(max_digits=5, decimal_places=2, allow_null=True)
    age = serializers.IntegerField(min_value=0, max_value=98, allow_null=True)
    experience = serializers.IntegerField(min_value=0, max_value=98, allow_null=True)
    version = serializers.IntegerField(min_value=0, max_value=2**31 - 1, required=False)


class WeighingSerializer(StrictSerializer):
    """What was measured of some entries, each written as a whole."""

    items = MeasuredSerializer(many=True, max_length=1000)  # type: ignore[call-arg]


def figures_of(items: list[Item]) -> dict[str, Figures]:
    """What was sent, as the service takes it."""
    return {
        one["entry"]: Figures(one["weight"], one["age"], one["experience"], one.get("version"))
        for one in items
    }


def groups_item(division: Division) -> Item:
    """Everything of a division's groups."""
    waiting = members(division).get(waiting_of(division).pk, ())
    return {
        "unit": group_rules(division).unit,
        "groups": [_group(one) for one in groups(division)],
        "waiting": [weighed_item(one) for one in waiting],
        "proposed": _proposed(proposed(division)),
    }


def _group(seen: GroupSeen) -> Item:
    return {
        "weight": seen.weight.key,
        "label": seen.weight.label,
        "drawn": seen.weight.locked,
        "members": [weighed_item(one) for one in seen.members],
        "broken": [broken_item(one) for one in seen.broken],
    }


def weighed_item(one: Member) -> Item:
    """An entry with what was measured."""
    known = one.figures
    return {
        "entry": one.entry.key,
        "weight": None if known.weight is None else str(known.weight),
        "age": known.age,
        "experience": known.experience,
        "version": one.version,
    }


def broken_item(one: Broken) -> Item:
    """A limit that a group breaks."""
    return {"limit": one.limit.value, "found": str(one.found), "allowed": str(one.allowed)}


def _proposed(found: Proposed) -> Item:
    return {
        "groups": [[one.entry.key for one in group] for group in found.groups],
        "left": [
            {"entry": one.member.entry.key, "why": one.left.why.value, "near": one.left.near}
            for one in found.left
        ],
        "digest": found.digest,
    }
