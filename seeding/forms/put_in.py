"""The forms for what no bout tells."""

from collections.abc import Iterable, Mapping
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.entries.models import Entry
from seeding.journal.forms import ActForm


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
