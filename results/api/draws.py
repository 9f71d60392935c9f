"""Drawing weights and taking draws back."""

from rest_framework.request import Request
from rest_framework.response import Response

from brackets.queries.commitment import commitment_of
from brackets.serializers.document import drawn_sections
from brackets.serializers.verification import verify
from brackets.services import commit_draw, reveal_secret
from results.api.shown import Shown, shown, told
from results.queries.gates import Gates
from results.queries.papers import OPEN
from results.serializers.acts import CountSerializer, LotSerializer
from results.serializers.draws import (
    CommitmentSerializer,
    ReasonSerializer,
    VerificationSerializer,
    commitment_item,
    verification_item,
)
from results.services import draw_every, draw_weight, take_back_draw
from seeding.entries import queries
from seeding.entries.permissions import sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.endpoint import Endpoint, acts, asks, reads
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer, NothingSerializer
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
        """Take back a draw of which nothing has been wrestled, and which was not committed to."""
        row = queries.weight(sight(call.actor, slug).tournament, weight)
        return take_back_draw(call=call, weight=row)


class WeightDrawTakenBack(Endpoint):
    """A draw that is taken back with a reason."""

    @acts(ReasonSerializer, versioned=True)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Take back a draw of which nothing has been wrestled.

        Of a committed draw the reason is published with the next one.
        """
        row = queries.weight(sight(call.actor, slug).tournament, weight)
        return take_back_draw(call=call, weight=row, **data)


class Draws(Endpoint):
    """The draws of a tournament."""

    @asks(CountSerializer, NothingSerializer, writes=True)
    def post(self, call: Call, data: Data, slug: str) -> dict[str, int]:
        """Draw every weight that is not drawn and has two entries, each an act of its own."""
        tournament = sight(call.actor, slug).tournament
        return {"count": draw_every(call=call, tournament=tournament)}


class Commitment(Endpoint):
    """The commitment of a tournament's draw."""

    @reads(CommitmentSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """Read what was published of the draw's secret, and the secret once it is revealed."""
        sees = sight(caller(request), slug)
        seen = Shown(sees, OPEN if sees.own else Gates.of(sees.tournament))
        return told(request, seen, asked, lambda: _commitment(seen))

    @acts(status=201)
    def post(self, call: Call, data: Data, slug: str) -> Act:
        """Commit the draw before the first weight is drawn; it gives every draw its seed."""
        return commit_draw(call=call, tournament=sight(call.actor, slug).tournament)


def _commitment(seen: Shown) -> dict[str, object]:
    return commitment_item(commitment_of(seen.tournament), is_open=seen.gates.draw)


class CommitmentSecret(Endpoint):
    """The secret of a commitment."""

    @acts(status=201)
    def post(self, call: Call, data: Data, slug: str) -> Act:
        """Reveal the secret before everything is drawn; later seeds can be foreseen then."""
        return reveal_secret(call=call, tournament=sight(call.actor, slug).tournament)


class DrawsVerification(Endpoint):
    """The draws of a tournament, made again."""

    @reads(VerificationSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """Draw every drawn weight again from the same entries and seeds, and compare."""
        seen = shown(request, slug, "draw")
        return told(request, seen, asked, lambda: _again(seen))


def _again(seen: Shown) -> dict[str, object]:
    return verification_item(verify(drawn_sections(seen.tournament)))
