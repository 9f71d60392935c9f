"""Acts that move points between teams, and who wrestles no more."""

from django.urls import reverse
from rest_framework.request import Request
from rest_framework.response import Response

from results.queries.out import withdrawals
from results.serializers.acts import (
    MergeSerializer,
    SplitSerializer,
    ToTeamSerializer,
    WithdrawalsSerializer,
    WithdrawSerializer,
    withdrawal_item,
)
from results.services import merge_teams, move_entry, reinstate, split_team, withdraw
from seeding.entries import queries
from seeding.entries.models import Team
from seeding.entries.permissions import Right, sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document
from seeding.journal.api.endpoint import Endpoint, Made, acts, reads
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call


class TeamMerge(Endpoint):
    """A team that becomes part of another."""

    @acts(MergeSerializer)
    def post(self, call: Call, data: Data, slug: str, team: str) -> Act:
        """Make one team of two: the wrestlers move with their points, adjustments too."""
        tournament = sight(call.actor, slug).tournament
        into = queries.team(tournament, data["into"])
        return merge_teams(call=call, team=queries.team(tournament, team), into=into)


class TeamSplit(Endpoint):
    """A team out of which a second is made."""

    @acts(SplitSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str, team: str) -> Made:
        """Make a second team out of some entries of a first; their points go with them."""
        tournament = sight(call.actor, slug).tournament
        act = split_team(
            call=call,
            team=queries.team(tournament, team),
            name=data["name"],
            short=data["short"],
            entries=[queries.entry(tournament, key) for key in data["entries"]],
        )
        made = Team.objects.get(pk=act.subject["into"])
        return Made(act, made.key, reverse("api-team", args=[slug, made.key]))


class EntryTeam(Endpoint):
    """The team of an entry."""

    @acts(ToTeamSerializer)
    def put(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Move a wrestler to another team; the points he earned go with him."""
        tournament = sight(call.actor, slug).tournament
        team = queries.team(tournament, data["team"])
        return move_entry(call=call, entry=queries.entry(tournament, key), team=team)


class Withdrawals(Endpoint):
    """Who wrestles no more."""

    @reads(WithdrawalsSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """List who is out of the tournament; needs a role."""
        seen = sight(caller(request), slug)
        seen.need(Right.READ)
        rows = withdrawals(seen.tournament)
        return document(
            request,
            seen.tournament.log,
            lambda: {"items": [withdrawal_item(row) for row in rows]},
            own=True,
            after=asked.get("after"),
        )


class EntryWithdrawal(Endpoint):
    """Whether an entry wrestles no more."""

    @acts(WithdrawSerializer, status=201, versioned=True)
    def post(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Take an entry out of a drawn weight: every bout still to come is a forfeit.

        Licensed medical staff and the local code decide about injury and return; this only
        records.
        """
        row = queries.entry(sight(call.actor, slug).tournament, key)
        return withdraw(call=call, entry=row, **data)

    @acts(versioned=True)
    def delete(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Let a withdrawn entry wrestle on; refused where bouts were wrestled in his place."""
        row = queries.entry(sight(call.actor, slug).tournament, key)
        return reinstate(call=call, entry=row)
