"""Entries: add, change, weigh in, scratch and restore."""

from django.urls import reverse
from rest_framework.request import Request
from rest_framework.response import Response

from seeding.entries import queries
from seeding.entries.models import Entry, Tournament
from seeding.entries.permissions import Right, sight
from seeding.entries.serializers.entry import (
    DeskEntrySerializer,
    EditEntrySerializer,
    NameSerializer,
    NewEntrySerializer,
    WeighInSerializer,
    desk_entry_item,
)
from seeding.entries.services import (
    add_entry,
    correct_name,
    edit_entry,
    restore_entry,
    scratch_entry,
    weigh_in,
)
from seeding.entries.services.entry import Person
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document
from seeding.journal.api.endpoint import Endpoint, Made, acts, reads
from seeding.journal.models import Act
from seeding.journal.serializers import FollowingSerializer
from seeding.journal.services import Call


def _entry(call: Call, slug: str, key: str) -> Entry:
    return queries.entry(sight(call.actor, slug).tournament, key)


class WeightEntries(Endpoint):
    """The entries of a weight."""

    @acts(NewEntrySerializer, status=201)
    def post(self, call: Call, data: Data, slug: str, weight: str) -> Made:
        """Enter a wrestler in a weight before its draw."""
        tournament = sight(call.actor, slug).tournament
        details = dict(data)
        person = Person(details.pop("given"), details.pop("family"), details.pop("home"))
        act = add_entry(
            call=call,
            weight=queries.weight(tournament, weight),
            team=queries.team(tournament, details.pop("team")),
            person=person,
            details=details,
        )
        made = Entry.objects.get(pk=act.subject["entry"])
        return Made(act, made.key, reverse("api-entry", args=[slug, made.key]))


class OneEntry(Endpoint):
    """One entry as the desk sees it."""

    @reads(DeskEntrySerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, key: str) -> Response:
        """Read an entry with the full name; needs a role in the tournament."""
        seen = sight(caller(request), slug)
        seen.need(Right.READ)
        row = queries.entry(seen.tournament, key)
        return document(
            request,
            seen.tournament.log,
            lambda: desk_entry_item(row),
            own=True,
            after=asked.get("after"),
        )

    @acts(EditEntrySerializer, versioned=True)
    def patch(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Change an entry: weight, team and seed until the draw, the rest at any time."""
        tournament = sight(call.actor, slug).tournament
        row = queries.entry(tournament, key)
        return edit_entry(call=call, entry=row, details=_details(tournament, data))


def _details(tournament: Tournament, data: Data) -> dict[str, object]:
    found = dict(data)
    if "weight" in found:
        found["weight_class"] = queries.weight(tournament, found.pop("weight"))
    if "team" in found:
        found["team"] = queries.team(tournament, found["team"])
    return found


class EntryName(Endpoint):
    """The name of who is entered."""

    @acts(NameSerializer, versioned=True)
    def put(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Spell a wrestler's name otherwise, wherever the organisation knows him."""
        return correct_name(call=call, entry=_entry(call, slug, key), **data)


class EntryWeighIn(Endpoint):
    """The weigh-in of an entry."""

    @acts(WeighInSerializer, versioned=True)
    def put(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Record that the weight was made or missed.

        Licensed medical staff and the local code decide whether anyone may wrestle.
        """
        return weigh_in(call=call, entry=_entry(call, slug, key), state=data["state"])


class EntryScratch(Endpoint):
    """Whether an entry is scratched."""

    @acts(versioned=True)
    def post(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Take an entry out before the draw."""
        return scratch_entry(call=call, entry=_entry(call, slug, key))

    @acts(versioned=True)
    def delete(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Bring a scratched entry back before the draw; his seed is gone if another holds it."""
        return restore_entry(call=call, entry=_entry(call, slug, key))
