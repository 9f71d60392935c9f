"""The forms of the season's intake."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.journal.forms import ActForm
from seeding.services.season import Word


class SeasonForm(ActForm):
    """A file of prior bouts."""

    file = forms.FileField(
        label=_("Season"), help_text=_("CSV or XLSX, one bout a row."), allow_empty_file=True
    )


WORDS = ((Word.KNOWN, _("what is known stays")), (Word.FILE, _("the file is right")))


class KeepForm(ActForm):
    """Keep a season that was read: whose word stands where it contradicts known bouts."""

    def __init__(self, data: Any, *, contradicted: Iterable[Mapping[str, str]]) -> None:
        super().__init__(data, auto_id="keep_%s")
        self.contradicted = list(contradicted)
        if self.contradicted:
            self.fields["word"] = forms.ChoiceField(
                label=_("Where the file contradicts a known bout"),
                choices=WORDS,
                initial=Word.KNOWN,
                widget=forms.RadioSelect,
            )
        for one in self.contradicted:
            self.fields[f"row-{one['identity']}"] = forms.ChoiceField(
                label=_("Who is right"),
                choices=(("", _("as chosen for all")), *WORDS),
                required=False,
            )

    def rows(self) -> Iterator[tuple[Mapping[str, str], forms.BoundField]]:
        """Each contradiction with its own choice."""
        return ((one, self[f"row-{one['identity']}"]) for one in self.contradicted)

    @property
    def chosen(self) -> Word:
        return Word(self.cleaned_data.get("word", Word.KNOWN))

    @property
    def otherwise(self) -> list[str]:
        """The bouts in which not the word chosen for all stands."""
        found = self.cleaned_data
        marks = [one["identity"] for one in self.contradicted]
        return [mark for mark in marks if found[f"row-{mark}"] not in ("", self.chosen)]


class PairForm(ActForm):
    """A judgement on two wrestlers whose names are alike."""

    one = forms.CharField(max_length=40, widget=forms.HiddenInput)
    other = forms.CharField(max_length=40, widget=forms.HiddenInput)


class StrikeForm(ActForm):
    """Take a bout out of the season."""

    bout = forms.IntegerField(widget=forms.HiddenInput)
    reason = forms.CharField(label=_("Why it is struck"), max_length=300)


class BoutForm(ActForm):
    """Let a struck bout count again."""

    bout = forms.IntegerField(widget=forms.HiddenInput)


class BothForm(ActForm):
    """Judge that two bouts are two bouts."""

    one = forms.IntegerField(widget=forms.HiddenInput)
    other = forms.IntegerField(widget=forms.HiddenInput)
