"""Tournaments and their gates."""

from hashlib import sha256
from typing import Any

from django.db.models import Q
from django.urls import reverse
from rest_framework.request import Request
from rest_framework.response import Response

from seeding.entries.models import Role, Tournament, User
from seeding.entries.permissions import GRANTS, Right, Sight, holder, sight
from seeding.entries.serializers.tournament import (
    EditTournamentSerializer,
    GatesSerializer,
    NewTournamentSerializer,
    TournamentDocumentSerializer,
    TournamentsQuerySerializer,
    TournamentsSerializer,
    tournament_item,
)
from seeding.entries.services import create_tournament, edit_tournament, set_gates
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document, listing
from seeding.journal.api.endpoint import Endpoint, Made, acts, reads
from seeding.journal.api.paging import page
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call

PUBLISHED = Q(shows_entries=True) | Q(shows_draw=True) | Q(shows_team_points=True)


class Tournaments(Endpoint):
    """All tournaments that the reader may know of."""

    @reads(TournamentsSerializer, query=TournamentsQuerySerializer)
    def get(self, request: Request, asked: Data) -> Response:
        """List the tournaments that publish anything, newest first.

        Whoever has a role finds his own too, with his rights.
        """
        user = caller(request)
        found = _seen(user, asked.get("organisation"))
        marks = (
            f"{one.tournament.pk}/{one.tournament.log.seq}/{sorted(one.rights)}" for one in found
        )
        version = sha256(":".join([str(asked), *marks]).encode()).hexdigest()[:20]
        return listing(
            request,
            version,
            lambda: page(request, asked, found, tournament_item),
            own=user is not None,
        )

    @acts(NewTournamentSerializer, status=201)
    def post(self, call: Call, data: Data) -> Made:
        """Make a tournament; whoever makes it owns it."""
        values = dict(data)
        organisation = holder(call.actor, values.pop("organisation", ""))
        act = create_tournament(call=call, organisation=organisation, **values)
        return Made(act, data["slug"], reverse("api-tournament", args=[data["slug"]]))


def _seen(user: int | None, organisation: str | None) -> list[Sight]:
    rows = Tournament.objects.select_related("log", "organisation")
    if organisation:
        rows = rows.filter(organisation__slug=organisation)
    roles = {}
    seen = PUBLISHED
    if user is not None:
        roles = dict(Role.objects.filter(user=user).values_list("tournament_id", "name"))
        everything = User.objects.filter(pk=user, is_superuser=True, is_active=True).exists()
        seen = Q() if everything else seen | Q(pk__in=roles)
        if everything:
            roles = {row.pk: roles.get(row.pk, Role.Name.OWNER) for row in rows}
    found = rows.filter(seen).order_by("-starts_on", "name", "pk")
    return [Sight(row, _granted(roles.get(row.pk))) for row in found]


def _granted(role: str | None) -> frozenset[Right]:
    return GRANTS[role] if role else frozenset()


class OneTournament(Endpoint):
    """One tournament."""

    @reads(TournamentDocumentSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """Read a tournament: dates, mats, and what it publishes."""
        seen = sight(caller(request), slug)
        return document(
            request,
            seen.tournament.log,
            lambda: tournament_item(seen),
            own=seen.own,
            after=asked.get("after"),
        )

    @acts(EditTournamentSerializer, versioned=True)
    def patch(self, call: Call, data: Data, slug: str) -> Act:
        """Change name, date, time zone or mats; the address stays."""
        row = sight(call.actor, slug).tournament
        held: dict[str, Any] = {
            "name": row.name,
            "starts_on": row.starts_on,
            "time_zone": row.time_zone,
            "mats": row.mats,
        }
        return edit_tournament(call=call, tournament=row, **(held | dict(data)))


class TournamentGates(Endpoint):
    """What the public sees."""

    @acts(GatesSerializer, versioned=True)
    def patch(self, call: Call, data: Data, slug: str) -> Act:
        """Open or close the publish gates; a kind that is not named stays as it is."""
        return set_gates(call=call, tournament=sight(call.actor, slug).tournament, gates=data)
