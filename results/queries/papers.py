"""Sheets for paper: every drawn weight as the public may see its wrestlers, whatever the gates."""

from dataclasses import dataclass

from django.db.models import QuerySet

from results.queries.drawing import Drawing, drawing
from results.queries.gates import Gates
from results.queries.people import People
from results.queries.sheets import Sheet, sheets
from seeding.entries.models import Tournament
from seeding.journal.models import Job

TASK = "results.tasks.render_sheets"
OPEN = Gates(entries=True, seeds=True, draw=True, results=True, points=True)


@dataclass(frozen=True, slots=True)
class Paper:
    """One weight's sheet with the drawing of it."""

    sheet: Sheet
    drawing: Drawing


def papers(tournament: Tournament) -> list[Paper]:
    """The sheets from light to heavy. Names are as each wrestler may be published."""
    people = People.of(tournament, OPEN)
    return [Paper(one, drawing(one)) for one in sheets(tournament, OPEN, people)]


def sheet_jobs(tournament: Tournament) -> QuerySet[Job]:
    """The orders for sheets, newest first."""
    return Job.objects.filter(log_id=tournament.log_id, task=TASK).order_by("-created_at", "-pk")
