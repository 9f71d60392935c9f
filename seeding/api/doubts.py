"""What of the season should be looked at twice, and the judgements on it."""

from rest_framework.request import Request
from rest_framework.response import Response

from seeding.entries.permissions import Right, sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.endpoint import Endpoint, acts, reads
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.queries.doubts import (
    bout_of,
    doubles_of,
    doubts_of,
    repeats_of,
    struck_bouts,
    wrestler_of,
)
from seeding.serializers.season import (
    DoublesSerializer,
    MergeWrestlersSerializer,
    PairSerializer,
    RepeatsSerializer,
    StrikeSerializer,
    TwoBoutsSerializer,
    bout_item,
    double_item,
    repeat_item,
)
from seeding.services.season import (
    keep_apart,
    let_both_stand,
    merge_wrestlers,
    put_back_bout,
    strike_bout,
)

MOST = 100


class SeasonDoubles(Endpoint):
    """Names that are alike."""

    @reads(DoublesSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """Read the pairs of wrestlers of the organisation whose names are alike."""
        seen = sight(caller(request), slug)
        seen.need(Right.DIRECT)
        found = doubles_of(seen.tournament)
        items = [double_item(one) for one in doubts_of(seen.tournament, found[:MOST])]
        return Response({"count": len(found), "items": items})


class SeasonApart(Endpoint):
    """Judgements that two are two."""

    @acts(PairSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str) -> Act:
        """Judge that two wrestlers are two people, so that they are not proposed again."""
        tournament = sight(call.actor, slug).tournament
        one, other = (wrestler_of(tournament, data[name]) for name in ("one", "other"))
        return keep_apart(call=call, tournament=tournament, one=one, other=other)


class SeasonMerges(Endpoint):
    """Judgements that two are one."""

    @acts(MergeWrestlersSerializer, status=201, gone="wrestlers.merged")
    def post(self, call: Call, data: Data, slug: str) -> Act:
        """Make one person of two wrestlers, in every tournament of the organisation; for good.

        Needs the right to hold tournaments for the organisation.
        """
        tournament = sight(call.actor, slug).tournament
        keep, gone = (wrestler_of(tournament, data[name]) for name in ("keep", "gone"))
        return merge_wrestlers(call=call, tournament=tournament, keep=keep, gone=gone)


class SeasonRepeats(Endpoint):
    """Bouts that may be one bout told twice."""

    @reads(RepeatsSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """Read the bouts of the same two wrestlers on one day, and those that were struck."""
        seen = sight(caller(request), slug)
        seen.need(Right.DIRECT)
        items = [repeat_item(one) for one in repeats_of(seen.tournament)]
        struck = [bout_item(row) for row in struck_bouts(seen.tournament)]
        return Response({"items": items, "struck": struck})


class SeasonTwoBouts(Endpoint):
    """Judgements that two bouts are two."""

    @acts(TwoBoutsSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str) -> Act:
        """Let both bouts stand, so that they are not shown again."""
        tournament = sight(call.actor, slug).tournament
        one, other = (bout_of(tournament, data[name]) for name in ("one", "other"))
        return let_both_stand(call=call, tournament=tournament, one=one, other=other)


class SeasonStrikes(Endpoint):
    """Bouts taken out of the season."""

    @acts(StrikeSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str) -> Act:
        """Strike a bout, with a reason; it is no evidence any more."""
        tournament = sight(call.actor, slug).tournament
        bout = bout_of(tournament, data["bout"])
        return strike_bout(call=call, tournament=tournament, bout=bout, reason=data["reason"])


class SeasonStrike(Endpoint):
    """A struck bout."""

    @acts()
    def delete(self, call: Call, data: Data, slug: str, bout: int) -> Act:
        """Let a struck bout count again."""
        tournament = sight(call.actor, slug).tournament
        return put_back_bout(call=call, tournament=tournament, bout=bout_of(tournament, bout))
