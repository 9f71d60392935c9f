"""The weigh-in of a tournament and late changes: looked at first, done afterwards."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from django import forms
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from brackets.queries import Starter
from results.core.late import Newcomer
from results.forms.people import open_teams
from results.queries.desk import full_name
from results.queries.weigh_in import unnamed
from results.services.late import LateEntry
from seeding.entries.models import Division, Entry, Team, Tournament, WeightClass
from seeding.entries.services.weighing import Weighed
from seeding.journal.forms import ActForm

BY_LOT, ANEW = "lot", "redraw"
REASON = _(
    "Stays on record, and the public does not see it, unless a committed draw is made anew by it: "
    "then it is published. Never write a diagnosis here."
)


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One entry of the sheet with its fields."""

    entry: Entry
    state: forms.BoundField
    weight: forms.BoundField
    seen: forms.BoundField

    @property
    def unnamed(self) -> bool:
        return unnamed(self.entry)


class SheetForm(ActForm):
    """The weigh-in of many entries; only rows that were changed are recorded."""

    def __init__(self, data: Any, *, entries: Iterable[Entry], weights: Iterable[WeightClass]):
        self.entries = tuple(entries)
        self.weights = {row.key: row for row in weights}
        super().__init__(data, auto_id="w_%s")
        self.fields["rest"] = forms.BooleanField(
            label=_("All who still stand on “not yet” made weight"), required=False
        )
        for entry in self.entries:
            self._add(entry)

    def _add(self, entry: Entry) -> None:
        name = {"name": full_name(entry)}
        others = [
            (key, row.label)
            for key, row in self.weights.items()
            if row.division_id == entry.weight_class.division_id and row.pk != entry.weight_class_id
        ]
        made = entry.weighed_as.key if entry.weighed_as else ""
        state = forms.ChoiceField(choices=Entry.WeighIn.choices, initial=entry.weigh_in)
        weight = forms.ChoiceField(choices=[("", ""), *others], initial=made, required=False)
        state.widget.attrs["aria-label"] = _("Weigh-in of %(name)s") % name
        weight.widget.attrs["aria-label"] = _("Weight that %(name)s made instead") % name
        self.fields[f"{entry.key}.state"] = state
        self.fields[f"{entry.key}.weight"] = weight
        self.fields[f"{entry.key}.seen"] = forms.IntegerField(
            required=False, widget=forms.HiddenInput, initial=entry.version
        )

    @property
    def rows(self) -> Iterator[SheetRow]:
        """The fields of each entry."""
        for entry in self.entries:
            parts = (self[f"{entry.key}.{part}"] for part in ("state", "weight", "seen"))
            yield SheetRow(entry, *parts)

    @property
    def changed(self) -> dict[str, Weighed]:
        """What was entered in the rows that differ from what is known."""
        found = {}
        for entry in self.entries:
            state, key, seen = (
                self.cleaned_data[f"{entry.key}.{part}"] for part in ("state", "weight", "seen")
            )
            if state == Entry.WeighIn.NOT_YET and self.cleaned_data["rest"]:
                state = Entry.WeighIn.MADE.value
            weight = self.weights.get(key) if state == Entry.WeighIn.WRONG else None
            if (state, weight and weight.pk) != (entry.weigh_in, entry.weighed_as_id):
                found[entry.key] = Weighed(state, weight, seen)
        return found


class DoneForm(ActForm):
    """The button that does what is shown under `mark`."""

    reason = forms.CharField(label=_("Reason"), max_length=300, help_text=REASON)
    mark = forms.CharField(max_length=16, widget=forms.HiddenInput)

    @classmethod
    def of(cls, data: Any, *, needs_reason: bool) -> "DoneForm":
        """The form as it was sent, or an empty one."""
        form = cls(data, auto_id="act_%s")
        form.fields["reason"].required = needs_reason
        return form

    def show(self, mark: str, version: int) -> None:
        """Stand under the preview of this mark, beside a refusal with what was typed."""
        self.initial = {"mark": mark, "version": version}
        if self.is_bound:
            self.look_again(version)
            self.data = {**self.data, "mark": mark}


class WithdrawnForm(DoneForm):
    """The button that takes somebody out as it is shown."""

    reason = forms.CharField(
        label=_("Note"),
        max_length=300,
        required=False,
        help_text=_("For the desk only. No diagnosis: it does not belong here."),
    )


class LateEntryForm(forms.Form):
    """Who comes late, for which team, and after the draw onto what."""

    given = forms.CharField(label=_("Given name"), max_length=80, required=False)
    family = forms.CharField(label=_("Family name"), max_length=80)
    team = forms.ModelChoiceField(
        label=_("Team"), queryset=Team.objects.none(), to_field_name="key"
    )
    where = forms.ChoiceField(label=_("Where to"))
    lot_seed = forms.CharField(
        label=_("Lot seed"),
        max_length=64,
        required=False,
        help_text=_("Left empty, one is made. It is recorded, and the same seed draws the same."),
    )

    @classmethod
    def of(
        cls, weight: WeightClass, free: Sequence[int], data: Any, *, anew: bool
    ) -> "LateEntryForm":
        """The form of a weight; where it is drawn, `free`: the lines that could be had, `anew`:
        whether it could be drawn anew.
        """
        form = cls(data, auto_id="late_%s")
        team, where = form.fields["team"], form.fields["where"]
        if isinstance(team, forms.ModelChoiceField):
            team.queryset = open_teams(weight.tournament)
        if not weight.locked:
            del form.fields["where"], form.fields["lot_seed"]
        elif isinstance(where, forms.ChoiceField):
            lines = [(str(at), _("line %(n)s, a bye") % {"n": at}) for at in free]
            lot = [(BY_LOT, _("a free line by lot"))] if free else []
            again = [(ANEW, _("the weight is drawn anew"))] if anew else []
            where.choices = [*lot, *lines, *again]
        return form

    @property
    def late(self) -> LateEntry:
        """What was entered."""
        said = self.cleaned_data
        where = said.get("where", "")
        return LateEntry(
            team=said["team"],
            person=Newcomer(said["given"], said["family"]),
            line=int(where) if where.isdecimal() else None,
            lot_seed=said.get("lot_seed", ""),
            redraw=where == ANEW,
        )


class SwapForm(forms.Form):
    """Two lines that change places."""

    one = forms.ChoiceField(label=_("This line"))
    other = forms.ChoiceField(label=pgettext_lazy("a line", "and this one"))

    @classmethod
    def of(cls, lines: Sequence[Starter], data: Any) -> "SwapForm":
        """The form of a weight's lines."""
        form = cls(data, auto_id="swap_%s")
        listed = [(str(line.line), _in_words(line)) for line in lines]
        for name, (first, _words) in zip(("one", "other"), listed, strict=False):
            field, form.initial[name] = form.fields[name], first
            if isinstance(field, forms.ChoiceField):
                field.choices = listed
        return form

    @property
    def lines(self) -> tuple[int, int]:
        """The two lines."""
        return int(self.cleaned_data["one"]), int(self.cleaned_data["other"])


def _in_words(line: Starter) -> str:
    names = " / ".join(f"{full_name(row)} ({row.team.short})" for row in line.entries)
    return f"{line.line}: {names or _('bye')}"


class CutOffForm(ActForm):
    """From when on an empty place is a forfeit and not a bye."""

    division = forms.ModelChoiceField(
        label=_("For"),
        queryset=Division.objects.none(),
        required=False,
        to_field_name="key",
        empty_label=_("all divisions that have none of their own"),
    )
    at = forms.DateTimeField(
        label=_("Cut-off"),
        required=False,
        input_formats=["%Y-%m-%dT%H:%M", "%Y-%m-%d %H:%M"],
        widget=forms.DateTimeInput(attrs={"type": "datetime-local"}, format="%Y-%m-%dT%H:%M"),
    )

    def __init__(self, data: Any, *, tournament: Tournament) -> None:
        self.zone = ZoneInfo(tournament.time_zone)
        super().__init__(data, auto_id="cut_%s")
        division = self.fields["division"]
        if isinstance(division, forms.ModelChoiceField):
            division.queryset = Division.objects.filter(tournament=tournament)
        hint = _("Time of the tournament, %(zone)s. Left empty: none is stated.")
        self.fields["at"].help_text = hint % {"zone": tournament.time_zone}

    def clean_at(self) -> datetime | None:
        """The time as typed is that of the tournament, whatever the zone of the site."""
        found: datetime | None = self.cleaned_data["at"]
        return found.replace(tzinfo=self.zone) if found else None
