"""Acts that move points between teams, and who wrestles no more."""

from django.urls import reverse
from rest_framework.request import Request
from rest_framework.response import Response

from results.queries.insiders import insiders
from results.queries.out import look_at_return, withdrawals
from results.serializers.acts import (
    ChoicesSerializer,
    ChosenSerializer,
    MergeSerializer,
    SplitSerializer,
    ToTeamSerializer,
    WithdrawalsSerializer,
    WithdrawSerializer,
    choices_of,
    decided_of,
    withdrawal_item,
)
from results.serializers.previews import PreviewSerializer, preview_item
from results.services import merge_teams, move_entry, reinstate, split_team, withdraw
from seeding.entries import queries
from seeding.entries.models import Team
from seeding.entries.permissions import Right, sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document
from seeding.journal.api.endpoint import Endpoint, Made, acts, asks, reads
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
        """Let a withdrawn entry wrestle on.

        Refused where bouts were wrestled in his place, with their list; a return with choices says
        what becomes of them.
        """
        row = queries.entry(sight(call.actor, slug).tournament, key)
        return reinstate(call=call, entry=row)


class EntryReturn(Endpoint):
    """The return of an entry that is out, over bouts that were wrestled in his place."""

    @acts(ChosenSerializer, versioned=True)
    def post(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Let a withdrawn entry wrestle on, saying what becomes of wrestled bouts.

        Every bout whose two would not meet any more needs a choice; `mark` is that of the preview
        with these choices. Licensed medical staff and the local code decide about return; this
        only records.
        """
        row = queries.entry(sight(call.actor, slug).tournament, key)
        return reinstate(call=call, entry=row, **decided_of(dict(data), row.weight_class))


class EntryReturnPreview(Endpoint):
    """What the return of an entry would change."""

    @asks(PreviewSerializer, ChoicesSerializer)
    def post(self, call: Call, data: Data, slug: str, key: str) -> dict[str, object]:
        """Look what would follow where a withdrawn entry wrestles on; nothing is written."""
        seen = sight(call.actor, slug)
        seen.need(Right.DIRECT)
        row = queries.entry(seen.tournament, key)
        chosen = choices_of(dict(data), row.weight_class)
        return preview_item(look_at_return(row, chosen), insiders(seen.tournament))
