"""The forms of the seeding room and of the season's intake."""

from collections.abc import Iterable, Mapping
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.entries.models import Entry
from seeding.journal.forms import ActForm


class MoveForm(ActForm):
    """The committee puts a wrestler at another place."""

    entry = forms.ChoiceField(label=_("Wrestler"))
    to = forms.IntegerField(label=_("To place"), min_value=1, max_value=999)
    reason = forms.CharField(
        label=_("Reason"), max_length=300, help_text=_("Shown with your name beside the order.")
    )

    def __init__(
        self, data: Any, *, entries: Iterable[tuple[str, str]], chosen: str, version: int
    ) -> None:
        super().__init__(data, initial={"entry": chosen, "version": version}, auto_id="move_%s")
        field = self.fields["entry"]
        if isinstance(field, forms.ChoiceField):
            field.choices = list(entries)


class CompareForm(forms.Form):
    """Any two wrestlers of the weight."""

    a = forms.ChoiceField(label=_("One"))
    b = forms.ChoiceField(label=_("Other"))

    def __init__(self, data: Any, *, entries: Iterable[tuple[str, str]]) -> None:
        super().__init__(data, auto_id="compare_%s")
        choices = list(entries)
        for place, name in enumerate(("a", "b")):
            field = self.fields[name]
            if isinstance(field, forms.ChoiceField):
                field.choices = choices
            field.initial = choices[min(place, len(choices) - 1)][0] if choices else None


class InputsForm(ActForm):
    """What no bout tells: rank and qualifying place of every entry of the weight."""

    def __init__(self, data: Any, *, entries: Iterable[Entry], version: int) -> None:
        super().__init__(data, initial={"version": version})
        self.entries = list(entries)
        for row in self.entries:
            for part, value in (("rank", row.rank), ("place", row.qualifying_place)):
                name = f"{row.wrestler.given} {row.wrestler.family}"
                self.fields[f"{part}-{row.key}"] = forms.IntegerField(
                    label=f"{LABELS[part]}: {name}",
                    min_value=1,
                    max_value=999,
                    required=False,
                    initial=value,
                )

    def lines(self) -> list[tuple[Entry, forms.BoundField, forms.BoundField]]:
        """Each entry with its two fields."""
        return [(row, self[f"rank-{row.key}"], self[f"place-{row.key}"]) for row in self.entries]

    @property
    def by_entry(self) -> Mapping[int, tuple[int | None, int | None]]:
        """Rank and place as typed, by the entry's id."""
        found = self.cleaned_data
        return {
            row.pk: (found[f"rank-{row.key}"], found[f"place-{row.key}"]) for row in self.entries
        }


LABELS = {"rank": _("Rank"), "place": _("Qualifying place")}


class SeasonForm(ActForm):
    """A file of prior bouts."""

    file = forms.FileField(
        label=_("Season"), help_text=_("CSV or XLSX, one bout a row."), allow_empty_file=True
    )
