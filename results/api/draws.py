"""Drawing weights and taking draws back."""

from results.serializers.acts import CountSerializer, LotSerializer
from results.services import draw_every, draw_weight, take_back_draw
from seeding.entries import queries
from seeding.entries.permissions import sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, acts, asks
from seeding.journal.models import Act
from seeding.journal.serializers import NothingSerializer
from seeding.journal.services import Call


class WeightDraw(Endpoint):
    """The draw of a weight."""

    @acts(LotSerializer, status=201, versioned=True)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Draw a weight: seeds by the published order, the rest by lot from a recorded seed."""
        row = queries.weight(sight(call.actor, slug).tournament, weight)
        return draw_weight(call=call, weight=row, **data)

    @acts(versioned=True)
    def delete(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Take back a draw of which nothing has been wrestled."""
        row = queries.weight(sight(call.actor, slug).tournament, weight)
        return take_back_draw(call=call, weight=row)


class Draws(Endpoint):
    """The draws of a tournament."""

    @asks(CountSerializer, NothingSerializer, writes=True)
    def post(self, call: Call, data: Data, slug: str) -> dict[str, int]:
        """Draw every weight that is not drawn and has two entries, each an act of its own."""
        tournament = sight(call.actor, slug).tournament
        return {"count": draw_every(call=call, tournament=tournament)}
