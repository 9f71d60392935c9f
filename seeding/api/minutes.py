"""The minutes of a weight, and signatures under them."""

from rest_framework.request import Request
from rest_framework.response import Response

from seeding.api.weight import weight_at, weight_document
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, acts, reads
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call
from seeding.queries.minutes import signable
from seeding.serializers.minutes import SignableSerializer, SignSerializer, signable_item
from seeding.services import sign_minutes


class OrderMinutes(Endpoint):
    """Everything that the order of a weight rests on, in words."""

    @reads(SignableSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, weight: str) -> Response:
        """Read the minutes with their digest and the signatures."""
        return weight_document(
            request, asked, slug, weight, lambda row: signable_item(signable(row))
        )


class MinutesSignatures(Endpoint):
    """Signatures under the minutes."""

    @acts(SignSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Sign the minutes that were read; refused where they read otherwise now."""
        row = weight_at(call.actor, slug, weight)
        return sign_minutes(call=call, weight=row, name=data["name"], digest=data["digest"])
