"""The forms of qualifying: the plan, regions, places by hand, alternates."""

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.core.qualifying import Spot
from seeding.entries.models import Entry
from seeding.journal.forms import ActForm
from seeding.models import Berth, QualifyingPlan, Region

MOST = 64


class PlanForm(ActForm):
    """How many advance, come in beside them, and wait; the time is that of the tournament."""

    places = forms.IntegerField(
        label=_("Places of each region that advance"), min_value=1, max_value=8
    )
    wild_cards = forms.IntegerField(
        label=_("Wild cards"),
        min_value=0,
        max_value=MOST,
        help_text=_("At each weight: the best of those who did not advance."),
    )
    alternates = forms.IntegerField(
        label=_("Alternates"),
        min_value=0,
        max_value=MOST,
        help_text=_("At each weight: the next after the wild cards, in order."),
    )
    alternates_until = forms.DateTimeField(
        label=_("Alternates step in until"),
        required=False,
        input_formats=["%Y-%m-%dT%H:%M", "%Y-%m-%d %H:%M"],
        widget=forms.DateTimeInput(attrs={"type": "datetime-local"}, format="%Y-%m-%dT%H:%M"),
    )

    def __init__(self, data: Any, *, plan: QualifyingPlan | None, zone: str) -> None:
        self.zone = ZoneInfo(zone)
        super().__init__(data, initial=self._held(plan), auto_id="plan_%s")
        hint = _("Time of the tournament, %(zone)s. Left empty: until the weight is drawn.")
        self.fields["alternates_until"].help_text = hint % {"zone": zone}

    def _held(self, plan: QualifyingPlan | None) -> dict[str, object]:
        if plan is None:
            return {"places": 4, "wild_cards": 0, "alternates": 2}
        until = plan.alternates_until
        return {
            "places": plan.places,
            "wild_cards": plan.wild_cards,
            "alternates": plan.alternates,
            "alternates_until": until and until.astimezone(self.zone).replace(tzinfo=None),
            "version": plan.version,
        }

    def clean_alternates_until(self) -> datetime | None:
        """The time as typed is that of the tournament, whatever the zone of the site."""
        found: datetime | None = self.cleaned_data["alternates_until"]
        return found.replace(tzinfo=self.zone) if found else None


class RegionForm(ActForm):
    """A region, and the tournament that was its event where it was run here."""

    letter = forms.CharField(
        label=_("Letter"), max_length=2, help_text=_("As it stands on lines: A1, B4.")
    )
    name = forms.CharField(label=_("Name"), max_length=120)
    source = forms.ChoiceField(
        label=_("Its tournament"),
        required=False,
        help_text=_("Of this organisation, where you have a role. Empty: places come by hand."),
    )

    def __init__(
        self,
        data: Any,
        *,
        sources: Iterable[tuple[str, str]],
        region: Region | None,
        auto_id: str = "region_%s",
    ) -> None:
        held = {
            "letter": region.letter if region else "",
            "name": region.name if region else "",
            "source": region.source.slug if region and region.source else "",
        }
        super().__init__(data, initial=held, auto_id=auto_id)
        field = self.fields["source"]
        if isinstance(field, forms.ChoiceField):
            field.choices = [("", _("none")), *sources]

    def clean_letter(self) -> str:
        letter: str = self.cleaned_data["letter"]
        return letter.strip().upper()


class PlacesForm(ActForm):
    """For which region and place every entry of a weight is here."""

    def __init__(
        self,
        data: Any,
        *,
        entries: Iterable[Entry],
        berths: Mapping[int, Berth],
        letters: list[str],
    ) -> None:
        super().__init__(data)
        self.entries = list(entries)
        choices = [("", "-"), *((letter, letter) for letter in letters)]
        for row in self.entries:
            held, name = berths.get(row.pk), row.wrestler.name
            self.fields[f"region-{row.key}"] = forms.ChoiceField(
                label=_("Region of %(name)s") % {"name": name},
                choices=choices,
                required=False,
                initial=held.region.letter if held and held.region else "",
            )
            self.fields[f"place-{row.key}"] = forms.IntegerField(
                label=_("Place of %(name)s") % {"name": name},
                min_value=1,
                max_value=99,
                required=False,
                initial=held.place if held else None,
            )

    def clean(self) -> dict[str, Any]:
        """A region needs a place, and a place a region."""
        found: dict[str, Any] = super().clean() or {}
        for row in self.entries:
            region, place = found.get(f"region-{row.key}"), found.get(f"place-{row.key}")
            if bool(region) != bool(place):
                self.add_error(f"place-{row.key}", _("Name both region and place, or neither."))
        return found

    def lines(self) -> list[tuple[Entry, forms.BoundField, forms.BoundField]]:
        """Each entry with its two fields."""
        return [(row, self[f"region-{row.key}"], self[f"place-{row.key}"]) for row in self.entries]

    @property
    def places(self) -> dict[int, Spot | None]:
        """As typed, by the entry's id."""
        found = self.cleaned_data
        return {
            row.pk: Spot(found[f"region-{row.key}"], found[f"place-{row.key}"])
            if found[f"region-{row.key}"]
            else None
            for row in self.entries
        }


class MarkForm(ActForm):
    """Says yes to what was looked at, and to nothing else."""

    mark = forms.CharField(required=False, max_length=16, widget=forms.HiddenInput)


class StepInForm(ActForm):
    """The alternate who was offered."""

    alternate = forms.CharField(max_length=40, widget=forms.HiddenInput)
