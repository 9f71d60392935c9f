"""The jobs' side: Celery over Redis, or over files in DATA_DIR with one background worker."""

import os
from typing import Any

from celery import Celery
from celery.signals import worker_ready

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "deploy.settings")

app = Celery("headtable")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.set_default()
app.autodiscover_tasks()


@worker_ready.connect
def take_up(**_signal: Any) -> None:
    """The embedded worker takes up what the one before it left half done."""
    from django.conf import settings  # noqa: PLC0415  Celery makes Django ready first
    from django.utils import timezone  # noqa: PLC0415

    from seeding.journal.services import resume_jobs  # noqa: PLC0415

    if not settings.REDIS_URL:
        resume_jobs(timezone.now())
