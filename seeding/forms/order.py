"""The forms of the seeding room."""

from collections.abc import Iterable
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.journal.forms import ActForm


class MoveForm(ActForm):
    """The committee puts a wrestler at another place."""

    entry = forms.ChoiceField(label=_("Wrestler"))
    to = forms.IntegerField(label=_("To place"), min_value=1, max_value=999)
    reason = forms.CharField(
        label=_("Reason"), max_length=300, help_text=_("Shown with your name beside the order.")
    )

    def __init__(
        self, data: Any, *, entries: Iterable[tuple[str, str]], chosen: str, version: int
    ) -> None:
        super().__init__(data, initial={"entry": chosen, "version": version}, auto_id="move_%s")
        field = self.fields["entry"]
        if isinstance(field, forms.ChoiceField):
            field.choices = list(entries)


class CompareForm(forms.Form):
    """Any two wrestlers of the weight."""

    a = forms.ChoiceField(label=_("One"))
    b = forms.ChoiceField(label=_("Other"))

    def __init__(self, data: Any, *, entries: Iterable[tuple[str, str]]) -> None:
        super().__init__(data, auto_id="compare_%s")
        choices = list(entries)
        for place, name in enumerate(("a", "b")):
            field = self.fields[name]
            if isinstance(field, forms.ChoiceField):
                field.choices = choices
            field.initial = choices[min(place, len(choices) - 1)][0] if choices else None
