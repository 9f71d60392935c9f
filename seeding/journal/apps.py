"""Wiring of the app."""

from django.apps import AppConfig
from django.utils.translation import gettext_lazy as _


class JournalConfig(AppConfig):
    """The act log, the outbox and the long jobs."""

    name = "seeding.journal"
    label = "journal"
    verbose_name = _("act log")
    default_auto_field = "django.db.models.BigAutoField"
