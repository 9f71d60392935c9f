"""The one way to tell the world: a row in the outbox, sent when the transaction is kept.

Only services call this. What could not be sent (the broker is away) stays in the outbox and goes
with the next one that is sent.
"""

from datetime import datetime

from celery import current_app
from django.db import transaction
from kombu.exceptions import OperationalError

from seeding.journal.models import Outbox


def publish(task: str, *, at: datetime, **payload: object) -> None:
    """Enqueue the task `task` with JSON arguments `payload` once the transaction is committed."""
    Outbox.objects.create(task=task, payload=payload, created_at=at)
    transaction.on_commit(lambda: flush(at))


def flush(at: datetime) -> int:
    """Send what waits in the outbox, oldest first; returns how many were sent."""
    sent = 0
    for row in Outbox.objects.filter(sent_at=None).order_by("pk"):
        if not Outbox.objects.filter(pk=row.pk, sent_at=None).update(sent_at=at):
            continue
        try:
            _send(row)
        except OperationalError:
            Outbox.objects.filter(pk=row.pk).update(sent_at=None)
            break
        sent += 1
    return sent


def _send(row: Outbox) -> None:
    """To the broker; or done here and now, where jobs are done at once."""
    if current_app.conf.task_always_eager:
        current_app.loader.import_default_modules()
        current_app.tasks[row.task].apply(kwargs=row.payload)
    else:
        current_app.send_task(row.task, kwargs=row.payload)
