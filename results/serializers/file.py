"""Shapes around the tournament file, whose own shape is its JSON Schema."""

from typing import Any

from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers

from seeding.journal.serializers import StrictSerializer

WHERE = "Its shape is the JSON Schema at /api/v1/tournament-files/schema/."


@extend_schema_field(OpenApiTypes.OBJECT)
class ObjectField(serializers.JSONField):
    """Any object."""


class TournamentFileSerializer(StrictSerializer):
    """A tournament file, and for whom it is loaded."""

    document = ObjectField(help_text=WHERE)
    organisation = serializers.SlugField(max_length=50, required=False)


class JsonSchemaSerializer(serializers.Serializer[Any]):
    """An object whose shape is described elsewhere."""
