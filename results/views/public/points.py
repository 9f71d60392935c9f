"""The team race."""

from django.http import HttpRequest

from results.queries.gates import Gates
from results.queries.people import People
from results.queries.race import races
from results.views.public.page import Page, public
from seeding.entries.models import Tournament
from seeding.journal.core.errors import NotFound


@public
def points(request: HttpRequest, tournament: Tournament, gates: Gates) -> Page:
    """Team points of every division, each total with its explanation."""
    if not gates.published:
        raise NotFound(what="page", name="team points")
    people = People.of(tournament, gates)
    context = {"races": races(tournament, gates, people)}
    return Page("results/points.html", "results/_points.html", context)
