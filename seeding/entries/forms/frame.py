"""A tournament's frame: new, changed, what the public sees."""

from collections.abc import Iterator
from functools import lru_cache
from typing import Any
from zoneinfo import available_timezones

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from seeding.entries.models import Organisation, Tournament
from seeding.entries.services.tournament import GATES
from seeding.journal.forms import ActForm

DAY = forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"})


@lru_cache(maxsize=1)
def zones() -> tuple[tuple[str, str], ...]:
    """The time zones by Region/City, UTC first."""
    named = sorted(zone for zone in available_timezones() if "/" in zone and zone[:3] != "Etc")
    return (("UTC", "UTC"), *((zone, zone) for zone in named))


def _zones() -> Iterator[tuple[str, str]]:
    yield ("", str(_("choose")))
    yield from zones()


class FrameForm(ActForm):
    """Name, first day, time zone and mats."""

    name = forms.CharField(label=_("Name"), max_length=120)
    starts_on = forms.DateField(label=_("First day"), widget=DAY)
    time_zone = forms.ChoiceField(
        label=_("Time zone"),
        choices=_zones,
        help_text=_("Every time on the pages is shown in this zone."),
    )
    mats = forms.CharField(
        label=_("Mats"),
        max_length=400,
        help_text=_("The name of each mat, with commas: 1, 2, 3, 4."),
    )

    def clean_mats(self) -> list[str]:
        said: str = self.cleaned_data["mats"]
        return [name.strip() for name in said.split(",") if name.strip()]


class NewTournamentForm(FrameForm):
    """A new tournament; an operator of the installation also says for whom."""

    field_order = ("organisation", "new_organisation", "name", "slug")
    slug = forms.SlugField(
        label=_("Address"),
        max_length=50,
        help_text=_("Small letters, digits and hyphens; it stands in the public address."),
        error_messages={"invalid": _("Only letters, digits and hyphens, such as river-cup.")},
    )
    organisation = forms.ModelChoiceField(
        label=_("Organisation"),
        queryset=Organisation.objects.none(),
        required=False,
        empty_label=_("a new one, named below"),
        help_text=_("Who holds the tournament. Wrestlers and the season belong to it."),
    )
    new_organisation = forms.CharField(label=_("New organisation"), max_length=120, required=False)

    def __init__(self, *args: Any, organisations: QuerySet[Organisation] | None, **more: Any):
        super().__init__(*args, **more)
        if organisations is None:
            del self.fields["organisation"], self.fields["new_organisation"]
            return
        field = self.fields["organisation"]
        if isinstance(field, forms.ModelChoiceField):
            field.queryset = organisations

    def clean(self) -> dict[str, Any]:
        found = super().clean() or self.cleaned_data
        if "organisation" in self.fields:
            named = (found.get("organisation"), found.get("new_organisation"))
            if not any(named):
                self.add_error("new_organisation", _("Choose an organisation or name a new one."))
        return found


class GatesForm(ActForm):
    """What the public sees."""

    entries = forms.BooleanField(label=_("Entries"), required=False)
    seeds = forms.BooleanField(label=_("Seeds"), required=False)
    draw = forms.BooleanField(label=_("Brackets and bout numbers"), required=False)
    results = forms.BooleanField(label=_("Results and places"), required=False)
    team_points = forms.BooleanField(label=_("Team points"), required=False)

    @classmethod
    def of(cls, tournament: Tournament, data: Any = None) -> "GatesForm":
        """The form of a tournament as it stands."""
        opened = {kind: getattr(tournament, f"shows_{kind}") for kind in GATES}
        return cls(data, initial={**opened, "version": tournament.version}, auto_id="gate_%s")
