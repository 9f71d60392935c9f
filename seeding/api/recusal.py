"""Own teams of the committee."""

from rest_framework.request import Request
from rest_framework.response import Response

from seeding.entries import queries
from seeding.entries.permissions import Right, sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document
from seeding.journal.api.endpoint import Endpoint, acts, reads
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call
from seeding.queries.recusal import members
from seeding.serializers.challenges import (
    RecusalsSerializer,
    SetOwnTeamsSerializer,
    recusals_item,
)
from seeding.services import set_own_teams


class OwnTeams(Endpoint):
    """Which members of the committee belong to which teams."""

    @reads(RecusalsSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """List everybody who may act in the seeding room, with his own teams."""
        seen = sight(caller(request), slug)
        seen.need(Right.READ)
        return document(
            request,
            seen.tournament.log,
            lambda: recusals_item(members(seen.tournament)),
            own=True,
            after=asked.get("after"),
        )


class OwnTeamsOf(Endpoint):
    """The own teams of one member."""

    @acts(SetOwnTeamsSerializer)
    def put(self, call: Call, data: Data, slug: str, username: str) -> Act:
        """Say to which teams a member of the committee belongs."""
        seen = sight(call.actor, slug)
        seen.need(Right.DIRECT)
        user = queries.user(username)
        rows = {team.key: team for team in queries.teams(seen.tournament)}
        strange = [
            Problem(f"teams.{at}", f"There is no team “{key}”.")
            for at, key in enumerate(data["teams"])
            if key not in rows
        ]
        if strange:
            raise Invalid(strange)
        teams = [rows[key] for key in dict.fromkeys(data["teams"])]
        return set_own_teams(call=call, tournament=seen.tournament, user=user, teams=teams)
