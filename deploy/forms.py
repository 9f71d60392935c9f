"""The form of the sign-in page."""

from django import forms
from django.contrib.auth.forms import AuthenticationForm, UsernameField
from django.utils.translation import gettext_lazy as _


class SignInForm(AuthenticationForm):
    """Who signs in, in the words of the page of roles."""

    username = UsernameField(
        label=_("Sign-in name"), widget=forms.TextInput(attrs={"autofocus": True})
    )
