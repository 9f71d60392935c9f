"""Ordering what takes long: a file of every sheet."""

from results.queries.papers import TASK, sheet_jobs
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right, require
from seeding.journal.models import Job
from seeding.journal.services import Call, queue_job


def order_sheets(*, call: Call, tournament: Tournament) -> Job:
    """Let the worker draw all sheets into one file; the same key orders once."""
    require(call, tournament.pk, Right.READ)
    if call.key:
        earlier = sheet_jobs(tournament).filter(actor=call.actor, arguments__key=call.key).first()
        if earlier:
            return earlier
    arguments = {"tournament": tournament.pk, "key": call.key}
    return queue_job(call=call, log=tournament.log_id, task=TASK, arguments=arguments)
