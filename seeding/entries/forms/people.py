"""Users and their roles."""

from django import forms
from django.utils.translation import gettext_lazy as _

from seeding.entries.models import Role
from seeding.journal.forms import ActForm


class RoleForm(ActForm):
    """A role for somebody who can sign in already."""

    username = forms.CharField(label=_("Sign-in name"), max_length=150)
    role = forms.ChoiceField(label=_("Role"), choices=Role.Name.choices, initial=Role.Name.READER)


class NewUserForm(RoleForm):
    """Somebody new, with a first password."""

    field_order = ("username", "password", "role")
    password = forms.CharField(
        label=_("First password"),
        max_length=128,
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        help_text=_("At least eight characters, not only digits and no common word."),
    )
