"""Challenges to an order: the window, what is asked, what is answered."""

from django.urls import reverse
from rest_framework.request import Request
from rest_framework.response import Response

from seeding.api.weight import weight_at, weight_document
from seeding.entries import queries
from seeding.entries.models import WeightClass
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, Made, acts, reads
from seeding.journal.core.errors import NotFound
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call
from seeding.models import Challenge
from seeding.queries import order_of
from seeding.queries.minutes import challenges_of
from seeding.serializers.challenges import (
    AnswerSerializer,
    ChallengesSerializer,
    Item,
    NewChallengeSerializer,
    WindowSerializer,
    challenges_item,
)
from seeding.services import (
    challenge,
    close_challenges,
    grant_challenge,
    open_challenges,
    refuse_challenge,
    withdraw_challenge,
)


class OrderChallenges(Endpoint):
    """The challenges to the order of a weight."""

    @reads(ChallengesSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, weight: str) -> Response:
        """List the challenges with their answers, and until when they are heard."""

        def build(row: WeightClass) -> Item:
            order = order_of(row)
            until = order.kept.challenges_until if order.kept else None
            return challenges_item(order.version, until, challenges_of(order))

        return weight_document(request, asked, slug, weight, build)

    @acts(NewChallengeSerializer, status=201, versioned=True)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Made:
        """Record a coach's challenge while the window is open."""
        row = weight_at(call.actor, slug, weight)
        entry = queries.entry(row.tournament, data["entry"])
        if entry.weight_class_id != row.pk:
            raise NotFound(what="entry", name=data["entry"])
        over = queries.entry(row.tournament, data["over"])
        act = challenge(call=call, entry=entry, over=over, by=data["by"], reason=data["reason"])
        key = str(act.subject["challenge"])
        return Made(act, key, reverse("api-challenge", args=[slug, weight, key]))


class ChallengeWindow(Endpoint):
    """How long challenges are heard."""

    @acts(WindowSerializer, versioned=True)
    def put(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Hear challenges until a time, or for as long as the rule book says."""
        row = weight_at(call.actor, slug, weight)
        return open_challenges(call=call, weight=row, until=data["until"])

    @acts(versioned=True)
    def delete(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Hear no challenge from now on."""
        return close_challenges(call=call, weight=weight_at(call.actor, slug, weight))


class OneChallenge(Endpoint):
    """One challenge."""

    @acts(versioned=True)
    def delete(self, call: Call, data: Data, slug: str, weight: str, challenge: int) -> Act:
        """Note that the coach withdraws it; it stays on record."""
        found = _challenge(weight_at(call.actor, slug, weight), challenge)
        return withdraw_challenge(call=call, challenge=found)


class ChallengeAnswer(Endpoint):
    """The committee's answer to a challenge."""

    @acts(AnswerSerializer, versioned=True)
    def put(self, call: Call, data: Data, slug: str, weight: str, challenge: int) -> Act:
        """Grant it, which moves the wrestler, or refuse it; once only."""
        found = _challenge(weight_at(call.actor, slug, weight), challenge)
        service = grant_challenge if data["granted"] else refuse_challenge
        return service(call=call, challenge=found, answer=data["answer"])


def _challenge(row: WeightClass, pk: int) -> Challenge:
    found = Challenge.objects.filter(order__weight_class=row, pk=pk).first()
    if found is None:
        raise NotFound(what="challenge", name=str(pk))
    return found
