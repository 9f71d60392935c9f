"""Brackets and bouts."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from rest_framework.request import Request
from rest_framework.response import Response

from brackets.models import Bout
from brackets.queries import bout_named
from results.api.shown import Shown, shown, told
from results.core.errors import BoutVoid
from results.models import Result
from results.queries.floor import numbered
from results.queries.seen import Seen
from results.queries.sheets import Sheet, sheets
from results.queries.told import results_of, versions_of
from results.serializers.bouts import (
    BoutDocumentSerializer,
    BoutsQuerySerializer,
    BoutsSerializer,
    BracketSerializer,
    bout_item,
    bracket_item,
)
from results.serializers.persons import PlacesQuerySerializer, PlacesSerializer, place_item
from seeding.entries.models import WeightClass
from seeding.entries.queries import weight as weight_of
from seeding.journal.api.bodies import Data
from seeding.journal.api.endpoint import Endpoint, reads
from seeding.journal.api.paging import page
from seeding.journal.core.errors import NotFound
from seeding.journal.serializers import FollowingSerializer


@dataclass(frozen=True, slots=True)
class Reading:
    """Drawn weights with the rows behind their bouts."""

    sheets: list[Sheet]
    own: bool
    results: dict[int, Result] = field(default_factory=dict)
    versions: dict[int, int] = field(default_factory=dict)

    @classmethod
    def of(cls, seen: Shown, weight: WeightClass | None = None) -> "Reading":
        """Nine queries at most, whatever the number of weights."""
        tournament = seen.tournament
        return cls(
            sheets(tournament, seen.gates, seen.people(), weight),
            seen.own,
            results_of(tournament, weight) if seen.gates.results else {},
            versions_of(tournament, weight) if seen.own else {},
        )

    def item(self, bout: Seen) -> dict[str, Any]:
        return bout_item(
            bout, self.results.get(bout.pk), own=self.own, version=self.versions.get(bout.pk)
        )


class WeightBracket(Endpoint):
    """The bracket of a weight."""

    @reads(BracketSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, weight: str) -> Response:
        """Read the bracket: every bout with sides, number, mat and result, and the places.

        While results are closed it is told as the draw alone makes it.
        """
        seen = shown(request, slug, "draw")
        row = weight_of(seen.tournament, weight)
        return told(request, seen, asked, lambda: _bracket(seen, row))


def _bracket(seen: Shown, weight: WeightClass) -> dict[str, Any]:
    reading = Reading.of(seen, weight)
    if not reading.sheets:
        raise NotFound(what="bracket of weight", name=weight.label)
    sheet = reading.sheets[0]
    kept = sheet.bracket.byes.union(sheet.bracket.bouts)
    bouts = [reading.item(bout) for key, bout in sheet.bouts.items() if key in kept]
    return bracket_item(sheet, bouts, own=seen.own)


class Bouts(Endpoint):
    """The bouts of a tournament."""

    @reads(BoutsSerializer, query=BoutsQuerySerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """List the numbered bouts in order, or those of a mat, a weight or a status."""
        seen = shown(request, slug, "draw")
        weight = weight_of(seen.tournament, asked["weight"]) if "weight" in asked else None
        return told(request, seen, asked, lambda: _bouts(request, seen, asked, weight))


def _bouts(
    request: Request, seen: Shown, asked: Data, weight: WeightClass | None
) -> dict[str, Any]:
    reading = Reading.of(seen, weight)
    found = [bout for bout in numbered(reading.sheets) if _wanted(bout, asked)]
    return page(request, asked, found, reading.item)


def _wanted(bout: Seen, asked: Data) -> bool:
    mat, status = asked.get("mat"), asked.get("status")
    return (mat is None or bout.mat == mat) and (status is None or str(bout.status) == status)


def _named(seen: Shown, name: str) -> Bout:
    """The bout; that one is void is told only to who may see results."""
    try:
        return bout_named(seen.tournament, name)
    except BoutVoid:
        if seen.gates.results:
            raise
        raise NotFound(what="bout", name=name) from None


class OneBout(Endpoint):
    """One bout."""

    @reads(BoutDocumentSerializer, query=FollowingSerializer)
    def get(self, request: Request, asked: Data, slug: str, bout: str) -> Response:
        """Read a bout, by its number or by weight and identity such as `125.R1-9`."""
        seen = shown(request, slug, "draw")
        row = _named(seen, bout)
        weight = row.drawn.weight_class

        def build() -> dict[str, Any]:
            reading = Reading.of(seen, weight)
            return reading.item(reading.sheets[0].bouts[row.key])

        return told(request, seen, asked, build)


class Places(Endpoint):
    """The places of a tournament."""

    @reads(PlacesSerializer, query=PlacesQuerySerializer)
    def get(self, request: Request, asked: Data, slug: str) -> Response:
        """List the places that are certain, light to heavy."""
        seen = shown(request, slug, "results")
        weight = weight_of(seen.tournament, asked["weight"]) if "weight" in asked else None

        def build() -> dict[str, Any]:
            found = sheets(seen.tournament, seen.gates, seen.people(), weight)
            return {"items": list(_places(found, own=seen.own))}

        return told(request, seen, asked, build)


def _places(found: Iterable[Sheet], *, own: bool) -> Iterable[dict[str, Any]]:
    for sheet in found:
        for place, person in sheet.places:
            yield place_item(sheet.weight.key, place, person, own=own)
