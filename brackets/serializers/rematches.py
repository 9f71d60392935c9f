"""Shapes of the table of rematches."""

from typing import Any

from rest_framework import serializers

from brackets.core.rematch import Row
from brackets.core.rules import PLACES, Wrestleback
from brackets.queries.rematches import CROSSINGS, Rematches
from seeding.journal.serializers import FollowingSerializer

WRESTLEBACKS = [str(one) for one in Wrestleback]


class RematchesQuerySerializer(FollowingSerializer):
    """The format asked for; what is left out is as the division's rule book says, of 32 lines."""

    lines = serializers.IntegerField(min_value=2, max_value=256, required=False)
    places = serializers.ChoiceField(PLACES, required=False)
    wrestleback = serializers.ChoiceField(WRESTLEBACKS, required=False)
    crossing = serializers.ChoiceField(
        CROSSINGS, required=False, help_text="The same for every round whose losers drop."
    )


class CrossedSerializer(serializers.Serializer[Any]):
    """The crossing of a championship round: the bouts whose losers drop to bouts 1, 2, ..."""

    round = serializers.CharField()
    name = serializers.CharField()
    order = serializers.ListField(child=serializers.IntegerField())


class LatestSerializer(serializers.Serializer[Any]):
    """What the crossing reaches and what any could: consolation rounds, one per championship round
    before the semifinals; of 2^k lines 2k - 3 stands for the bouts for places."""

    reached = serializers.ListField(child=serializers.IntegerField())
    limit = serializers.ListField(child=serializers.IntegerField(), help_text="Ascending.")
    proven = serializers.BooleanField(help_text="No crossing whatever puts rematches off longer.")


class RematchSerializer(serializers.Serializer[Any]):
    """Bouts of one round whose opponents meet again in the same round, null for never."""

    round = serializers.CharField()
    bouts = serializers.IntegerField()
    example = serializers.CharField()
    again = serializers.CharField(allow_null=True, help_text="Where those of the example can.")


class RematchesSerializer(serializers.Serializer[Any]):
    """When opponents can meet again at the earliest, in a full field, whoever wins."""

    seq = serializers.IntegerField()
    format = serializers.CharField()
    crossings = CrossedSerializer(many=True)
    latest = LatestSerializer(
        allow_null=True, help_text="Worked out where everybody wrestles back to 3rd."
    )
    rounds = RematchSerializer(many=True)


def rematches_item(table: Rematches) -> dict[str, Any]:
    """The table as published."""
    told = table.certificate
    return {
        "format": str(table.format),
        "crossings": [
            {"round": one.round, "name": one.exchange.name, "order": list(one.exchange.order)}
            for one in table.crossed
        ],
        "latest": {
            "reached": list(told.reached),
            "limit": list(told.limit),
            "proven": told.proven,
        }
        if told
        else None,
        "rounds": [_row(row) for row in table.rows],
    }


def _row(row: Row) -> dict[str, Any]:
    return {
        "round": row.round.code,
        "bouts": row.bouts,
        "example": str(row.example),
        "again": str(row.again) if row.again else None,
    }
