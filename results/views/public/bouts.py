"""Every bout by mat."""

from django.http import HttpRequest

from results.queries import floor
from results.queries.gates import Gates
from results.queries.people import People
from results.queries.sheets import sheets
from results.views.public.page import Page, public
from seeding.entries.models import Tournament
from seeding.journal.core.errors import NotFound

SHORT = 8


@public
def bouts(request: HttpRequest, tournament: Tournament, gates: Gates) -> Page:
    """The next bouts of every mat, or with `?mat=` all bouts of one."""
    if not gates.published:
        raise NotFound(what="page", name="bouts")
    people = People.of(tournament, gates)
    mats = floor.mats(tournament, floor.numbered(sheets(tournament, gates, people)))
    wanted = request.GET.get("mat")
    if wanted is not None:
        shown = [mat for mat in mats if mat.name == wanted]
        if not shown and gates.draw:
            raise NotFound(what="mat", name=wanted)
    else:
        shown = mats
    context = {"mats": mats, "shown": shown, "only": wanted, "short": SHORT}
    return Page("results/bouts.html", "results/_bouts.html", context)
