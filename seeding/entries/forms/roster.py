"""A roster file."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.entries.models import Division, Tournament
from seeding.journal.forms import ActForm


class RosterForm(ActForm):
    """The file, the division that it is for, and whether it may bring teams."""

    division = forms.ModelChoiceField(
        label=_("Division"), queryset=Division.objects.none(), empty_label=None
    )
    file = forms.FileField(
        label=_("Roster"), help_text=_("CSV or XLSX, one wrestler a row."), allow_empty_file=True
    )
    strict = forms.BooleanField(
        label=_("Only teams that are here already"),
        required=False,
        help_text=_("A team that is not known is then a problem, and is not added."),
    )

    def __init__(self, *args: Any, tournament: Tournament, **more: Any) -> None:
        super().__init__(*args, **more)
        field = self.fields["division"]
        divisions = Division.objects.filter(tournament=tournament)
        if isinstance(field, forms.ModelChoiceField):
            field.queryset = divisions
        if divisions.count() == 1:
            field.initial = divisions.first()
            field.widget = forms.HiddenInput()
