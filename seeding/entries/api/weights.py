"""Weights."""

from typing import Any

from django.urls import reverse
from rest_framework.request import Request
from rest_framework.response import Response

from seeding.entries import queries
from seeding.entries.models import WeightClass
from seeding.entries.permissions import sight
from seeding.entries.serializers.frame import (
    EditWeightSerializer,
    NewWeightSerializer,
    WeightDocumentSerializer,
    WeightsSerializer,
    weight_item,
)
from seeding.entries.services import add_weight, edit_weight, remove_weight
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document
from seeding.journal.api.endpoint import Endpoint, Made, acts, reads
from seeding.journal.core.errors import NotFound
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call


class Weights(Endpoint):
    """The weights of a tournament."""

    @reads(WeightsSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """List the weights, light to heavy."""
        seen = sight(caller(request), slug)
        rows = queries.weights(seen.tournament)
        return document(
            request,
            seen.tournament.log,
            lambda: {"items": [weight_item(row, seen) for row in rows]},
            own=seen.own,
            after=asked.get("after"),
        )

    @acts(NewWeightSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str) -> Made:
        """Add a weight in its place from light to heavy."""
        values = dict(data)
        row = queries.division(sight(call.actor, slug).tournament, values.pop("division"))
        act = add_weight(call=call, division=row, **values)
        made = WeightClass.objects.get(pk=act.subject["weight"])
        return Made(act, made.key, reverse("api-weight", args=[slug, made.key]))


class OneWeight(Endpoint):
    """One weight."""

    @reads(WeightDocumentSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, weight: str) -> Response:
        """Read a weight."""
        seen = sight(caller(request), slug)
        row = queries.weights(seen.tournament).filter(key=weight).first()
        if row is None:
            raise NotFound(what="weight", name=weight)
        return document(
            request,
            seen.tournament.log,
            lambda: weight_item(row, seen),
            own=seen.own,
            after=asked.get("after"),
        )

    @acts(EditWeightSerializer, versioned=True)
    def patch(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Change the label, and before the draw the number of places."""
        row = queries.weight(sight(call.actor, slug).tournament, weight)
        held: dict[str, Any] = {"label": row.label, "places": row.places}
        return edit_weight(call=call, weight=row, **(held | dict(data)))

    @acts(gone="weight.removed")
    def delete(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Remove a weight that nobody is entered in."""
        row = queries.weight(sight(call.actor, slug).tournament, weight)
        return remove_weight(call=call, weight=row)
