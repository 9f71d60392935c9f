"""Divisions and their rule books."""

from typing import Any

from django.urls import reverse
from django.utils.text import slugify
from rest_framework.request import Request
from rest_framework.response import Response

from seeding.entries import queries
from seeding.entries.models import Division
from seeding.entries.permissions import sight
from seeding.entries.serializers.frame import (
    DivisionDocumentSerializer,
    DivisionsSerializer,
    EditDivisionSerializer,
    NewDivisionSerializer,
    WeightSetSerializer,
    division_item,
)
from seeding.entries.services import (
    add_division,
    add_weight_set,
    edit_division,
    remove_division,
)
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document
from seeding.journal.api.endpoint import Endpoint, Made, acts, reads
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call


class Divisions(Endpoint):
    """The divisions of a tournament."""

    @reads(DivisionsSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """List the divisions, each with the snapshot of its rule book."""
        seen = sight(caller(request), slug)
        rows = Division.objects.filter(tournament=seen.tournament)
        return document(
            request,
            seen.tournament.log,
            lambda: {"items": [division_item(row) for row in rows]},
            own=seen.own,
            after=asked.get("after"),
        )

    @acts(NewDivisionSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str) -> Made:
        """Add a division with a snapshot of its rule book, and the settings that differ."""
        row = sight(call.actor, slug).tournament
        key = data.get("key") or slugify(data["name"])[:30] or "division"
        act = add_division(call=call, tournament=row, **{**data, "key": key})
        return Made(act, key, reverse("api-division", args=[slug, key]))


class OneDivision(Endpoint):
    """One division."""

    @reads(DivisionDocumentSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, key: str) -> Response:
        """Read a division with the snapshot of its rule book."""
        seen = sight(caller(request), slug)
        row = queries.division(seen.tournament, key)
        return document(
            request,
            seen.tournament.log,
            lambda: division_item(row),
            own=seen.own,
            after=asked.get("after"),
        )

    @acts(EditDivisionSerializer)
    def patch(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Rename a division, or before its first draw change its settings."""
        row = queries.division(sight(call.actor, slug).tournament, key)
        held: dict[str, Any] = {"name": row.name, "settings": row.settings}
        return edit_division(call=call, division=row, **(held | dict(data)))

    @acts(gone="division.removed")
    def delete(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Remove a division without weights."""
        row = queries.division(sight(call.actor, slug).tournament, key)
        return remove_division(call=call, division=row)


class DivisionWeightSets(Endpoint):
    """The rule book's sets of weights."""

    @acts(WeightSetSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Add every weight of one of the rule book's sets that the division lacks."""
        row = queries.division(sight(call.actor, slug).tournament, key)
        return add_weight_set(call=call, division=row, name=data["name"])
