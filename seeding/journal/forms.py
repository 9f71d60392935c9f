"""The form of an act: carries its idempotency key and the version that the person saw."""

import secrets

from django import forms


class ActForm(forms.Form):
    """Base of every form that writes.

    `key` makes a second press of the button the same act; `version` refuses a change over somebody
    else's. Both are hidden and optional.
    """

    key = forms.CharField(required=False, max_length=80, widget=forms.HiddenInput)
    version = forms.IntegerField(required=False, widget=forms.HiddenInput)

    def get_initial_for_field(self, field: forms.Field, field_name: str) -> object:
        value = super().get_initial_for_field(field, field_name)
        return secrets.token_hex(12) if field_name == "key" and not value else value

    def look_again(self, version: int) -> None:
        """Carry the version that is shown beside a refusal: who presses again has seen it."""
        if self.is_bound:
            self.data = dict(self.data.items()) | {"version": str(version)}

    @property
    def values(self) -> dict[str, object]:
        """What was entered, without the act's own fields."""
        own = {"key", "version"}
        return {name: value for name, value in self.cleaned_data.items() if name not in own}
