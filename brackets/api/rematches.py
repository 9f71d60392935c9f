"""When opponents can meet again."""

from dataclasses import replace

from rest_framework.request import Request
from rest_framework.response import Response

from brackets.core.rules import Wrestleback
from brackets.queries import rules_of
from brackets.queries.rematches import Asked, table_of
from brackets.serializers.rematches import (
    RematchesQuerySerializer,
    RematchesSerializer,
    rematches_item,
)
from seeding.entries import queries
from seeding.entries.permissions import sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document
from seeding.journal.api.endpoint import Endpoint, reads


class DivisionRematches(Endpoint):
    """Rematches in a format of a division."""

    @reads(RematchesSerializer, query=RematchesQuerySerializer)
    def get(self, request: Request, asked: Data, slug: str, key: str) -> Response:
        """Read for each round the earliest round in which its opponents can meet again.

        By the division's rule book, or as if it had other lines, places, wrestleback or crossing.
        """
        seen = sight(caller(request), slug)
        rules = rules_of(queries.division(seen.tournament, key))
        wanted = {name: value for name, value in asked.items() if name != "after"}
        if "wrestleback" in wanted:
            wanted["wrestleback"] = Wrestleback(wanted["wrestleback"])
        return document(
            request,
            seen.tournament.log,
            lambda: rematches_item(table_of(rules, replace(Asked.usual(rules), **wanted))),
            own=seen.own,
            after=asked.get("after"),
        )
