"""Divisions that form groups after weigh-in."""

from rest_framework.request import Request
from rest_framework.response import Response

from seeding.entries import queries
from seeding.entries.core.errors import NotGrouped
from seeding.entries.models import Division
from seeding.entries.permissions import Right, sight
from seeding.entries.serializers.groups import (
    DivisionGroupsSerializer,
    FormGroupsSerializer,
    WeighingSerializer,
    figures_of,
    groups_item,
)
from seeding.entries.services import form_groups, measure, start_groups
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document
from seeding.journal.api.endpoint import Endpoint, acts, reads
from seeding.journal.core.errors import NotFound
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call


def _division(call: Call, slug: str, key: str) -> Division:
    return queries.division(sight(call.actor, slug).tournament, key)


class DivisionGrouping(Endpoint):
    """Whether a division forms groups after weigh-in."""

    @acts(status=201)
    def post(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Let a division without weights form groups; entrants wait in a weight of its own."""
        return start_groups(call=call, division=_division(call, slug, key))


class DivisionWeighing(Endpoint):
    """What was measured at the weigh-in of a division that forms groups."""

    @acts(WeighingSerializer)
    def put(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Record weight, age and experience of some entries; needs the right to direct.

        Licensed medical staff and the local code decide whether anyone may wrestle.
        """
        figures = figures_of(data["items"])
        return measure(call=call, division=_division(call, slug, key), figures=figures)


class DivisionGroups(Endpoint):
    """The groups of a division, with what was measured: for those who direct."""

    @reads(DivisionGroupsSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, key: str) -> Response:
        """Read groups, who waits, and what would be formed; needs the right to direct."""
        seen = sight(caller(request), slug)
        seen.need(Right.DIRECT)
        row = queries.division(seen.tournament, key)
        try:
            return document(
                request,
                seen.tournament.log,
                lambda: groups_item(row),
                own=True,
                after=asked.get("after"),
            )
        except NotGrouped as refusal:
            raise NotFound(what="grouped division", name=key) from refusal

    @acts(FormGroupsSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Make groups of those who wait; who fits nowhere goes on waiting."""
        return form_groups(call=call, division=_division(call, slug, key), **data)
