"""Drawing, and sending a bout to a mat."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from brackets.models import Bout
from brackets.queries import find_drawn
from brackets.queries.commitment import commitment_of
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
        """The form of a weight as it stands; a committed draw asks for no seed."""
        form = cls(data, initial={"version": weight.version})
        if commitment_of(weight.tournament):
            del form.fields["lot_seed"]
        return form


class TakeBackForm(ActForm):
    """Taking a draw back; of a committed one it is published why."""

    reason = forms.CharField(
        label=_("Reason"),
        max_length=300,
        help_text=_("Published with the next draw: this one was committed to."),
    )

    @classmethod
    def of(cls, weight: WeightClass, data: Any = None) -> "TakeBackForm":
        """The form of a weight as it stands; without a commitment nobody asks why."""
        form = cls(data, initial={"version": weight.version}, auto_id="back_%s")
        row = find_drawn(weight)
        if not (row and row.committed):
            del form.fields["reason"]
        return form


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
