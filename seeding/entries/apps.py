"""Wiring of the app."""

from django.apps import AppConfig
from django.utils.translation import gettext_lazy as _


class EntriesConfig(AppConfig):
    """Who takes part, where, and in which weight."""

    name = "seeding.entries"
    label = "entries"
    verbose_name = _("entries")
    default_auto_field = "django.db.models.BigAutoField"
