"""How the draw came about; drawn again on request."""

from django.http import HttpRequest

from brackets.serializers.document import drawn_sections
from brackets.serializers.verification import verify
from results.queries.draws import draws_told
from results.queries.gates import Gates
from results.views.public.page import Page, public
from seeding.entries.models import Tournament
from seeding.journal.core.errors import NotFound


@public
def draw(request: HttpRequest, tournament: Tournament, gates: Gates) -> Page:
    """The commitment and every seed; with `?again` all weights are drawn again and compared.

    A commitment is told of a tournament that publishes nothing else too.
    """
    told = draws_told(tournament)
    if not (gates.published or told.commitment):
        raise NotFound(what="draw of", name=tournament.slug)
    again = gates.draw and "again" in request.GET
    checked = verify(drawn_sections(tournament)) if again else None
    context = {"told": told, "checked": checked}
    return Page("results/draw.html", "results/_draw.html", context)
