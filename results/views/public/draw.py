"""How the draw came about; drawn again on request."""

from django.http import HttpRequest

from brackets.serializers.document import drawn_sections
from brackets.serializers.verification import verify
from results.queries.draws import draws_told
from results.queries.gates import Gates
from results.views.public.page import Page, public
from seeding.entries.models import Tournament


@public
def draw(request: HttpRequest, tournament: Tournament, gates: Gates) -> Page:
    """The commitment and every seed; with `?again` all weights are drawn again and compared."""
    again = gates.draw and "again" in request.GET
    checked = verify(drawn_sections(tournament)) if again else None
    context = {"told": draws_told(tournament), "checked": checked}
    return Page("results/draw.html", "results/_draw.html", context)
