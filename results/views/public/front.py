"""The list of tournaments, and the front page of one."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.template.loader import render_to_string
from django.utils.cache import get_conditional_response
from django.views.decorators.http import require_safe

from brackets.queries.commitment import commitment_of
from results.queries import floor
from results.queries.gates import Gates
from results.queries.pages import listed, published, weights
from results.queries.people import People, Person
from results.queries.race import races
from results.queries.sheets import Sheet, sheets
from results.views.public.page import FRESH, Page, public, tag
from seeding.entries.models import Tournament, WeightClass

LATEST = 10
LEADING = 10


@dataclass(frozen=True, slots=True)
class WeightNow:
    """A weight with what may be said of it; `sheet` None before the draw."""

    weight: WeightClass
    sheet: Sheet | None
    entered: int

    @property
    def champions(self) -> list[Person]:
        return [who for place, who in self.sheet.places if place == 1] if self.sheet else []


@require_safe
def tournaments(request: HttpRequest) -> HttpResponseBase:
    """Every tournament that shows anything, newest first."""
    found = published()
    version = ":".join(f"{one.slug}/{one.log.seq}/{Gates.of(one)}" for one in found)
    etag = tag(request, version)
    response = get_conditional_response(request, etag=etag)
    if response is None:
        text = render_to_string("results/tournaments.html", {"tournaments": found}, request)
        response = HttpResponse(text, headers={"ETag": etag})
    response.headers["Cache-Control"] = FRESH
    return response


@public
def front(request: HttpRequest, tournament: Tournament, gates: Gates) -> Page:
    """What is on now, what was decided last, who leads, how each weight stands."""
    people = People.of(tournament, gates)
    drawn = sheets(tournament, gates, people)
    bouts = floor.numbered(drawn)
    mats = floor.mats(tournament, bouts) if gates.results else []
    told = races(tournament, gates, people)
    context = {
        "commitment": commitment_of(tournament),
        "mats": mats,
        "rounds": floor.rounds_now(mats, [one for sheet in drawn for one in sheet.real]),
        "latest": floor.latest(bouts, LATEST),
        "races": [(one, one.teams[:LEADING]) for one in told if one.teams],
        "weights": _weights(tournament, gates, drawn, people),
        "placed": [sheet for sheet in drawn if sheet.places],
    }
    return Page("results/front.html", "results/_front.html", context)


def _weights(
    tournament: Tournament, gates: Gates, drawn: Iterable[Sheet], people: People
) -> Sequence[tuple[str, list[WeightNow]]]:
    """The weights by division, each with its state."""
    by_weight = {sheet.weight.pk: sheet for sheet in drawn}
    groups: dict[str, list[WeightNow]] = defaultdict(list)
    if gates.published:
        for weight in listed(weights(tournament)):
            entered = [one for one in people.where(weight=weight.pk) if not one.scratched]
            groups[weight.division.name].append(
                WeightNow(weight, by_weight.get(weight.pk), len(entered))
            )
    return list(groups.items())
