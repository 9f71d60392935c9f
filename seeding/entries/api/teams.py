"""Teams."""

from typing import Any

from django.urls import reverse
from rest_framework.request import Request
from rest_framework.response import Response

from seeding.entries import queries
from seeding.entries.core.teams import abbreviated
from seeding.entries.models import Team, Tournament
from seeding.entries.permissions import sight
from seeding.entries.serializers.frame import (
    EditTeamSerializer,
    NewTeamSerializer,
    TeamDocumentSerializer,
    TeamsSerializer,
    team_item,
)
from seeding.entries.services import add_team, edit_team
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document
from seeding.journal.api.endpoint import Endpoint, Made, acts, reads
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call


class Teams(Endpoint):
    """The teams of a tournament."""

    @reads(TeamsSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """List the teams by name."""
        seen = sight(caller(request), slug)
        rows = queries.teams(seen.tournament)
        return document(
            request,
            seen.tournament.log,
            lambda: {"items": [team_item(row) for row in rows]},
            own=seen.own,
            after=asked.get("after"),
        )

    @acts(NewTeamSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str) -> Made:
        """Add a team; `members` names the schools of a co-operative one."""
        row = sight(call.actor, slug).tournament
        values = {**data, "short": data.get("short") or _short(row, data["name"])}
        act = add_team(call=call, tournament=row, **values)
        made = Team.objects.get(pk=act.subject["team"])
        return Made(act, made.key, reverse("api-team", args=[slug, made.key]))


def _short(tournament: Tournament, name: str) -> str:
    """A short form that no other team has; the team of that name keeps its own."""
    rows = Team.objects.filter(tournament=tournament)
    if known := rows.filter(name=name).first():
        return known.short
    taken = {short.casefold() for short in rows.values_list("short", flat=True)}
    return abbreviated(name, lambda short: short.casefold() in taken)


class OneTeam(Endpoint):
    """One team."""

    @reads(TeamDocumentSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, team: str) -> Response:
        """Read a team."""
        seen = sight(caller(request), slug)
        row = queries.team(seen.tournament, team)
        return document(
            request,
            seen.tournament.log,
            lambda: team_item(row),
            own=seen.own,
            after=asked.get("after"),
        )

    @acts(EditTeamSerializer)
    def patch(self, call: Call, data: Data, slug: str, team: str) -> Act:
        """Rename a team or change whom it is made of."""
        row = queries.team(sight(call.actor, slug).tournament, team)
        held: dict[str, Any] = {"name": row.name, "short": row.short, "members": row.members}
        return edit_team(call=call, team=row, **(held | dict(data)))
