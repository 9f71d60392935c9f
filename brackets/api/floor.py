"""Bout numbers and mats."""

from brackets.queries import bout_named
from brackets.serializers.floor import MatSerializer
from brackets.services import number_bouts, send_to_mat
from seeding.entries.permissions import Right, sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, acts
from seeding.journal.models import Act
from seeding.journal.services import Call


class Numbers(Endpoint):
    """The numbers of all bouts."""

    @acts(status=201)
    def post(self, call: Call, data: Data, slug: str) -> Act:
        """Give every bout its number and a mat.

        While nothing is wrestled the whole tournament is numbered afresh; afterwards only bouts
        without a number get one, after the last.
        """
        return number_bouts(call=call, tournament=sight(call.actor, slug).tournament)


class BoutMat(Endpoint):
    """The mat of a bout."""

    @acts(MatSerializer, versioned=True)
    def put(self, call: Call, data: Data, slug: str, bout: str) -> Act:
        """Send a bout to another mat."""
        seen = sight(call.actor, slug)
        seen.need(Right.DIRECT)
        row = bout_named(seen.tournament, bout)
        return send_to_mat(call=call, bout=row, mat=data["mat"])
