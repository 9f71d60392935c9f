"""Ordering what takes long: a file of every sheet."""

from results.queries.papers import TASK
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right, require
from seeding.journal.models import Job
from seeding.journal.services import Call, queue_job


def order_sheets(*, call: Call, tournament: Tournament) -> Job:
    """Let the worker draw all sheets into one file; the same key orders once."""
    require(call, tournament.pk, Right.READ)
    arguments = {"tournament": tournament.pk}
    return queue_job(call=call, log=tournament.log_id, task=TASK, arguments=arguments)
