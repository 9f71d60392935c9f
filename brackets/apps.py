"""Wiring of the app."""

from django.apps import AppConfig
from django.utils.translation import gettext_lazy as _

from brackets.core.rules import BracketRules
from seeding.entries.rulebooks import READERS


class BracketsConfig(AppConfig):
    """Who meets whom, where and when."""

    name = "brackets"
    label = "brackets"
    verbose_name = _("brackets")
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        """Lend the ground floor our reader of rule books, and the numbers of bouts."""
        from brackets.queries import bout_names  # noqa: PLC0415  models are there only now
        from brackets.services.number import follow_mats  # noqa: PLC0415
        from seeding.entries.queries import NAMERS  # noqa: PLC0415
        from seeding.entries.services.tournament import MAT_FOLLOWERS  # noqa: PLC0415

        READERS["bracket"] = BracketRules.from_section
        NAMERS["bout"] = bout_names
        MAT_FOLLOWERS.append(follow_mats)
