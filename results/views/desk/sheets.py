"""The files of all sheets: how far they are, and their download."""

from django.http import FileResponse, HttpRequest, HttpResponse
from django.shortcuts import render

from results.queries.papers import papers, sheet_jobs
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import weight as weight_of
from seeding.entries.views.desk import desk
from seeding.journal.core.errors import NotFound


@desk(Right.READ)
def sheets(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """The sheets that were ordered: how far they are, and the files."""
    jobs = list(sheet_jobs(tournament)[:10])
    state = "-".join(f"{job.pk}{job.state}{job.done}" for job in jobs[:2]) or "none"
    after = request.GET.get("after")
    if after == state:
        return HttpResponse(status=204)
    shown = {"tournament": tournament, "jobs": jobs, "state": state}
    name = "results/desk/sheets.html" if after is None else "results/desk/_sheets.html"
    answer = render(request, name, shown)
    answer["X-Seq"] = state
    return answer


@desk(Right.READ)
def download(request: HttpRequest, tournament: Tournament, uid: str) -> FileResponse | HttpResponse:
    """The file of a finished order."""
    job = sheet_jobs(tournament).filter(uid=uid).exclude(product="").first()
    if not job:
        raise NotFound(what="file", name=str(uid))
    name = f"{tournament.slug}-{job.report.get('seq', 0)}.zip"
    return FileResponse(job.product.open("rb"), as_attachment=True, filename=name)


@desk(Right.READ)
def paper(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """A weight's sheet as PDF, whatever is published; `?paper=a4` or `letter` asks for a size.

    With `?reasons` rulings stand on it with reason and author; else it may hang on a wall.
    """
    # Only who prints waits for reportlab: it takes half a second to load.
    from results.paper.sheet import printed  # noqa: PLC0415

    found = papers(tournament, weight=weight_of(tournament, weight))
    if not found:
        raise NotFound(what="sheet", name=weight)
    size, reasons = request.GET.get("paper", ""), "reasons" in request.GET
    made = printed(tournament, found[0], tournament.log.seq, size, reasons=reasons)
    name = f"{tournament.slug}-{found[0].sheet.weight.key}.pdf"
    headers = {"Content-Disposition": f'inline; filename="{name}"', "Cache-Control": "no-store"}
    return HttpResponse(made, content_type="application/pdf", headers=headers)
