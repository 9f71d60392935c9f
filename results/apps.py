"""Wiring of the app."""

from django.apps import AppConfig
from django.utils.translation import gettext_lazy as _

from results.core.bout_rules import BoutRules
from results.core.rules import Deductions, ResultRules, TeamPointRules
from seeding.entries.rulebooks import READERS


class ResultsConfig(AppConfig):
    """What happened and what it is worth."""

    name = "results"
    label = "results"
    verbose_name = _("results")
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        """Lend the ground floor our readers of rule books, and qualifying the page of places."""
        from seeding.queries.qualifying import WAYS_IN  # noqa: PLC0415  models are there only now

        WAYS_IN.append("desk-qualifiers")
        READERS["results"] = ResultRules.from_section
        READERS["team_points"] = TeamPointRules.from_section
        READERS["deductions"] = Deductions.from_section
        READERS["bout"] = BoutRules.from_section
