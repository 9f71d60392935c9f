"""Why between any two of a weight, and the order of fewest violations."""

from rest_framework.request import Request
from rest_framework.response import Response

from seeding.api.weight import weight_document
from seeding.entries.models import WeightClass
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, reads
from seeding.journal.serializers import FollowingSerializer
from seeding.queries import order_of
from seeding.queries.evidence import pair
from seeding.queries.violations import violations
from seeding.serializers.evidence import (
    Item,
    PairSerializer,
    TwoSerializer,
    ViolationsSerializer,
    pair_item,
    violations_item,
)


class OrderPair(Endpoint):
    """Any two of a weight."""

    @reads(PairSerializer, query=TwoSerializer)
    def get(self, request: Request, asked: Data, slug: str, weight: str) -> Response:
        """Read why one of two stands above the other, with every criterion and bout."""

        def build(row: WeightClass) -> Item:
            order = order_of(row)
            return pair_item(order, pair(order, asked["a"], asked["b"]))

        return weight_document(request, {}, slug, weight, build)


class OrderViolations(Endpoint):
    """The order that goes against fewest bouts."""

    @reads(ViolationsSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, weight: str) -> Response:
        """Read the order of fewest violations of head-to-head, worked out at each request."""
        return weight_document(
            request, asked, slug, weight, lambda row: violations_item(violations(order_of(row)))
        )
