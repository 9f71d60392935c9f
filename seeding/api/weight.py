"""What the endpoints of the seeding room share: the weight that the address names."""

from collections.abc import Callable
from typing import Any

from rest_framework.request import Request
from rest_framework.response import Response

from seeding.entries import queries
from seeding.entries.models import WeightClass
from seeding.entries.permissions import Right, sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document


def weight_at(call_actor: int | None, slug: str, key: str) -> WeightClass:
    """The weight for somebody who sees its tournament."""
    return queries.weight(sight(call_actor, slug).tournament, key)


def weight_document(
    request: Request,
    asked: Data,
    slug: str,
    key: str,
    build: Callable[[WeightClass], dict[str, Any]],
) -> Response:
    """A document about a weight, for those with a role."""
    seen = sight(caller(request), slug)
    seen.need(Right.READ)
    row = queries.weight(seen.tournament, key)
    log = seen.tournament.log
    return document(request, log, lambda: build(row), own=True, after=asked.get("after"))
