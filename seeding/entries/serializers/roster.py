"""Shapes of a roster file: the file that is sent, and what it would do."""

from dataclasses import asdict
from typing import Any

from rest_framework import serializers

from seeding.entries.core.intake import Plan
from seeding.journal.serializers import StrictSerializer

Item = dict[str, Any]


class RosterFileSerializer(StrictSerializer):
    """A roster as CSV or XLSX, one wrestler a row."""

    file = serializers.FileField(max_length=200, allow_empty_file=True)
    strict = serializers.BooleanField(
        default=False, help_text="Only teams that are here already: an unknown one is a problem."
    )


class ProblemSerializer(serializers.Serializer[Any]):
    """One thing that is wrong or doubtful."""

    where = serializers.CharField(help_text="Row and column.", allow_blank=True)
    message = serializers.CharField()


class NewRowSerializer(serializers.Serializer[Any]):
    """An entry that the file would add."""

    row = serializers.IntegerField()
    weight = serializers.CharField()
    team = serializers.CharField()
    given = serializers.CharField(allow_blank=True)
    family = serializers.CharField(allow_blank=True)
    seed = serializers.IntegerField(allow_null=True)
    region = serializers.CharField(allow_null=True)
    qualifying_place = serializers.IntegerField(allow_null=True)
    weighed = serializers.DecimalField(max_digits=5, decimal_places=2, allow_null=True)
    age = serializers.IntegerField(allow_null=True)
    experience = serializers.IntegerField(allow_null=True)


class ChangeSerializer(serializers.Serializer[Any]):
    """A value of an entry that the file says otherwise."""

    row = serializers.IntegerField()
    key = serializers.CharField(help_text="The entry.")
    field = serializers.CharField()
    before = serializers.JSONField()
    after = serializers.JSONField()


class NewTeamRowSerializer(serializers.Serializer[Any]):
    """A team that the file would add."""

    name = serializers.CharField()
    short = serializers.CharField()


class RosterPlanSerializer(serializers.Serializer[Any]):
    """What a roster would do; with problems nothing of it is done."""

    adds = NewRowSerializer(many=True)
    changes = ChangeSerializer(many=True)
    unchanged = serializers.ListField(child=serializers.CharField())
    new_teams = NewTeamRowSerializer(many=True)
    problems = ProblemSerializer(many=True)
    warnings = ProblemSerializer(many=True)


ADDED = (
    *("row", "weight", "team", "given", "family", "seed", "region", "qualifying_place"),
    *("weighed", "age", "experience"),
)


def plan_item(plan: Plan) -> Item:
    """The dry run of a roster."""
    return {
        "adds": [{name: getattr(row, name) for name in ADDED} for row in plan.adds],
        "changes": [asdict(change) for change in plan.changes],
        "unchanged": list(plan.unchanged),
        "new_teams": [asdict(team) for team in plan.new_teams],
        "problems": [asdict(problem) for problem in plan.problems],
        "warnings": [asdict(problem) for problem in plan.warnings],
    }
