"""Shape of a wrestler's way."""

from typing import Any

from rest_framework import serializers

from results.serializers.bouts import BoutSerializer
from results.serializers.persons import PersonSerializer
from results.serializers.points import PartSerializer


class WaySerializer(serializers.Serializer[Any]):
    """A wrestler's way through a weight: his bouts, his place, what he earned."""

    weight = serializers.CharField()
    entry = PersonSerializer()
    bouts = BoutSerializer(many=True)
    place = serializers.IntegerField(allow_null=True)
    parts = PartSerializer(many=True)


class WrestlerSerializer(serializers.Serializer[Any]):
    """A wrestler by the name that may be published."""

    seq = serializers.IntegerField()
    wrestler = serializers.CharField()
    name = serializers.CharField()
    ways = WaySerializer(many=True)
