"""What the worker does for the seeding room."""

from celery import shared_task
from django.utils import timezone

from seeding.journal.queries import job as job_of
from seeding.services import season


@shared_task(name=season.READ)
def read_season(job: str) -> None:
    """Read a season file, report on it and stage its bouts."""
    season.stage_season(job=job_of(job), now=timezone.now())


@shared_task(name=season.CLEAR)
def clear_stage(job: str) -> None:
    """Throw away what was staged for a season that is kept."""
    season.clear_stage(job=job_of(job))
