"""Shapes of lists of criteria."""

from typing import Any

from rest_framework import serializers

from seeding.core.shape_rules import SHAPES
from seeding.journal.serializers import StrictSerializer
from seeding.rulebooks import MOST


class ListNameSerializer(serializers.Serializer[Any]):
    """A list by name."""

    key = serializers.CharField(help_text="What a division names.")
    name = serializers.CharField()
    source = serializers.CharField(help_text="Where it is published.")  # type: ignore[assignment]
    shape = serializers.ChoiceField(sorted(SHAPES))


class ListsSerializer(serializers.Serializer[Any]):
    """The lists."""

    items = ListNameSerializer(many=True)


class CriteriaListSerializer(ListNameSerializer):
    """A list as its file says it."""

    text = serializers.CharField(help_text="TOML with the one section [seeding].")


class UseListSerializer(StrictSerializer):
    """One of the program's lists by name, or a file of criteria."""

    name = serializers.CharField(max_length=60, required=False)
    file_name = serializers.CharField(max_length=120, required=False, help_text="For refusals.")
    text = serializers.CharField(max_length=MOST, required=False, trim_whitespace=False)
