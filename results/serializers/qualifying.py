"""Shapes of what taking the regions' places in would do."""

from typing import Any

from rest_framework import serializers

from results.queries.qualifying import Look
from seeding.core.qualifiers import Coming
from seeding.journal.core.errors import Problem
from seeding.serializers.qualifying import HOW

Item = dict[str, Any]


class ToldSerializer(serializers.Serializer[Any]):
    """Something to look at: where, and what."""

    where = serializers.CharField()
    message = serializers.CharField()


class ComingSerializer(serializers.Serializer[Any]):
    """Somebody who comes in, or whose place is another than was known."""

    weight = serializers.CharField()
    spot = serializers.CharField(help_text="Region and place, such as A1.")
    wrestler = serializers.CharField()
    name = serializers.CharField()
    team = serializers.CharField()
    how = serializers.ChoiceField(HOW)
    new = serializers.BooleanField()


class QualifiersSerializer(serializers.Serializer[Any]):
    """What taking the places in would do; send `mark` back to do that and nothing else."""

    mark = serializers.CharField()
    coming = ComingSerializer(many=True)
    known = serializers.IntegerField(help_text="How many stand as they should already.")
    missing = ToldSerializer(many=True)
    doubts = ToldSerializer(many=True)
    teams = serializers.ListField(child=serializers.CharField(), help_text="New ones, by name.")


def qualifiers_item(seen: Look) -> Item:
    """The look as the API tells it."""
    found = seen.found
    return {
        "mark": seen.mark,
        "coming": [_coming(one) for one in found.coming],
        "known": found.known,
        "missing": [_told(one) for one in found.missing],
        "doubts": [_told(one) for one in found.doubts],
        "teams": list(found.teams),
    }


def _coming(one: Coming) -> Item:
    placed = one.placed
    return {
        "weight": placed.weight,
        "spot": placed.spot,
        "wrestler": placed.wrestler,
        "name": placed.name,
        "team": placed.team,
        "how": str(one.how),
        "new": one.here is None,
    }


def _told(one: Problem) -> Item:
    return {"where": one.where, "message": one.message}
