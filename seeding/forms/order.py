"""The forms of the seeding room: moves, challenges, signatures, own teams."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.entries.models import Team
from seeding.journal.forms import ActForm

Choices = Iterable[tuple[str, str]]


class MoveForm(ActForm):
    """The committee puts a wrestler at another place."""

    entry = forms.ChoiceField(label=_("Wrestler"))
    to = forms.IntegerField(label=_("To place"), min_value=1, max_value=999)
    reason = forms.CharField(
        label=_("Reason"), max_length=300, help_text=_("Shown with your name beside the order.")
    )

    def __init__(self, data: Any, *, entries: Choices, chosen: str, version: int) -> None:
        super().__init__(data, initial={"entry": chosen, "version": version}, auto_id="move_%s")
        choose(self, "entry", entries)


class CompareForm(forms.Form):
    """Any two wrestlers of the weight."""

    a = forms.ChoiceField(label=_("One"))
    b = forms.ChoiceField(label=_("Other"))

    def __init__(self, data: Any, *, entries: Choices) -> None:
        super().__init__(data, auto_id="compare_%s")
        choices = list(entries)
        for place, name in enumerate(("a", "b")):
            choose(self, name, choices)
            first = choices[min(place, len(choices) - 1)][0] if choices else None
            self.fields[name].initial = first


class WindowForm(ActForm):
    """Until when challenges are heard, by the clock of the tournament."""

    until = forms.DateTimeField(
        label=_("Until"),
        input_formats=["%Y-%m-%dT%H:%M", "%Y-%m-%d %H:%M"],
        widget=forms.DateTimeInput(attrs={"type": "datetime-local"}, format="%Y-%m-%dT%H:%M"),
    )

    def __init__(self, data: Any, *, until: datetime, zone: str, version: int) -> None:
        self.zone = ZoneInfo(zone)
        local = until.astimezone(self.zone).replace(tzinfo=None, second=0, microsecond=0)
        super().__init__(data, initial={"until": local, "version": version}, auto_id="window_%s")
        self.fields["until"].help_text = _("Time of the tournament, %(zone)s.") % {"zone": zone}

    def clean_until(self) -> datetime:
        """The time as typed is that of the tournament, whatever the zone of the site."""
        found: datetime = self.cleaned_data["until"]
        return found.replace(tzinfo=self.zone)


class ChallengeForm(ActForm):
    """A coach asks to have his wrestler put above another."""

    entry = forms.ChoiceField(label=_("Wrestler"))
    over = forms.ChoiceField(label=_("Above"))
    by = forms.CharField(label=_("Asked by"), max_length=120)
    reason = forms.CharField(label=_("Why"), max_length=300)

    def __init__(self, data: Any, *, entries: Choices, version: int) -> None:
        choices = list(entries)
        first = dict(zip(("over", "entry"), (value for value, _name in choices), strict=False))
        super().__init__(data, initial={"version": version, **first}, auto_id="challenge_%s")
        for name in ("entry", "over"):
            choose(self, name, choices)


class AnswerForm(ActForm):
    """What the committee says to a challenge."""

    answer = forms.CharField(label=_("Answer"), max_length=300)


class SignForm(ActForm):
    """A signature under the minutes that were shown; `digest` names them."""

    name = forms.CharField(label=_("Your full name"), max_length=120)
    digest = forms.CharField(max_length=64, widget=forms.HiddenInput)


class OwnTeamsForm(ActForm):
    """The teams that a member of the committee belongs to."""

    teams = forms.MultipleChoiceField(
        label=_("Own teams"), required=False, widget=forms.CheckboxSelectMultiple
    )

    def __init__(
        self, data: Any, *, teams: Iterable[Team], chosen: Iterable[str], auto_id: str
    ) -> None:
        super().__init__(data, initial={"teams": list(chosen)}, auto_id=auto_id)
        field = self.fields["teams"]
        if isinstance(field, forms.MultipleChoiceField):
            field.choices = [(team.key, team.name) for team in teams]


def choose(form: forms.Form, name: str, choices: Choices) -> None:
    """Give a field of choice its choices."""
    field = form.fields[name]
    if isinstance(field, forms.ChoiceField):
        field.choices = list(choices)
