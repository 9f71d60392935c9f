"""The places of the regions' events, taken into the next level."""

from results.queries.qualifying import look
from results.serializers.qualifying import QualifiersSerializer, qualifiers_item
from results.services.qualifying import take_places
from seeding.entries.permissions import Right, sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, acts, asks
from seeding.journal.models import Act
from seeding.journal.serializers import NothingSerializer
from seeding.journal.services import Call
from seeding.serializers.qualifying import MarkSerializer


class QualifiersPreview(Endpoint):
    """What taking the places in would do."""

    @asks(QualifiersSerializer, NothingSerializer)
    def post(self, call: Call, data: Data, slug: str) -> dict[str, object]:
        """Look who would come in, who is missing and whose name is doubtful; writes nothing."""
        seen = sight(call.actor, slug)
        seen.need(Right.DIRECT)
        return qualifiers_item(look(seen.tournament))


class Qualifiers(Endpoint):
    """Who placed at the regions' events."""

    @acts(MarkSerializer)
    def post(self, call: Call, data: Data, slug: str) -> Act:
        """Take in what the preview with this mark told."""
        tournament = sight(call.actor, slug).tournament
        return take_places(call=call, tournament=tournament, mark=data["mark"])
