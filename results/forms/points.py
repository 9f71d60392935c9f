"""Points given or taken by hand."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.entries.models import Division, Team, Tournament
from seeding.journal.forms import ActForm


class AdjustForm(ActForm):
    """Points for a team in a division, with the reason that stands beside them."""

    division = forms.ModelChoiceField(
        label=_("Division"), queryset=Division.objects.none(), empty_label=None
    )
    team = forms.ModelChoiceField(label=_("Team"), queryset=Team.objects.none())
    points = forms.DecimalField(
        label=_("Points"),
        max_digits=6,
        decimal_places=2,
        help_text=_("With a minus to take points away: -1."),
    )
    reason = forms.CharField(
        label=_("Reason"),
        max_length=300,
        help_text=_("The public reads it beside the points; name no wrestler."),
    )

    @classmethod
    def of(cls, tournament: Tournament, data: Any = None) -> "AdjustForm":
        """The form of a tournament; with one division there is nothing to choose."""
        form = cls(data, auto_id="adjust_%s")
        divisions = Division.objects.filter(tournament=tournament)
        _choose(form.fields["division"], divisions)
        _choose(form.fields["team"], Team.objects.filter(tournament=tournament, merged_into=None))
        if divisions.count() == 1:
            form.fields["division"].initial = divisions.first()
            form.fields["division"].widget = forms.HiddenInput()
        return form


def _choose(field: forms.Field, rows: Any) -> None:
    if isinstance(field, forms.ModelChoiceField):
        field.queryset = rows


class TakeBackForm(ActForm):
    """The button that takes an adjustment back."""

    adjustment = forms.IntegerField(widget=forms.HiddenInput)
