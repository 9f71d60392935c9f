"""Drawing, and sending a bout to a mat."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from brackets.models import Bout
from seeding.entries.models import Tournament, WeightClass
from seeding.journal.forms import ActForm


class DrawForm(ActForm):
    """The draw of one weight.

    A lot seed of one's own repeats a draw, or uses a number that was drawn before witnesses.
    """

    lot_seed = forms.CharField(
        label=_("Lot seed"),
        max_length=64,
        required=False,
        help_text=_("Left empty, one is made. It is recorded, and the same seed draws the same."),
    )

    @classmethod
    def of(cls, weight: WeightClass, data: Any = None) -> "DrawForm":
        """The form of a weight as it stands."""
        return cls(data, initial={"version": weight.version})


class SendForm(ActForm):
    """A bout and the mat that it is sent to."""

    number = forms.IntegerField(label=_("Bout"), min_value=1)
    mat = forms.ChoiceField(label=_("To mat"))

    @classmethod
    def of(cls, tournament: Tournament, bout: Bout | None, data: Any = None) -> "SendForm":
        """The form for a bout, or where none is chosen for one whose number is typed in."""
        held = {"number": bout.number, "version": bout.version, "mat": bout.mat} if bout else {}
        form = cls(data, initial=held, auto_id="send_%s")
        if bout:
            form.fields["number"].widget = forms.HiddenInput()
        field = form.fields["mat"]
        if isinstance(field, forms.ChoiceField):
            field.choices = [(mat, mat) for mat in tournament.mats]
        return form
