"""Every two of a weight at a glance, and the order that goes against fewest bouts."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import weight as weight_of
from seeding.entries.views.desk import desk
from seeding.queries import order_of
from seeding.queries.grid import grid as grid_of
from seeding.queries.violations import violations as violations_of


@desk(Right.SEED)
def grid(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """Who holds the criteria over whom."""
    at = weight_of(tournament, weight)
    shown = {"tournament": tournament, "weight": at, "rows": grid_of(order_of(at))}
    return render(request, "seeding/grid.html", shown)


@desk(Right.SEED)
def violations(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """The order of fewest violations of head-to-head: worked out only when somebody asks."""
    at = weight_of(tournament, weight)
    shown = {"tournament": tournament, "weight": at, "found": violations_of(order_of(at))}
    return render(request, "seeding/violations.html", shown)
