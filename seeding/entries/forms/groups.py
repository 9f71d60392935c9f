"""Divisions without fixed weights: what was weighed, on one page for everybody."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.entries.core.measures import age_on
from seeding.entries.queries.groups import Member
from seeding.entries.services.groups import Figures
from seeding.journal.forms import ActForm


class AgeField(forms.CharField):
    """Whole years, or a date or year of birth, of which only the years on `day` are kept."""

    def __init__(self, *, day: date, **more: Any) -> None:
        self.day = day
        super().__init__(max_length=10, **more)

    def clean(self, value: Any) -> int | None:
        text = str(super().clean(value) or "").strip()
        if not text:
            return None
        years = age_on(text, self.day)
        if years is None:
            raise forms.ValidationError(
                _("Whole years from 0 to 98, or a date such as 2016-05-31.")
            )
        return years


@dataclass(frozen=True, slots=True)
class Row:
    """One entry with its fields."""

    member: Member
    weight: forms.BoundField
    age: forms.BoundField
    experience: forms.BoundField
    seen: forms.BoundField


class WeighingForm(ActForm):
    """Weight, age and experience of everybody; only rows that were changed are recorded."""

    def __init__(self, data: Any, *, people: Iterable[Member], day: date) -> None:
        self.people = tuple(people)
        super().__init__(data, auto_id="m_%s")
        for one in self.people:
            self._add(one, day)

    def _add(self, one: Member, day: date) -> None:
        key, known = one.entry.key, one.figures
        name = one.entry.wrestler.name
        self.fields[f"{key}.weight"] = forms.DecimalField(
            label=_("Weight of %(name)s") % {"name": name},
            required=False,
            min_value=Decimal("0.01"),
            max_digits=5,
            decimal_places=2,
            initial=known.weight,
        )
        label = _("Age of %(name)s") % {"name": name}
        self.fields[f"{key}.age"] = AgeField(
            day=day, label=label, required=False, initial=known.age
        )
        self.fields[f"{key}.experience"] = forms.IntegerField(
            label=_("Experience of %(name)s") % {"name": name},
            required=False,
            min_value=0,
            max_value=98,
            initial=known.experience,
        )
        self.fields[f"{key}.seen"] = forms.IntegerField(
            required=False, widget=forms.HiddenInput, initial=one.version
        )
        for what in ("weight", "age", "experience"):
            widget = self.fields[f"{key}.{what}"].widget
            widget.attrs |= {
                "aria-label": self.fields[f"{key}.{what}"].label,
                "autocomplete": "off",
            }

    @property
    def rows(self) -> list[Row]:
        """The fields of each entry."""
        parts = ("weight", "age", "experience", "seen")
        return [
            Row(one, *(self[f"{one.entry.key}.{part}"] for part in parts)) for one in self.people
        ]

    @property
    def changed(self) -> dict[str, Figures]:
        """What was entered in the rows that differ from what is known."""
        found = {}
        for one in self.people:
            key, known = one.entry.key, one.figures
            weight, age, years, seen = (
                self.cleaned_data[f"{key}.{part}"]
                for part in ("weight", "age", "experience", "seen")
            )
            if (weight, age, years) != (known.weight, known.age, known.experience):
                found[key] = Figures(weight, age, years, seen)
        return found


class FormGroupsForm(ActForm):
    """The button that makes the groups that are shown."""

    shown = forms.CharField(max_length=16, widget=forms.HiddenInput)
