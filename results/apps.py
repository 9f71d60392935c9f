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
        """Lend the floors below our readers of rule books, names and numbers of void bouts and who
        is out, and qualifying the page of places."""
        from brackets.queries import FORMER, bout_names  # noqa: PLC0415  models are there only now
        from brackets.services.number import KEPT  # noqa: PLC0415
        from results.queries.leavers import leavers  # noqa: PLC0415
        from results.queries.ruled import refuse_void, void_bouts  # noqa: PLC0415
        from seeding.entries.queries import NAMERS  # noqa: PLC0415
        from seeding.entries.queries.groups import WAYS_ON  # noqa: PLC0415
        from seeding.entries.queries.ways import LEAVERS, WAYS_OUT, WEIGH_INS  # noqa: PLC0415
        from seeding.queries.qualifying import WAYS_IN  # noqa: PLC0415

        KEPT.append(lambda tournament: void_bouts(tournament).exists())
        FORMER.append(refuse_void)
        NAMERS["void"] = bout_names
        WAYS_ON.append("desk-regroup")
        WAYS_OUT.append("desk-take-out")
        WEIGH_INS.append("desk-weigh-in")
        LEAVERS.append(leavers)
        WAYS_IN.append("desk-qualifiers")
        READERS["results"] = ResultRules.from_section
        READERS["team_points"] = TeamPointRules.from_section
        READERS["deductions"] = Deductions.from_section
        READERS["bout"] = BoutRules.from_section
