"""Wiring of the app."""

from django.apps import AppConfig
from django.utils.translation import gettext_lazy as _


class SeedingConfig(AppConfig):
    """The season, the criteria and the order."""

    name = "seeding"
    label = "seeding"
    verbose_name = _("seeding")
    default_auto_field = "django.db.models.BigAutoField"
