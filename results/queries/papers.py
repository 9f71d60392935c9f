"""Sheets for paper and for files, as the public may see their wrestlers."""

from dataclasses import dataclass

from django.db.models import QuerySet

from results.queries.cross import ALL_POOL, Cross, crosses
from results.queries.drawing import Drawing, drawing, drawings
from results.queries.gates import Gates
from results.queries.people import People
from results.queries.sheets import Sheet, sheets
from seeding.entries.models import Tournament, WeightClass
from seeding.journal.models import Job

TASK = "results.tasks.render_sheets"
HIGH, WIDE = 13, 8  # rows and columns that are legible on a page of A4 or Letter
OPEN = Gates(entries=True, seeds=True, draw=True, results=True, points=True)


@dataclass(frozen=True, slots=True)
class Paper:
    """One weight's sheet with its drawings and its cross tables."""

    sheet: Sheet
    drawings: tuple[Drawing, ...]
    crosses: tuple[Cross, ...]


def papers(
    tournament: Tournament, gates: Gates = OPEN, weight: WeightClass | None = None
) -> list[Paper]:
    """The sheets from light to heavy, or that of a weight, in drawings that a page of paper holds.

    Names are as each wrestler may be published, and only where the gates let them out.
    """
    people = People.of(tournament, gates)
    return [_paper(one) for one in sheets(tournament, gates, people, weight)]


def _paper(sheet: Sheet) -> Paper:
    drawn = () if sheet.bracket.format in ALL_POOL else drawings(sheet, high=HIGH, wide=WIDE)
    return Paper(sheet, drawn, crosses(sheet))


def svg_drawings(tournament: Tournament) -> list[tuple[Sheet, Drawing]]:
    """Every sheet as one drawing, from light to heavy, whatever the gates."""
    people = People.of(tournament, OPEN)
    return [(one, drawing(one)) for one in sheets(tournament, OPEN, people)]


def sheet_jobs(tournament: Tournament) -> QuerySet[Job]:
    """The orders for sheets, newest first."""
    return Job.objects.filter(log_id=tournament.log_id, task=TASK).order_by("-created_at", "-pk")
