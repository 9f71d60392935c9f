"""What no bout tells: tables and ballots of a weight, files for the whole tournament."""

from typing import Any

from rest_framework.parsers import MultiPartParser
from rest_framework.request import Request
from rest_framework.response import Response

from seeding.api.weight import weight_at
from seeding.core.criteria import InputKind
from seeding.core.put_in import Table, Voted
from seeding.entries import queries
from seeding.entries.core.table import MOST_BYTES
from seeding.entries.models import WeightClass
from seeding.entries.permissions import Right, sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.endpoint import Endpoint, acts, asks, reads
from seeding.journal.core.errors import Invalid, NotFound, Problem
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.models import Ballot
from seeding.queries.order import rules_of
from seeding.queries.put_in import ballots_of, entered_at, tables_of, values_of, voted
from seeding.serializers.put_in import (
    BallotSerializer,
    NewTablesSerializer,
    PutInFileSerializer,
    PutInPlanSerializer,
    TablesSerializer,
    ballot_item,
    noted_items,
    put_in_item,
    table_item,
)
from seeding.services.put_in import (
    commit_put_in,
    put_in_plan,
    set_ballot,
    set_tables,
    take_ballot,
)


class WeightTables(Endpoint):
    """What is put in for a weight."""

    @reads(TablesSerializer)
    def get(self, request: Request, asked: Data, slug: str, weight: str) -> Response:
        """Read ranks, earlier places and ballots of a weight; needs a role."""
        seen = sight(caller(request), slug)
        seen.need(Right.READ)
        row = queries.weight(seen.tournament, weight)
        entries = entered_at(row)
        keys = {one.pk: one.key for one in entries}
        told = {
            "reads": [table_item(one) for one in tables_of(rules_of(row.division).inputs)],
            "items": noted_items(entries, values_of(entries)),
            "ballots": [ballot_item(one.pk, voted(one, keys)) for one in ballots_of(row)],
        }
        return Response(told)

    @acts(NewTablesSerializer, versioned=True)
    def put(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Put in all that some tables hold: ranks, and places at earlier events."""
        row = weight_at(call.actor, slug, weight)
        return set_tables(call=call, weight=row, values=_values(row, data))


def _values(row: WeightClass, data: Data) -> dict[int, dict[Table, dict[str, int]]]:
    known = {one.key: one.pk for one in entered_at(row)}
    tables = [Table(InputKind(one["kind"]), one["name"]) for one in data["tables"]]
    values: dict[int, dict[Table, dict[str, int]]] = {
        pk: {table: {} for table in tables} for pk in known.values()
    }
    problems = []
    for at, item in enumerate(data["items"]):
        table = Table(InputKind(item["kind"]), item["table"])
        if item["entry"] not in known:
            message = f"“{item['entry']}” is not entered at {row.label}."
            problems.append(Problem(f"items.{at}.entry", message))
        elif table not in tables:
            problems.append(Problem(f"items.{at}.table", "It is not among the tables named."))
        else:
            weight = "" if item["weight"] == row.label else item["weight"]
            values[known[item["entry"]]][table][weight] = item["value"]
            if fault := table.fault(item["value"], weight):
                problems.append(Problem(f"items.{at}", fault))
    if problems:
        raise Invalid(problems)
    return values


class Ballots(Endpoint):
    """The ballots of a weight."""

    @acts(BallotSerializer, versioned=True)
    def put(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Put in one voter's ballot, in place of the one that he had."""
        row = weight_at(call.actor, slug, weight)
        team = queries.team(row.tournament, data["team"]).key if data["team"] else ""
        ranks = {item["entry"]: item["rank"] for item in data["ranks"]}
        ballot = Voted(row.label, data["voter"], team, ranks)
        return set_ballot(call=call, weight=row, ballot=ballot)


class OneBallot(Endpoint):
    """One ballot."""

    @acts(versioned=True, gone="ballot.taken")
    def delete(self, call: Call, data: Data, slug: str, weight: str, ballot: int) -> Act:
        """Take a ballot away."""
        row = weight_at(call.actor, slug, weight)
        found = Ballot.objects.filter(weight_class=row, pk=ballot).first()
        if found is None:
            raise NotFound(what="ballot", name=str(ballot))
        return take_ballot(call=call, ballot=found)


class PutInPlan(Endpoint):
    """What a file of ranks, places or ballots would do."""

    parser_classes = (MultiPartParser,)

    @asks(PutInPlanSerializer, PutInFileSerializer)
    def post(self, call: Call, data: Data, slug: str) -> dict[str, object]:
        """Look what a file would do: every problem by row and column; nothing is kept."""
        seen = sight(call.actor, slug)
        seen.need(Right.SEED)
        return put_in_item(put_in_plan(seen.tournament, **_source(data)))


class PutIn(Endpoint):
    """Files of ranks, places and ballots."""

    parser_classes = (MultiPartParser,)

    @acts(PutInFileSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str) -> Act:
        """Take a file in: all of it, or nothing where anything in it is wrong.

        The same file twice changes nothing twice.
        """
        tournament = sight(call.actor, slug).tournament
        return commit_put_in(call=call, tournament=tournament, **_source(data))


def _source(data: Data) -> dict[str, Any]:
    file = data["file"]
    return {"data": file.read(MOST_BYTES + 1), "name": file.name}
