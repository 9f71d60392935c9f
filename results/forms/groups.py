"""Wrestlers who leave a group formed after weigh-in."""

from collections.abc import Iterable
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.entries.queries.groups import GroupSeen, Member
from seeding.entries.templatetags.groups import figure
from seeding.journal.forms import ActForm

NEW = "new group"


def in_line(one: Member, unit: str) -> str:
    """A member as he stands in a list to choose from."""
    known = f" · {figure(one.figures.weight)} {unit}" if one.figures.weight is not None else ""
    return f"{one.entry.wrestler.name} · {one.entry.team.short}{known}"


def in_words(group: GroupSeen, unit: str) -> str:
    """A group as it stands in a list to choose from: how many, the lightest and the heaviest."""
    found = [one.figures.weight for one in group.members if one.figures.weight is not None]
    label, n = group.weight.label, len(group.members)
    if not found:
        return f"{label} · {n}"
    span = dict.fromkeys((figure(min(found)), figure(max(found))))
    return f"{label} · {n} · {' to '.join(span)} {unit}"


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
        cls, here: GroupSeen, others: Iterable[GroupSeen], unit: str, data: Any = None
    ) -> "LeavingForm":
        """The form of one group's members and the division's other groups."""
        form = cls(data, auto_id="leave_%s")
        entries, target = form.fields["entries"], form.fields["target"]
        if isinstance(entries, forms.MultipleChoiceField):
            entries.choices = [(one.entry.key, in_line(one, unit)) for one in here.members]
        if isinstance(target, forms.ChoiceField):
            known = [(one.weight.key, in_words(one, unit)) for one in others]
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
