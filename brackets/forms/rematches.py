"""What the table of rematches is asked for."""

from collections.abc import Mapping

from django import forms
from django.utils.translation import gettext_lazy

from brackets.core.rules import PLACES, BracketRules, Wrestleback
from brackets.queries.rematches import CROSSINGS, Asked, sizes_of
from brackets.queries.words import crossing_name, wrestlebacks


class RematchForm(forms.Form):
    """A format of a division: lines, places, who wrestles back, crossing."""

    lines = forms.TypedChoiceField(label=gettext_lazy("Entries"), coerce=int)
    places = forms.TypedChoiceField(label=gettext_lazy("Places"), coerce=int)
    wrestleback = forms.TypedChoiceField(
        label=gettext_lazy("Who wrestles back"), coerce=Wrestleback
    )
    crossing = forms.ChoiceField(label=gettext_lazy("Crossing of every round"))

    @classmethod
    def of(cls, rules: BracketRules, sent: Mapping[str, str]) -> "RematchForm":
        """With what was sent, else with what the rule book says."""
        usual = Asked.usual(rules)
        start = {
            "lines": usual.lines,
            "places": usual.places,
            "wrestleback": str(usual.wrestleback),
            "crossing": usual.crossing,
        }
        form = cls({**start, **sent})
        choices: Mapping[str, list[tuple[object, str]]] = {
            "lines": [(one, str(one)) for one in sizes_of(rules)],
            "places": [(one, str(one)) for one in PLACES],
            "wrestleback": [(str(one), words) for one, words in wrestlebacks().items()],
            "crossing": [(one, crossing_name(one)) for one in CROSSINGS],
        }
        for name, found in choices.items():
            field = form.fields[name]
            if isinstance(field, forms.ChoiceField):
                field.choices = found
        return form

    @property
    def asked(self) -> Asked:
        return Asked(**self.cleaned_data)
