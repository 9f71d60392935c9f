"""What the head table decides against the format, and about bouts that were wrestled."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from brackets.core.drafting import (
    Wanted,
    WantedAdvance,
    WantedPlace,
    WantedResult,
    WantedSides,
)
from brackets.core.graph import BoutKey
from brackets.core.replay import Choice
from brackets.core.sources import Seat
from brackets.models import Bout
from results.queries.consequences import Choices, Preview
from results.queries.desk import full_name
from seeding.entries.models import Entry, WeightClass
from seeding.journal.forms import ActForm

WINNERS = (("0", _("Red")), ("1", _("Green")), ("none", _("Nobody")))
FORMAT, NOBODY = "", "-"
PREFIX = "choice-"


def picked(sent: Mapping[str, Any]) -> Choices:
    """What was chosen about wrestled bouts: `choice-SF-1` is that of SF-1."""
    return {
        BoutKey.parse(name.removeprefix(PREFIX)): Choice(value)
        for name, value in sent.items()
        if name.startswith(PREFIX) and value in list(Choice)
    }


def answered(look: Callable[[Choices], Preview], sent: Mapping[str, Any]) -> Preview:
    """What follows by what was chosen; `rest` is chosen for every bout not chosen yet."""
    made = dict(picked(sent))
    seen, rest = look(made), sent.get("rest")
    while rest in list(Choice):
        left = [row.key for row in seen.wrestled if row.key not in made]
        if not left:
            break
        made[left[0]] = Choice(rest)
        seen = look(made)
    return seen


def reason_field() -> forms.CharField:
    """Why. The browser asks for it wherever it stands; the service refuses an act without it."""
    return forms.CharField(
        label=_("Reason"),
        max_length=300,
        required=False,
        widget=forms.TextInput(attrs={"required": True}),
        help_text=_("Stays on record. The public does not see it."),
    )


class ChosenForm(ActForm):
    """The reason for what was chosen about wrestled bouts, and the mark of what was seen."""

    reason = reason_field()
    mark = forms.CharField(required=False, max_length=20, widget=forms.HiddenInput)

    @classmethod
    def of(cls, sent: Mapping[str, Any], do: str, version: int | None = None) -> "ChosenForm":
        """The form whose button is called `do`; after a look the reason is still in it."""
        held = {"version": version, "reason": sent.get("reason", "")}
        return cls(sent if sent.get("do") == do else None, initial=held)

    @property
    def decided(self) -> dict[str, Any]:
        """What a service takes beside the act itself."""
        return {
            "choices": picked(self.data),
            "mark": self.cleaned_data.get("mark", ""),
            "reason": self.cleaned_data.get("reason", ""),
        }


class RulingForm(ChosenForm):
    """Base of the forms of rulings."""

    @property
    def own(self) -> set[str]:
        """The fields that say what is ruled."""
        return self.fields.keys() - ChosenForm.base_fields.keys()

    def wanted(self) -> Wanted:
        """What is to be ruled."""
        raise NotImplementedError


class WinnerForm(RulingForm):
    """Who goes on as the winner of a bout."""

    name = "winner"
    winner = forms.ChoiceField(
        label=_("Who goes on as the winner?"), choices=WINNERS, widget=forms.RadioSelect
    )

    def __init__(self, data: Any, bout: Bout, **more: Any) -> None:
        super().__init__(data, auto_id="winner_%s", **more)
        self.bout = bout
        sides = [row for row in (bout.top, bout.bottom) if row]
        if isinstance(self.fields["winner"], forms.ChoiceField) and len(sides) == 2:
            names = [full_name(row) for row in sides]
            self.fields["winner"].choices = [("0", names[0]), ("1", names[1]), WINNERS[2]]

    def wanted(self) -> Wanted:
        sides: dict[str, Any] = {"0": 0, "1": 1, "none": None}
        return WantedResult(self.bout.key, sides[self.cleaned_data["winner"]])


class SeatsForm(RulingForm):
    """Who stands in a bout."""

    name = "seats"
    red = forms.ChoiceField(label=_("Red"), required=False)
    green = forms.ChoiceField(label=_("Green"), required=False)

    def __init__(self, data: Any, bout: Bout, field: Iterable[Entry], **more: Any) -> None:
        super().__init__(data, auto_id="seats_%s", **more)
        self.bout = bout
        listed = [(row.key, f"{full_name(row)} · {row.team.short}") for row in field]
        for name in ("red", "green"):
            free = [(FORMAT, str(_("as it is"))), *listed, (NOBODY, str(_("nobody")))]
            _choose(self.fields[name], free)

    def clean(self) -> dict[str, Any]:
        found = super().clean() or self.cleaned_data
        if not (found.get("red") or found.get("green")) and not self.errors:
            self.add_error("red", _("Choose somebody for one side at least."))
        return found

    def wanted(self) -> Wanted:
        red, green = self.cleaned_data["red"], self.cleaned_data["green"]
        key = self.bout.key
        if red and green:
            return WantedSides(key, (_entry(red), _entry(green)))
        return (
            WantedAdvance(Seat(key, 0), _entry(red))
            if red
            else WantedAdvance(Seat(key, 1), _entry(green))
        )


def _entry(chosen: str) -> str | None:
    return None if chosen == NOBODY else chosen


def _choose(field: forms.Field, choices: Iterable[tuple[str, str]]) -> None:
    if isinstance(field, forms.ChoiceField):
        field.choices = list(choices)


class PlaceForm(RulingForm):
    """Who has which place; nothing is chosen before a person chooses it."""

    name = "place"
    entry = forms.ChoiceField(label=_("Wrestler"))
    place = forms.ChoiceField(label=_("Place"))
    shared = forms.BooleanField(
        label=_("Shared with whoever has it"),
        required=False,
        help_text=_("Else the two change places."),
    )

    def __init__(self, data: Any, weight: WeightClass, field: Iterable[Entry], **more: Any) -> None:
        super().__init__(data, auto_id="place_%s", **more)
        listed = [(row.key, f"{full_name(row)} · {row.team.short}") for row in field]
        last = min(weight.places, len(listed))
        places = [(str(at), str(at)) for at in range(1, last + 1)]
        unchosen = ("", str(_("choose")))
        _choose(self.fields["entry"], [unchosen, *listed])
        _choose(self.fields["place"], [unchosen, *places, (NOBODY, str(_("no place")))])

    def wanted(self) -> Wanted:
        place = self.cleaned_data["place"]
        return WantedPlace(
            self.cleaned_data["entry"],
            None if place == NOBODY else int(place),
            self.cleaned_data["shared"],
        )
