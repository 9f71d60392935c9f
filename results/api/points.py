"""Team points and adjustments."""

from typing import Any

from rest_framework.request import Request
from rest_framework.response import Response

from results.api.shown import shown, told
from results.models import Adjustment
from results.queries.points import adjustments
from results.queries.race import races
from results.serializers.points import (
    AdjustmentsSerializer,
    NewAdjustmentSerializer,
    PointsQuerySerializer,
    TeamLedgerSerializer,
    TeamPointsSerializer,
    adjustment_item,
    ledger_item,
    race_item,
)
from results.services import adjust, take_back_adjustment
from seeding.entries import queries
from seeding.entries.permissions import sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, Made, acts, reads
from seeding.journal.core.errors import NotFound
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call


class TeamPoints(Endpoint):
    """The team race."""

    @reads(TeamPointsSerializer, query=PointsQuerySerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """Read the team points, division by division, from most to fewest."""
        seen = shown(request, slug, "points")
        only = asked.get("division")
        if only is not None:
            queries.division(seen.tournament, only)

        def build() -> dict[str, Any]:
            found = races(seen.tournament, seen.gates, seen.people())
            return {
                "divisions": [race_item(one) for one in found if only in (None, one.division.key)]
            }

        return told(request, seen, asked, build)


class TeamLedger(Endpoint):
    """What is behind a team's points."""

    @reads(TeamLedgerSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, team: str) -> Response:
        """Read a team's points wrestler by wrestler: which bout or place gave what."""
        seen = shown(request, slug, "points")
        row = queries.team(seen.tournament, team)

        def build() -> dict[str, Any]:
            found = races(seen.tournament, seen.gates, seen.people())
            return {
                "explained": seen.gates.explained,
                "divisions": [
                    ledger_item(race.division.key, standing, own=seen.own)
                    for race in found
                    for standing in race.teams
                    if standing.team.pk == row.pk
                ],
            }

        return told(request, seen, asked, build)


class Adjustments(Endpoint):
    """Points given or taken by hand."""

    @reads(AdjustmentsSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """List the adjustments, each with its reason."""
        seen = shown(request, slug, "points")
        rows = adjustments(seen.tournament)
        return told(
            request,
            seen,
            asked,
            lambda: {"items": [adjustment_item(row, own=seen.own) for row in rows]},
        )

    @acts(NewAdjustmentSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str) -> Made:
        """Give a team points, or take some, with a reason that stands beside them."""
        tournament = sight(call.actor, slug).tournament
        act = adjust(
            call=call,
            division=queries.division(tournament, data["division"]),
            team=queries.team(tournament, data["team"]),
            points=data["points"],
            reason=data["reason"],
        )
        return Made(act, str(act.subject["adjustment"]))


class OneAdjustment(Endpoint):
    """One adjustment."""

    @acts(gone="points.adjustment-taken-back")
    def delete(self, call: Call, data: Data, slug: str, adjustment: int) -> Act:
        """Take an adjustment back; the log keeps that it was there."""
        tournament = sight(call.actor, slug).tournament
        rows = Adjustment.objects.select_related("team__tournament")
        row = rows.filter(team__tournament=tournament, pk=adjustment).first()
        if row is None:
            raise NotFound(what="adjustment", name=str(adjustment))
        return take_back_adjustment(call=call, adjustment=row)
