"""The jobs' side: Celery over Redis, or over files in DATA_DIR with one background worker."""

import os

from celery import Celery

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "deploy.settings")

app = Celery("headtable")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.set_default()
app.autodiscover_tasks()
