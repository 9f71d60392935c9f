"""Taking a roster in: the dry run, and doing it."""

from typing import Any

from rest_framework.parsers import MultiPartParser

from seeding.entries import queries
from seeding.entries.core.table import MOST_BYTES
from seeding.entries.models import Division
from seeding.entries.permissions import Right, sight
from seeding.entries.serializers.roster import (
    RosterFileSerializer,
    RosterPlanSerializer,
    plan_item,
)
from seeding.entries.services import commit_roster, roster_plan
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, acts, asks
from seeding.journal.models import Act
from seeding.journal.services import Call


class RosterPlan(Endpoint):
    """What a roster would do."""

    parser_classes = (MultiPartParser,)

    @asks(RosterPlanSerializer, RosterFileSerializer)
    def post(self, call: Call, data: Data, slug: str, key: str) -> dict[str, object]:
        """Look what a roster would do: every problem by row and column; nothing is kept."""
        seen = sight(call.actor, slug)
        seen.need(Right.DIRECT)
        division = queries.division(seen.tournament, key)
        return plan_item(roster_plan(division, **_source(data)))


class Roster(Endpoint):
    """The roster of a division."""

    parser_classes = (MultiPartParser,)

    @acts(RosterFileSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Take a roster in: all of it, or nothing where anything in it is wrong.

        The same file twice adds nothing twice.
        """
        division: Division = queries.division(sight(call.actor, slug).tournament, key)
        return commit_roster(call=call, division=division, **_source(data))


def _source(data: Data) -> dict[str, Any]:
    file = data["file"]
    return {"data": file.read(MOST_BYTES + 1), "name": file.name, "strict": data["strict"]}
