"""Organisations, roles, and people who may sign in."""

from django.urls import reverse
from rest_framework.request import Request
from rest_framework.response import Response

from seeding.entries import queries
from seeding.entries.models import Organisation, User
from seeding.entries.permissions import Right, sight
from seeding.entries.serializers.people import (
    GiveRoleSerializer,
    NewPersonSerializer,
    RolesSerializer,
    role_item,
)
from seeding.entries.serializers.tournament import (
    NewOrganisationSerializer,
    OrganisationSerializer,
    OrganisationsSerializer,
    organisation_item,
)
from seeding.entries.services import add_person, give_role, take_role
from seeding.entries.services.people import new_organisation
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document
from seeding.journal.api.endpoint import Endpoint, Made, acts, asks, reads
from seeding.journal.core.errors import NotAllowed
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call


class Organisations(Endpoint):
    """Who holds tournaments."""

    @reads(OrganisationsSerializer)
    def get(self, request: Request, asked: Data) -> Response:
        """List the organisations that the caller may hold tournaments for."""
        user = User.objects.filter(pk=caller(request) or 0).first()
        if user is None:
            raise NotAllowed(right="signed in")
        rows = Organisation.objects.order_by("name", "pk")
        if not user.is_superuser:
            rows = rows.filter(users=user)
        return Response({"items": [organisation_item(row) for row in rows]})

    @asks(OrganisationSerializer, NewOrganisationSerializer)
    def post(self, call: Call, data: Data) -> dict[str, str]:
        """Make an organisation, or find the one of that name; for operators of the site."""
        return organisation_item(new_organisation(call=call, name=data["name"]))


class Roles(Endpoint):
    """Who may do what in a tournament."""

    @reads(RolesSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """List everybody with a role; for owners."""
        seen = sight(caller(request), slug)
        seen.need(Right.OWN)
        rows = queries.roles(seen.tournament)
        return document(
            request,
            seen.tournament.log,
            lambda: {"items": [role_item(row) for row in rows]},
            own=True,
            after=asked.get("after"),
        )

    @acts(NewPersonSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str) -> Made:
        """Add somebody new who may sign in, with a role in the tournament."""
        act = add_person(
            call=call,
            tournament=sight(call.actor, slug).tournament,
            username=data["username"],
            password=data["password"],
            name=data["role"],
        )
        return Made(act, data["username"], reverse("api-role", args=[slug, data["username"]]))


class OneRole(Endpoint):
    """The role of one person."""

    @acts(GiveRoleSerializer)
    def put(self, call: Call, data: Data, slug: str, username: str) -> Act:
        """Give a person who can sign in a role, or another role than before."""
        seen = sight(call.actor, slug)
        seen.need(Right.OWN)
        user = queries.user(username)
        return give_role(call=call, tournament=seen.tournament, user=user, name=data["role"])

    @acts()
    def delete(self, call: Call, data: Data, slug: str, username: str) -> Act:
        """Take a person's role away."""
        seen = sight(call.actor, slug)
        seen.need(Right.OWN)
        user = queries.user(username)
        return take_role(call=call, tournament=seen.tournament, user=user)
