"""The rule books that come with the program."""

from rest_framework.request import Request
from rest_framework.response import Response

from seeding.entries.rulebooks import book, books
from seeding.entries.serializers.rulebook import (
    RuleBookSerializer,
    RuleBooksSerializer,
)
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, reads
from seeding.journal.core.errors import NotFound

HOUR = {"Cache-Control": "public, max-age=3600"}


class RuleBooks(Endpoint):
    """All rule books."""

    @reads(RuleBooksSerializer)
    def get(self, request: Request, asked: Data) -> Response:
        """List the rule books by name."""
        items = [{"key": name, "name": book(name)["book"]["name"]} for name in books()]
        return Response({"items": items}, headers=HOUR)


class OneRuleBook(Endpoint):
    """One rule book."""

    @reads(RuleBookSerializer)
    def get(self, request: Request, asked: Data, name: str) -> Response:
        """Read a rule book; a division keeps a snapshot of it."""
        if name not in books():
            raise NotFound(what="rule book", name=name)
        found = book(name)
        told = {"key": name, "name": found["book"]["name"], "snapshot": found}
        return Response(told, headers=HOUR)
