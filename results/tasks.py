"""What takes long."""

import io
import zipfile

from celery import shared_task
from django.core.files.base import ContentFile
from django.template.loader import render_to_string
from django.utils import timezone
from django.utils.text import slugify

from results.queries.drawing import Drawing
from results.queries.papers import OPEN, TASK, svg_drawings
from results.queries.sheets import Sheet
from seeding.entries.models import Tournament
from seeding.journal.models import Job
from seeding.journal.queries import job as job_of
from seeding.journal.services import finish_job, job_progress

RULING = 16  # how high the line of a ruling is below a drawing


@shared_task(name=TASK)
def render_sheets(job: str) -> None:
    """Draw every sheet of the job's tournament as an SVG file, all of them in one ZIP file."""
    row = job_of(job)
    tournament = Tournament.objects.select_related("log").get(pk=row.arguments["tournament"])
    try:
        made = _zipped(row, tournament)
        row.product.save(f"{tournament.slug}-sheets.zip", ContentFile(made), save=False)
        Job.objects.filter(pk=row.pk).update(product=row.product.name)
    except Exception as error:
        problem = {"problem": type(error).__name__}
        finish_job(job=row, now=timezone.now(), report=problem, failed=True)
        raise
    report = {"seq": tournament.log.seq, "bytes": len(made)}
    finish_job(job=row, now=timezone.now(), report=report, failed=False)


def _zipped(row: Job, tournament: Tournament) -> bytes:
    file = io.BytesIO()
    sheets = svg_drawings(tournament)
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as packed:
        for done, (sheet, drawing) in enumerate(sheets, start=1):
            name = slugify(sheet.weight.label) or "weight"
            packed.writestr(f"{done:02}-{name}.svg", _svg(tournament, sheet, drawing))
            job_progress(job=row, done=done, total=len(sheets))
    return file.getvalue()


def _svg(tournament: Tournament, sheet: Sheet, drawing: Drawing) -> str:
    shown = {
        "tournament": tournament,
        "sheet": sheet,
        "drawing": drawing,
        "height": drawing.height + RULING * len(sheet.rulings),
        "gates": OPEN,
        "seq": tournament.log.seq,
    }
    return render_to_string("results/sheet.svg", shown)
