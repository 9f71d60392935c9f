"""Qualifying: the plan, the regions, the field of a weight, wild cards and alternates."""

from typing import Any

from django.urls import reverse
from rest_framework.request import Request
from rest_framework.response import Response

from seeding.api.weight import weight_at, weight_document
from seeding.core.qualifying import Spot
from seeding.entries import queries
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.permissions import Right, sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document
from seeding.journal.api.endpoint import Endpoint, Made, acts, reads
from seeding.journal.core.errors import Invalid, NotFound, Problem
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call
from seeding.queries.qualifying import candidates, field_of, plan_of, regions, tallies
from seeding.queries.qualifying import region as region_of
from seeding.serializers.qualifying import (
    FieldSerializer,
    MarkSerializer,
    PlacesByHandSerializer,
    PlanSerializer,
    QualifyingSerializer,
    RegionSerializer,
    StepInSerializer,
    field_item,
    plan_item,
    region_item,
    tally_item,
)
from seeding.services.alternates import step_back, step_in
from seeding.services.qualifying import (
    Numbers,
    accept_candidates,
    remove_region,
    set_places,
    set_plan,
    set_region,
)


class Qualifying(Endpoint):
    """What a tournament takes from its regions."""

    @reads(QualifyingSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """Read the plan, the regions, and how many of each weight are in or wait; needs a role."""
        seen = sight(caller(request), slug)
        seen.need(Right.READ)
        tournament = seen.tournament
        return document(
            request,
            tournament.log,
            lambda: _qualifying(tournament),
            own=True,
            after=asked.get("after"),
        )

    @acts(PlanSerializer, versioned=True)
    def put(self, call: Call, data: Data, slug: str) -> Act:
        """Say how many advance, come in beside them, and wait."""
        tournament = sight(call.actor, slug).tournament
        return set_plan(call=call, tournament=tournament, numbers=Numbers(**data))


def _qualifying(tournament: Tournament) -> dict[str, Any]:
    plan = plan_of(tournament)
    return {
        "version": plan.version if plan else 0,
        "plan": plan_item(tournament),
        "regions": [region_item(seen) for seen in regions(tournament)],
        "weights": [tally_item(tally) for tally in tallies(tournament)],
    }


class Regions(Endpoint):
    """The regions of a tournament."""

    @acts(RegionSerializer, status=201)
    def post(self, call: Call, data: Data, slug: str) -> Made:
        """Add a region; its event is a tournament of the organisation in which you have a role."""
        act = _set_region(call, slug, data, "")
        return Made(act, data["letter"], reverse("api-region", args=[slug, data["letter"]]))


class OneRegion(Endpoint):
    """One region."""

    @acts(RegionSerializer)
    def put(self, call: Call, data: Data, slug: str, letter: str) -> Act:
        """Change a region: its letter, its name, its event."""
        region_of(sight(call.actor, slug).tournament, letter)
        return _set_region(call, slug, data, letter)

    @acts(gone="region.removed")
    def delete(self, call: Call, data: Data, slug: str, letter: str) -> Act:
        """Remove a region from which nobody came."""
        return remove_region(
            call=call, tournament=sight(call.actor, slug).tournament, letter=letter
        )


def _set_region(call: Call, slug: str, data: Data, before: str) -> Act:
    tournament = sight(call.actor, slug).tournament
    event = sight(call.actor, data["event"]).tournament if data["event"] else None
    return set_region(
        call=call,
        tournament=tournament,
        letter=data["letter"],
        name=data["name"],
        source=event,
        before=before,
    )


class WeightField(Endpoint):
    """The field of a weight."""

    @reads(FieldSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, weight: str) -> Response:
        """Read who is in and how, and the candidates in order with reasons; needs a role."""

        def build(row: WeightClass) -> dict[str, Any]:
            plan = plan_of(row.tournament)
            if plan is None:
                raise NotFound(what="qualifying plan", name=slug)
            return field_item(field_of(row), candidates(row, plan))

        return weight_document(request, asked, slug, weight, build)


class FieldPlaces(Endpoint):
    """Places of regions, by hand."""

    @acts(PlacesByHandSerializer)
    def put(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Say for which place of which region entries of the weight are here."""
        row = weight_at(call.actor, slug, weight)
        known = dict(queries.entries(row.pk).values_list("key", "pk"))
        problems = [
            Problem(f"items.{at}.{field}", message)
            for at, item in enumerate(data["items"])
            for field, message in _faults(item, known, row)
        ]
        if problems:
            raise Invalid(problems)
        places = {
            known[item["entry"]]: Spot(item["region"], item["place"]) if item["region"] else None
            for item in data["items"]
        }
        return set_places(call=call, weight=row, places=places)


def _faults(item: Data, known: dict[str, int], weight: WeightClass) -> list[tuple[str, str]]:
    found = []
    if item["entry"] not in known:
        found.append(("entry", f"“{item['entry']}” is not entered at {weight.label}."))
    if (item["region"] is None) != (item["place"] is None):
        found.append(("place", "Name both region and place, or neither."))
    return found


class Candidates(Endpoint):
    """Wild cards and alternates of a weight."""

    @acts(MarkSerializer)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Act:
        """Accept the order that you read: its best are wild cards, the next alternates."""
        return accept_candidates(
            call=call, weight=weight_at(call.actor, slug, weight), mark=data["mark"]
        )


class EntryAlternate(Endpoint):
    """Who stands in the field for a scratched entry."""

    @acts(StepInSerializer)
    def post(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Let the first alternate step in for a scratched entry, until the stated time."""
        tournament = sight(call.actor, slug).tournament
        alternate = queries.entry(tournament, data["alternate"])
        return step_in(call=call, entry=_entry(call, slug, key), alternate=alternate)

    @acts()
    def delete(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Let an alternate (named by his own entry) who stepped in stand by again."""
        return step_back(call=call, entry=_entry(call, slug, key))


def _entry(call: Call, slug: str, key: str) -> Entry:
    return queries.entry(sight(call.actor, slug).tournament, key)
