"""What a reader may see of a tournament: behind the gates, or everything with a role."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from rest_framework.request import Request
from rest_framework.response import Response

from results.core.errors import NotPublished
from results.queries.gates import Gates
from results.queries.insiders import insiders
from results.queries.papers import OPEN
from results.queries.people import People
from seeding.entries.models import Tournament
from seeding.entries.permissions import Sight, sight
from seeding.journal.api.bodies import Data
from seeding.journal.api.calls import caller
from seeding.journal.api.documents import document

KINDS = {
    "entries": "entries",
    "seeds": "seeds",
    "draw": "brackets",
    "results": "results",
    "points": "team points",
}


@dataclass(frozen=True, slots=True)
class Shown:
    """A tournament with the gates as they are for the reader."""

    sight: Sight
    gates: Gates

    @property
    def tournament(self) -> Tournament:
        return self.sight.tournament

    @property
    def own(self) -> bool:
        return self.sight.own

    def people(self) -> People:
        """Everyone entered, as the reader may know them."""
        return insiders(self.tournament) if self.own else People.of(self.tournament, self.gates)


def shown(request: Request, slug: str, kind: str) -> Shown:
    """The tournament where the reader may see that kind; else refused as not published."""
    seen = sight(caller(request), slug)
    gates = OPEN if seen.own else Gates.of(seen.tournament)
    if not getattr(gates, kind):
        raise NotPublished(kind=KINDS[kind])
    return Shown(seen, gates)


def told(
    request: Request, seen: Shown, asked: Data, build: Callable[[], Mapping[str, Any]]
) -> Response:
    """The document that `build` makes, as the reader's caches may keep it."""
    return document(request, seen.tournament.log, build, own=seen.own, after=asked.get("after"))
