"""The results as bouts of the organisation's season."""

from results.services import give_back
from seeding.entries.permissions import sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, acts
from seeding.journal.models import Act
from seeding.journal.services import Call


class SeasonResults(Endpoint):
    """The results of a finished tournament, in the season."""

    @acts()
    def put(self, call: Call, data: Data, slug: str) -> Act:
        """Give the results back to the season; once more changes nothing, corrected ones correct.

        Refused until every bout is decided.
        """
        return give_back(call=call, tournament=sight(call.actor, slug).tournament)
