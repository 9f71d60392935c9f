"""Wrestlers who leave a group formed after weigh-in."""

from collections.abc import Iterable
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.entries.models import WeightClass
from seeding.entries.queries.groups import GroupSeen, Member
from seeding.entries.templatetags.groups import figure
from seeding.journal.forms import ActForm

NEW = "new group"


def in_line(one: Member, unit: str) -> str:
    """A member as he stands in a list to choose from."""
    known = f" · {figure(one.figures.weight)} {unit}" if one.figures.weight is not None else ""
    return f"{one.entry.wrestler.name} · {one.entry.team.short}{known}"


class LeavingForm(forms.Form):
    """Who leaves a group, and where to: shown first, done afterwards."""

    entries = forms.MultipleChoiceField(
        label=_("Who leaves"),
        widget=forms.CheckboxSelectMultiple,
        help_text=_("Everybody to another group: the two are merged. Some to a new one: a split."),
    )
    target = forms.ChoiceField(label=_("Where to"))

    @classmethod
    def of(
        cls, here: GroupSeen, others: Iterable[WeightClass], unit: str, data: Any = None
    ) -> "LeavingForm":
        """The form of one group's members and the division's other groups."""
        form = cls(data, auto_id="leave_%s")
        entries, target = form.fields["entries"], form.fields["target"]
        if isinstance(entries, forms.MultipleChoiceField):
            entries.choices = [(one.entry.key, in_line(one, unit)) for one in here.members]
        if isinstance(target, forms.ChoiceField):
            known = [(row.key, row.label) for row in others]
            target.choices = [*known, (NEW, _("a new group"))]
        return form


class RegroupForm(ActForm):
    """The button that does what is shown."""

    reason = forms.CharField(
        label=_("Reason"),
        max_length=300,
        required=False,
        error_messages={"required": _("A limit would be broken: say why it is right here.")},
        help_text=_("Needed where a limit is broken. For the desk only."),
    )
