"""The lists of criteria that come with the program, and the one that a division goes by."""

from rest_framework.request import Request
from rest_framework.response import Response

from seeding.entries import queries
from seeding.entries.models import Division
from seeding.entries.permissions import sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, acts, reads
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.rulebooks import lists, rules_of_list, text_of
from seeding.serializers.lists import CriteriaListSerializer, ListsSerializer, UseListSerializer
from seeding.services.lists import use_list, use_own_list

HOUR = {"Cache-Control": "public, max-age=3600"}


def list_item(name: str) -> dict[str, str]:
    """A list without its text."""
    rules = rules_of_list(name)
    return {"key": name, "name": rules.name, "source": rules.source, "shape": rules.shape_name}


class CriteriaLists(Endpoint):
    """All lists of criteria."""

    @reads(ListsSerializer)
    def get(self, request: Request, asked: Data) -> Response:
        """List the lists by name, with their sources."""
        return Response({"items": [list_item(name) for name in lists()]}, headers=HOUR)


class OneCriteriaList(Endpoint):
    """One list of criteria."""

    @reads(CriteriaListSerializer)
    def get(self, request: Request, asked: Data, name: str) -> Response:
        """Read a list as its file says it."""
        text = text_of(name)
        return Response({**list_item(name), "text": text}, headers=HOUR)


class DivisionList(Endpoint):
    """The list that orders the weights of a division."""

    @acts(UseListSerializer)
    def put(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Go by one of the program's lists (`name`), or by a file's `text`."""
        return use_list(
            call=call,
            division=_division(call, slug, key),
            name=data.get("name", ""),
            file=data.get("file_name", "text"),
            text=data.get("text", ""),
        )

    @acts()
    def delete(self, call: Call, data: Data, slug: str, key: str) -> Act:
        """Go by the rule book's own list again."""
        return use_own_list(call=call, division=_division(call, slug, key))


def _division(call: Call, slug: str, key: str) -> Division:
    return queries.division(sight(call.actor, slug).tournament, key)
