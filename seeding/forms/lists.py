"""Choosing the list of criteria of a division."""

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.journal.forms import ActForm
from seeding.rulebooks import lists, rules_of_list


def titles() -> list[tuple[str, str]]:
    """Every list of the program by the name that it gives itself."""
    return sorted(((name, rules_of_list(name).name) for name in lists()), key=lambda one: one[1])


class ListForm(ActForm):
    """One of the program's lists."""

    name = forms.ChoiceField(label=_("List"), choices=titles)


class ListFileForm(ActForm):
    """A list of one's own."""

    file = forms.FileField(
        label=_("File of criteria"),
        help_text=_("TOML with the one section [seeding], as in the files of the lists above."),
        allow_empty_file=True,
    )

    def clean_file(self) -> tuple[str, str]:
        """Name and text of the file."""
        file = self.cleaned_data["file"]
        try:
            return file.name, file.read().decode("utf-8-sig")
        except UnicodeDecodeError as error:
            raise forms.ValidationError(_("The file is not UTF-8 text.")) from error
