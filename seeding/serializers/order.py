"""Shapes of the order of seeds and of the season's file."""

from collections.abc import Mapping
from typing import Any

from rest_framework import serializers

from seeding.core.reasons import Reason, Step
from seeding.entries.serializers.people import moment
from seeding.journal.serializers import StrictSerializer
from seeding.models import Override
from seeding.queries import Order

Item = dict[str, Any]
STEPS = [str(step) for step in Step]


class DeskSeedSerializer(serializers.Serializer[Any]):
    """An entry in the order; `seed` counts from 1, those past the seeded ones have none."""

    place = serializers.IntegerField()
    seed = serializers.IntegerField(allow_null=True)
    entry = serializers.CharField()
    wrestler = serializers.CharField()
    name = serializers.CharField()
    team = serializers.CharField()
    proposed = serializers.IntegerField(help_text="Where the criteria alone put the entry.")


class ReasonSerializer(serializers.Serializer[Any]):
    """Why one stands above the next."""

    above = serializers.IntegerField(help_text="The place of the one above.")
    step = serializers.ChoiceField(STEPS)
    criterion = serializers.CharField(help_text="What decided.")
    text = serializers.CharField()


class MoveSerializer(serializers.Serializer[Any]):
    """A move by the committee."""

    id = serializers.IntegerField()
    entry = serializers.CharField()
    to = serializers.IntegerField()
    reason = serializers.CharField()
    author = serializers.CharField(allow_null=True)
    at = serializers.DateTimeField()


class OrderSerializer(serializers.Serializer[Any]):
    """The order of a weight as it stands, with its evidence."""

    seq = serializers.IntegerField()
    weight = serializers.CharField()
    version = serializers.IntegerField()
    adopted = serializers.BooleanField()
    items = DeskSeedSerializer(many=True)
    reasons = ReasonSerializer(many=True)
    moves = MoveSerializer(many=True)
    flags = serializers.ListField(
        child=serializers.CharField(), help_text="Where a lower one has beaten a higher one."
    )


class NewMoveSerializer(StrictSerializer):
    """Put an entry at a place of the order, and say why."""

    entry = serializers.CharField(max_length=40)
    to = serializers.IntegerField(min_value=1, max_value=999)
    reason = serializers.CharField(max_length=300)


class InputSerializer(StrictSerializer):
    """What no bout tells of an entry."""

    entry = serializers.CharField(max_length=40)
    rank = serializers.IntegerField(min_value=1, max_value=9999, allow_null=True)
    qualifying_place = serializers.IntegerField(min_value=1, max_value=9999, allow_null=True)


class InputsSerializer(StrictSerializer):
    """Ranks and qualifying places of entries of one weight."""

    items = InputSerializer(many=True, max_length=256)  # type: ignore[call-arg]


class SeasonFileSerializer(StrictSerializer):
    """The season's bouts as CSV or XLSX, one bout a row."""

    file = serializers.FileField(max_length=200, allow_empty_file=True)


def order_item(order: Order, weight: str) -> Item:
    """The order as the desk sees it."""
    proposed = {uid: at for at, uid in enumerate(order.proposal.order, 1)}
    return {
        "weight": weight,
        "version": order.version,
        "adopted": order.adopted,
        "items": [
            {
                "place": at,
                "seed": at if at <= order.proposal.count else None,
                "entry": order.entries[uid].key,
                "wrestler": uid,
                "name": order.names[uid],
                "team": order.entries[uid].team.key,
                "proposed": proposed[uid],
            }
            for at, uid in enumerate(order.order, 1)
        ],
        "reasons": reason_items(order.reasons(), order.names),
        "moves": [move_item(row) for row in order.overrides],
        "flags": [flag.sentence.say(order.names) for flag in order.flags],
    }


def reason_items(reasons: list[Reason], names: Mapping[str, str]) -> list[Item]:
    """The reasons from the top, in the names given."""
    return [
        {
            "above": at,
            "step": str(reason.step),
            "criterion": reason.criterion,
            "text": reason.say(names),
        }
        for at, reason in enumerate(reasons, 1)
    ]


def move_item(row: Override) -> Item:
    """A move by the committee."""
    return {
        "id": row.pk,
        "entry": row.entry.key,
        "to": row.to,
        "reason": row.reason,
        "author": row.author.username if row.author else None,
        "at": moment(row.at),
    }
