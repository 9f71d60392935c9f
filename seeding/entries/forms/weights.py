"""Divisions and their weights."""

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.entries.core.errors import SettingsStand
from seeding.entries.core.overrides import placed, read_settings, single, written
from seeding.entries.core.rulebook import override, whole
from seeding.entries.core.upgrades import Snapshot
from seeding.entries.models import Division, WeightClass
from seeding.entries.rulebooks import book, books, readable
from seeding.entries.services.division import places_with_points
from seeding.journal.core.errors import Invalid, Problem, Refusal
from seeding.journal.forms import ActForm

SETTINGS = forms.CharField(
    label=_("Settings that differ from the rule book"),
    required=False,
    widget=forms.Textarea(attrs={"rows": 4, "spellcheck": "false"}),
    help_text=_("One a line, by its dotted name: team_points.byes = none"),
)


def titles() -> list[tuple[str, str]]:
    """The rule books with the names that they give themselves, those of late first."""
    known = [(name, book(name)["book"]) for name in books()]
    known.sort(key=lambda one: -int(one[1]["season_ends"]))
    return [(name, str(title["name"])) for name, title in known]


class SettingsMixin(forms.Form):
    """Checks the lines of the field `settings` against a rule book."""

    def read(self, base: Snapshot) -> None:
        """Put the settings that the lines name in their place, and each problem beside them."""
        text = self.cleaned_data.get("settings", "")
        found, problems = read_settings(text, base)
        for problem in problems or _unreadable(text, override(base, found)):
            self.add_error("settings", str(problem))
        if not problems:
            self.cleaned_data["settings"] = found


def _unreadable(text: str, found: Snapshot) -> list[Problem]:
    """What the sections refuse of settings that are well written, at the lines that set it."""
    try:
        readable(found)
    except Invalid as refusal:
        return [placed(text, problem.where, str(problem)) for problem in refusal.problems]
    except Refusal as refusal:
        return [placed(text, refusal.where, str(refusal))]
    return []


class DivisionForm(SettingsMixin, ActForm):
    """A new division."""

    name = forms.CharField(label=_("Name"), max_length=80)
    rulebook = forms.ChoiceField(label=_("Rule book"), choices=titles)
    settings = SETTINGS

    def clean(self) -> dict[str, Any]:
        found = super().clean() or self.cleaned_data
        if "rulebook" in found:
            self.read(book(found["rulebook"]))
        return found


class EditDivisionForm(SettingsMixin, ActForm):
    """A division's name and its settings."""

    name = forms.CharField(label=_("Name"), max_length=80)
    settings = SETTINGS

    def __init__(self, data: Any, *, division: Division) -> None:
        self.division = division
        self.sections = whole(division.settings)
        lines = written(single(division.settings))
        super().__init__(data, initial={"name": division.name, "settings": lines})
        if drawn := division.weights.filter(locked=True).first():
            field = self.fields["settings"]
            field.widget.attrs["readonly"] = True
            field.help_text = str(SettingsStand(weight=drawn.label))

    def clean(self) -> dict[str, Any]:
        found = super().clean() or self.cleaned_data
        self.read(override(book(self.division.rulebook), self.sections))
        if not self.errors:
            found["settings"] = self.sections | found["settings"]
        return found


class WeightForm(ActForm):
    """A weight: its label and how many places are wrestled for."""

    label = forms.CharField(label=_("Weight"), max_length=40, help_text=_("As it is called: 125."))
    places = forms.TypedChoiceField(label=_("Places"), coerce=int)

    def __init__(self, *args: Any, division: Division, **more: Any) -> None:
        super().__init__(*args, **more)
        field = self.fields["places"]
        if isinstance(field, forms.ChoiceField):
            field.choices = [(one, str(one)) for one in places_with_points(division)]

    @classmethod
    def of(cls, weight: WeightClass, data: Any = None) -> "WeightForm":
        """The form of a weight as it stands."""
        held = {"label": weight.label, "places": weight.places, "version": weight.version}
        return cls(data, initial=held, division=weight.division)


class WeightSetForm(ActForm):
    """The button that adds one of the rule book's sets."""

    name = forms.ChoiceField(widget=forms.HiddenInput)

    def __init__(self, *args: Any, names: Sequence[str], **more: Any) -> None:
        super().__init__(*args, **more)
        field = self.fields["name"]
        if isinstance(field, forms.ChoiceField):
            field.choices = [(name, name) for name in names]
