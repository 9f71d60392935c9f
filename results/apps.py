"""Wiring of the app."""

from django.apps import AppConfig
from django.utils.translation import gettext_lazy as _


class ResultsConfig(AppConfig):
    """What happened and what it is worth."""

    name = "results"
    label = "results"
    verbose_name = _("results")
    default_auto_field = "django.db.models.BigAutoField"
