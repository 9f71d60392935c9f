"""Entries, seeds and wrestlers as they are published."""

from itertools import pairwise
from typing import Any

from django.utils.translation import gettext as _
from rest_framework.request import Request
from rest_framework.response import Response

from results.api.shown import Shown, shown, told
from results.queries.people import People, Person
from results.queries.race import earned
from results.queries.sheets import sheets
from results.queries.told import results_of
from results.serializers.bouts import bout_item
from results.serializers.persons import (
    EntriesQuerySerializer,
    EntriesSerializer,
    SeedsSerializer,
    entry_item,
    person_item,
)
from results.serializers.points import part_item
from results.serializers.wrestler import WrestlerSerializer
from seeding.core.reasons import Reason
from seeding.entries import queries
from seeding.entries.models import Entry, WeightClass
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, reads
from seeding.journal.api.paging import page
from seeding.journal.core.errors import NotFound
from seeding.journal.serializers import FollowingSerializer
from seeding.queries import Order, order_of


class Entries(Endpoint):
    """Who is entered."""

    @reads(EntriesSerializer, query=EntriesQuerySerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """List the entries by weight; those scratched only to those who have a role."""
        seen = shown(request, slug, "entries")
        weight = queries.weight(seen.tournament, asked["weight"]).pk if "weight" in asked else None
        team = queries.team(seen.tournament, asked["team"]).pk if "team" in asked else None

        def build() -> dict[str, Any]:
            found = seen.people().where(team=team, weight=weight)
            rows = Entry.objects.in_bulk([one.entry for one in found]) if seen.own else {}
            listed = [one for one in found if seen.own or not one.scratched]
            return page(
                request,
                asked,
                sorted(listed, key=_by_seed),
                lambda one: entry_item(one, rows.get(one.entry)),
            )

        return told(request, seen, asked, build)


def _by_seed(person: Person) -> tuple[Any, ...]:
    """An order that tells nothing of what is not published."""
    return person.weight.position, person.seed or 1000, person.team.name, person.name


class Seeds(Endpoint):
    """The seeds of a weight."""

    @reads(SeedsSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, weight: str) -> Response:
        """Read the seeds, with the reason why each stands above the next.

        Reasons are told where the seeds are still those of the order that gave them.
        """
        seen = shown(request, slug, "seeds")
        row = queries.weight(seen.tournament, weight)
        return told(request, seen, asked, lambda: _seeds(seen, row))


def _seeds(seen: Shown, weight: WeightClass) -> dict[str, Any]:
    people = seen.people()
    entered = [one for one in people.where(weight=weight.pk) if one.seed and not one.scratched]
    entered.sort(key=lambda one: one.seed or 0)
    order = order_of(weight)
    reasons = list(_reasons(order, people)) if order.adopted and order.stands else []
    return {
        "weight": weight.key,
        "items": [person_item(one, own=seen.own) for one in entered],
        "reasons": reasons,
    }


def _reasons(order: Order, people: People) -> list[dict[str, Any]]:
    """For every two seeds; where the committee put them in their order, that it did."""
    at = {uid: place for place, uid in enumerate(order.proposal.order)}
    names = {uid: people.by_pk[row.pk].name for uid, row in order.entries.items()}
    seeded = order.order[: len(order.seeds)]
    found = []
    for seed, (above, below) in enumerate(pairwise(seeded), 1):
        reason = order.proposal.reason(above, below)
        if at[above] < at[below]:
            found.append(_reason(seed, reason, names))
        else:
            text = _("The committee put {above} above {below}.")
            text = text.format(above=names[above], below=names[below])
            found.append({"above": seed, "step": "committee", "criterion": "", "text": text})
    return found


def _reason(seed: int, reason: Reason, names: dict[str, str]) -> dict[str, Any]:
    """In published names; who is not entered is not named."""
    other = _("another wrestler")
    spoken = {uid for one in reason.sentences for uid in one.wrestlers[1::2]}
    text = reason.say({uid: names.get(uid, other) for uid in spoken})
    return {
        "above": seed,
        "step": str(reason.step),
        "criterion": reason.criterion,
        "text": text,
    }


class Wrestler(Endpoint):
    """A wrestler of the tournament."""

    @reads(WrestlerSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, uid: str) -> Response:
        """Read a wrestler's way bout by bout, and what he earned for his team."""
        seen = shown(request, slug, "entries")
        found = seen.people().where(handle=uid)
        if not found:
            raise NotFound(what="wrestler", name=uid)
        return told(request, seen, asked, lambda: _wrestler(seen, found))


def _wrestler(seen: Shown, found: list[Person]) -> dict[str, Any]:
    drawn = {one.weight.pk: one for one in sheets(seen.tournament, seen.gates, seen.people())}
    gained = earned([one.entry for one in found], seen.gates)
    results = results_of(seen.tournament) if seen.gates.results else {}
    ways = []
    for person in found:
        sheet = drawn.get(person.weight.pk)
        bouts = [bout for bout in sheet.bouts.values() if bout.has(person.entry)] if sheet else []
        places = sheet.places if sheet else ()
        ways.append(
            {
                "weight": person.weight.key,
                "entry": person_item(person, own=seen.own),
                "bouts": [bout_item(one, results.get(one.pk), own=seen.own) for one in bouts],
                "place": next((at for at, who in places if who.entry == person.entry), None),
                "parts": [part_item(part) for part in gained.get(person.entry, ())],
            }
        )
    return {"wrestler": found[0].handle, "name": found[0].name, "ways": ways}
