"""One weight's sheet as PDF, as far as the gates let it out."""

from django.http import HttpRequest, HttpResponse

from results.queries.gates import Gates
from results.queries.papers import papers
from results.views.public.page import public
from seeding.entries.models import Tournament
from seeding.entries.queries import weight as weight_of
from seeding.journal.core.errors import NotFound


@public
def paper(request: HttpRequest, tournament: Tournament, gates: Gates, weight: str) -> HttpResponse:
    """The sheet as PDF; `?paper=a4` or `letter` asks for a size."""
    # Only who prints waits for reportlab: it takes half a second to load.
    from results.paper.sheet import printed  # noqa: PLC0415

    found = papers(tournament, gates, weight_of(tournament, weight)) if gates.draw else []
    if not found:
        raise NotFound(what="sheet", name=weight)
    made = printed(tournament, found[0], tournament.log.seq, request.GET.get("paper", ""))
    name = f"{tournament.slug}-{found[0].sheet.weight.key}.pdf"
    headers = {"Content-Disposition": f'inline; filename="{name}"'}
    return HttpResponse(made, content_type="application/pdf", headers=headers)
