"""The forms of the season's intake."""

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.journal.forms import ActForm


class SeasonForm(ActForm):
    """A file of prior bouts."""

    file = forms.FileField(
        label=_("Season"), help_text=_("CSV or XLSX, one bout a row."), allow_empty_file=True
    )
