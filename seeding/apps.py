"""Wiring of the app."""

from django.apps import AppConfig
from django.utils.translation import gettext_lazy as _

from seeding.core.rules import SeedingRules
from seeding.entries.rulebooks import READERS


class SeedingConfig(AppConfig):
    """The season, the criteria and the order."""

    name = "seeding"
    label = "seeding"
    verbose_name = _("seeding")
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        """Lend the ground floor our reader of rule books, what follows a scratch, and regions."""
        from seeding.entries.queries import NAMERS  # noqa: PLC0415  models are there only now
        from seeding.entries.services.entry import TURN_FOLLOWERS  # noqa: PLC0415
        from seeding.entries.services.roster import REGIONAL, Regional  # noqa: PLC0415
        from seeding.queries.doubts import bout_names  # noqa: PLC0415
        from seeding.queries.qualifying import letters, regions_told  # noqa: PLC0415
        from seeding.services.qualifying import take_place  # noqa: PLC0415
        from seeding.services.scratch import follow_turn  # noqa: PLC0415

        READERS["seeding"] = SeedingRules.from_section
        NAMERS["prior_bout"] = bout_names
        NAMERS["for"] = NAMERS["alternates"] = NAMERS["entry"]
        TURN_FOLLOWERS.append(follow_turn)
        REGIONAL.append(Regional(regions_told, letters, take_place))
