"""The order of a weight: read it, move in it, adopt it as seeds."""

from rest_framework.request import Request
from rest_framework.response import Response

from seeding.api.weight import weight_at, weight_document
from seeding.entries import queries
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, Made, acts, reads
from seeding.journal.core.errors import Invalid, NotFound, Problem
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call
from seeding.models import Override
from seeding.queries import order_of
from seeding.serializers.order import (
    InputsSerializer,
    NewMoveSerializer,
    OrderSerializer,
    order_item,
)
from seeding.services import adopt_order, move_seed, set_inputs, take_back_move


class WeightOrder(Endpoint):
    """The order of a weight as the committee sees it."""

    @reads(OrderSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, weight: str) -> Response:
        """Read the order with the reason for every two neighbours; needs a role."""
        return weight_document(
            request, asked, slug, weight, lambda row: order_item(order_of(row), row.key)
        )


class Moves(Endpoint):
    """The committee's moves in the order of a weight."""

    @acts(NewMoveSerializer, status=201, versioned=True)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Made:
        """Put an entry at a place of the order, with a reason that stays beside it."""
        row = weight_at(call.actor, slug, weight)
        entry = queries.entry(row.tournament, data["entry"])
        if entry.weight_class_id != row.pk:
            raise NotFound(what="entry", name=data["entry"])
        act = move_seed(call=call, entry=entry, to=data["to"], reason=data["reason"])
        return Made(act, str(act.subject["move"]))


class OneMove(Endpoint):
    """One move of the committee."""

    @acts(versioned=True, gone="seed.move-taken-back")
    def delete(self, call: Call, data: Data, slug: str, weight: str, move: int) -> Act:
        """Take a move back."""
        row = weight_at(call.actor, slug, weight)
        found = Override.objects.filter(order__weight_class=row, pk=move).first()
        if found is None:
            raise NotFound(what="move", name=str(move))
        return take_back_move(call=call, override=found)


class Adoption(Endpoint):
    """The order of a weight as its seeds."""

    @acts(versioned=True)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Make the order as it stands the seeds of the weight."""
        return adopt_order(call=call, weight=weight_at(call.actor, slug, weight))


class Inputs(Endpoint):
    """What no bout tells."""

    @acts(InputsSerializer, versioned=True)
    def put(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Put in ranks and qualifying places of entries of the weight."""
        row = weight_at(call.actor, slug, weight)
        known = dict(queries.entries(row.pk).values_list("key", "pk"))
        strange = [
            Problem(f"items.{at}.entry", f"“{item['entry']}” is not entered at {row.label}.")
            for at, item in enumerate(data["items"])
            if item["entry"] not in known
        ]
        if strange:
            raise Invalid(strange)
        values = {
            known[item["entry"]]: (item["rank"], item["qualifying_place"]) for item in data["items"]
        }
        return set_inputs(call=call, weight=row, values=values)
