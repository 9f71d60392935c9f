"""The forms for what no bout tells: ranks, earlier places, ballots."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.core.criteria import InputKind
from seeding.core.put_in import Table, Voted, read_places, write_places
from seeding.core.put_in.places import EXAMPLES
from seeding.entries.models import Entry, Team
from seeding.journal.forms import ActForm
from seeding.queries.put_in import COACHES, QUALIFYING, Values

LABELS = {COACHES: _("Rank"), QUALIFYING: _("Qualifying place")}
PARTS = {COACHES: "rank", QUALIFYING: "place"}


class InputsForm(ActForm):
    """Every entry of a weight with a field for each table that the list reads."""

    def __init__(
        self,
        data: Any,
        *,
        entries: Iterable[Entry],
        tables: Sequence[Table],
        values: Values,
        version: int,
    ) -> None:
        super().__init__(data, initial={"version": version})
        self.entries, self.tables = list(entries), tuple(tables)
        for row in self.entries:
            for table in self.tables:
                held = values.get(row.pk, {}).get(table, {})
                label = f"{self.heading(table)}: {row.wrestler.name}"
                self.fields[self.name(table, row)] = _field(table, label, held)

    def heading(self, table: Table) -> str:
        """How the table is called above its column."""
        return str(LABELS.get(table, table.name))

    def name(self, table: Table, row: Entry) -> str:
        """The name of the field of an entry in a table."""
        return f"{PARTS.get(table) or f't{self.tables.index(table)}'}-{row.key}"

    def headings(self) -> list[tuple[str, Table]]:
        """The columns from the left."""
        return [(self.heading(table), table) for table in self.tables]

    def lines(self) -> list[tuple[Entry, list[tuple[str, forms.BoundField]]]]:
        """Each entry with its fields, each under its heading."""
        return [
            (
                row,
                [(self.heading(table), self[self.name(table, row)]) for table in self.tables],
            )
            for row in self.entries
        ]

    @property
    def wanted(self) -> Mapping[int, Mapping[Table, Mapping[str, int]]]:
        """What was typed, by the entry's id and table: the value at each weight."""
        found = self.cleaned_data
        return {
            row.pk: {table: found[self.name(table, row)] for table in self.tables}
            for row in self.entries
        }


class RankField(forms.IntegerField):
    """A rank, as the one value of a table; nothing where it is left empty."""

    def clean(self, value: Any) -> Any:
        rank = super().clean(value)
        return {} if rank is None else {"": rank}


class PlacesField(forms.CharField):
    """Places at an earlier event, by the weight at which they were won."""

    def clean(self, value: Any) -> Any:
        places = read_places(super().clean(value))
        if places is None:
            raise forms.ValidationError(
                _("Write it like one of these: %(examples)s."), params={"examples": EXAMPLES}
            )
        return {weight: place for place, weight in places}


def _field(table: Table, label: str, held: Mapping[str, int]) -> forms.Field:
    if table.kind is InputKind.RANKING:
        return RankField(
            label=label, min_value=1, max_value=999, required=False, initial=held.get("")
        )
    places = write_places((place, weight) for weight, place in held.items())
    return PlacesField(label=label, max_length=80, required=False, initial=places)


class PutInForm(ActForm):
    """A file of ranks and places, or of ballots."""

    file = forms.FileField(
        label=_("Ranks, places or ballots"),
        help_text=_("CSV or XLSX, one rank, place or vote a row."),
        allow_empty_file=True,
    )


class BallotForm(ActForm):
    """One voter's ranks of a weight."""

    voter = forms.CharField(label=_("Voter"), max_length=120)
    team = forms.ChoiceField(
        label=_("The voter's team"),
        required=False,
        help_text=_("Its wrestlers are left out of the ballot."),
    )

    def __init__(
        self,
        data: Any,
        *,
        entries: Iterable[Entry],
        teams: Iterable[Team],
        ballot: Voted | None,
        version: int,
    ) -> None:
        held: dict[str, Any] = {"version": version}
        if ballot:
            held |= {"voter": ballot.voter, "team": ballot.team}
        super().__init__(data, initial=held, auto_id="ballot_%s")
        self.entries = list(entries)
        field = self.fields["team"]
        if isinstance(field, forms.ChoiceField):
            field.choices = [("", _("none")), *((row.key, row.name) for row in teams)]
        for row in self.entries:
            self.fields[row.key] = forms.IntegerField(
                label=f"{_('Rank')}: {row.wrestler.name}",
                min_value=1,
                max_value=999,
                required=False,
                initial=ballot.ranks.get(row.key) if ballot else None,
            )

    def lines(self) -> list[tuple[Entry, forms.BoundField]]:
        """Each entry with its field."""
        return [(row, self[row.key]) for row in self.entries]

    def voted(self, weight: str) -> Voted:
        """The ballot as typed."""
        found = self.cleaned_data
        ranks = {row.key: found[row.key] for row in self.entries if found[row.key]}
        return Voted(weight, found["voter"], found["team"], ranks)
