"""Wiring of the app."""

from django.apps import AppConfig
from django.utils.translation import gettext_lazy as _

from seeding.entries.core.group_rules import GroupRules
from seeding.entries.rulebooks import READERS


class EntriesConfig(AppConfig):
    """Who takes part, where, and in which weight."""

    name = "seeding.entries"
    label = "entries"
    verbose_name = _("entries")
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        """Read the weights of rule books when they are set."""
        READERS["weights"] = GroupRules.from_section
