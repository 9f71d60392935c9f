"""Shapes of rule books."""

from typing import Any

from rest_framework import serializers


class RuleBookNameSerializer(serializers.Serializer[Any]):
    """A rule book by name."""

    key = serializers.CharField(help_text="What a new division names.")
    name = serializers.CharField()


class RuleBooksSerializer(serializers.Serializer[Any]):
    """The rule books."""

    items = RuleBookNameSerializer(many=True)


class RuleBookSerializer(RuleBookNameSerializer):
    """A rule book with everything in it."""

    snapshot = serializers.DictField(child=serializers.JSONField())
