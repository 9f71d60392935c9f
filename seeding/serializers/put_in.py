"""Shapes of what no bout tells: tables, ballots, and files of them."""

from collections.abc import Iterable, Mapping
from dataclasses import asdict
from typing import Any

from rest_framework import serializers

from seeding.core.criteria import InputKind
from seeding.core.put_in import Table, Voted
from seeding.entries.models import Entry
from seeding.entries.serializers.roster import ProblemSerializer
from seeding.journal.serializers import StrictSerializer
from seeding.queries.put_in import Values
from seeding.services.put_in import Plan

Item = dict[str, Any]
KINDS = [str(InputKind.RANKING), str(InputKind.PLACES)]


class NotedSerializer(StrictSerializer):
    """A rank, or a place (0 = took part), of an entry in a table."""

    entry = serializers.CharField(max_length=40)
    kind = serializers.ChoiceField(KINDS)
    table = serializers.CharField(max_length=60)
    value = serializers.IntegerField(min_value=0, max_value=9999)
    weight = serializers.CharField(
        max_length=40,
        allow_blank=True,
        default="",
        help_text="Where the place was won, if not at the entry's own weight.",
    )


class TableSerializer(StrictSerializer):
    """A table of a weight's list."""

    kind = serializers.ChoiceField(KINDS)
    name = serializers.CharField(max_length=60)


class NewTablesSerializer(StrictSerializer):
    """What the tables named hold; whoever is not among the items has nothing in them."""

    tables = TableSerializer(many=True, max_length=40)  # type: ignore[call-arg]
    items = NotedSerializer(many=True, max_length=4096)  # type: ignore[call-arg]


class VoteSerializer(StrictSerializer):
    """The rank that a ballot gives an entry."""

    entry = serializers.CharField(max_length=40)
    rank = serializers.IntegerField(min_value=1, max_value=999)


class BallotSerializer(StrictSerializer):
    """One voter's ballot: ranks 1, 2, ... each once, his own team left out."""

    voter = serializers.CharField(max_length=120)
    team = serializers.CharField(max_length=40, allow_null=True, default=None)
    ranks = VoteSerializer(many=True, max_length=256)  # type: ignore[call-arg]


class NumberedBallotSerializer(BallotSerializer):
    """A ballot with the number under which it is taken away."""

    id = serializers.IntegerField()


class TablesSerializer(serializers.Serializer[Any]):
    """What is put in for a weight, and which tables its list reads."""

    reads = TableSerializer(many=True)
    items = NotedSerializer(many=True)
    ballots = NumberedBallotSerializer(many=True)


class PutInFileSerializer(StrictSerializer):
    """Ranks and places, or ballots, as CSV or XLSX."""

    file = serializers.FileField(max_length=200, allow_empty_file=True)


class PutInChangeSerializer(serializers.Serializer[Any]):
    """One thing that a file says otherwise."""

    weight = serializers.CharField()
    about = serializers.CharField(help_text="Wrestler, or voter.")
    what = serializers.CharField(help_text="Table, or ballot.")
    before = serializers.CharField(allow_blank=True)
    after = serializers.CharField(allow_blank=True)


class PutInPlanSerializer(serializers.Serializer[Any]):
    """What a file would do; with problems nothing of it is done."""

    changes = PutInChangeSerializer(many=True)
    problems = ProblemSerializer(many=True)
    warnings = ProblemSerializer(many=True)


def table_item(table: Table) -> Item:
    """A table of a list."""
    return {"kind": str(table.kind), "name": table.name}


def noted_items(entries: Iterable[Entry], values: Values) -> list[Item]:
    """Everything that is put in of the entries."""
    return [
        {
            "entry": row.key,
            "kind": str(table.kind),
            "table": table.name,
            "value": value,
            "weight": weight,
        }
        for row in entries
        for table, held in values.get(row.pk, {}).items()
        for weight, value in held.items()
    ]


def ballot_item(pk: int, ballot: Voted) -> Item:
    """A ballot with its number."""
    ranks: Mapping[str, int] = ballot.ranks
    return {
        "id": pk,
        "voter": ballot.voter,
        "team": ballot.team or None,
        "ranks": [{"entry": key, "rank": rank} for key, rank in ranks.items()],
    }


def put_in_item(plan: Plan) -> Item:
    """The dry run of a file."""
    return {
        "changes": [asdict(change) for change in plan.changes],
        "problems": [asdict(problem) for problem in plan.sheet.problems],
        "warnings": [asdict(problem) for problem in plan.sheet.warnings],
    }
