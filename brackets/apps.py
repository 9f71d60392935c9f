"""Wiring of the app."""

from django.apps import AppConfig
from django.utils.translation import gettext_lazy as _


class BracketsConfig(AppConfig):
    """Who meets whom, where and when."""

    name = "brackets"
    label = "brackets"
    verbose_name = _("brackets")
    default_auto_field = "django.db.models.BigAutoField"
