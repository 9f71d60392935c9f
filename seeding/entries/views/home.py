"""The start of the desk: my tournaments, and a new one."""

from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from seeding.entries.forms.frame import NewTournamentForm
from seeding.entries.models import Organisation, User
from seeding.entries.permissions import visible
from seeding.entries.services import create_tournament
from seeding.entries.services.people import new_organisation
from seeding.entries.views.desk import carried
from seeding.journal.models import Act
from seeding.journal.services import Call


@login_required
def home(request: HttpRequest) -> HttpResponse:
    """The tournaments whose desk the person may enter; the form of a new one."""
    user = request.user
    if not isinstance(user, User):
        raise TypeError(user)
    form = _form(user, request.POST if request.method == "POST" else None)
    if form and carried(request, form, lambda call: _create(call, user, form)):
        messages.success(request, _("The tournament is made. Add a division and its weights."))
        return redirect("desk-weights", form.cleaned_data["slug"])
    shown = {"tournaments": visible(user.pk), "form": form}
    return render(request, "entries/home.html", shown)


def _form(user: User, data: Any) -> NewTournamentForm | None:
    """None where the person may hold no tournament."""
    if user.is_superuser:
        known = Organisation.objects.order_by("name")
        return NewTournamentForm(
            data, organisations=known, initial={"organisation": user.organisation or known.first()}
        )
    return NewTournamentForm(data, organisations=None) if user.founds else None


def _create(call: Call, user: User, form: NewTournamentForm) -> Act:
    values = form.values
    new = values.pop("new_organisation", "")
    chosen = values.pop("organisation", None)
    with transaction.atomic():
        if new:
            chosen = new_organisation(call=call, name=str(new))
        return create_tournament(call=call, organisation=chosen or user.organisation, **values)
