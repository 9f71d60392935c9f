"""Who may do what in a tournament."""

from collections.abc import Callable
from dataclasses import dataclass

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from seeding.entries import queries
from seeding.entries.forms.people import NewUserForm, RoleForm
from seeding.entries.models import Role, Tournament
from seeding.entries.permissions import Right
from seeding.entries.services import add_person, give_role, take_role
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.forms import ActForm
from seeding.journal.models import Act
from seeding.journal.services import Call


@dataclass(frozen=True, slots=True)
class Line:
    """One role with the form that takes it away."""

    role: Role
    form: ActForm


@desk(Right.OWN)
def people(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """The roles given; give one, to somebody known or to somebody new."""
    give = RoleForm(posted(request, "give"), auto_id="give_%s")
    new = NewUserForm(posted(request, "new"), auto_id="new_%s")
    lines = [
        Line(role, ActForm(posted(request, f"take-{role.pk}"), auto_id=f"take{role.pk}_%s"))
        for role in queries.roles(tournament)
    ]
    acts: list[tuple[ActForm, Callable[[Call], Act]]] = [
        (give, lambda call: _give(call, tournament, give)),
        (new, lambda call: _add(call, tournament, new)),
        *((line.form, _taker(tournament, line.role)) for line in lines),
    ]
    for form, do in acts:
        if carried(request, form, do):
            messages.success(request, _("Saved."))
            return redirect("desk-people", tournament.slug)
    shown = {"tournament": tournament, "lines": lines, "give": give, "new": new}
    return render(request, "entries/people.html", shown)


def _give(call: Call, tournament: Tournament, form: RoleForm) -> Act:
    values = form.cleaned_data
    user = queries.user(values["username"])
    return give_role(call=call, tournament=tournament, user=user, name=values["role"])


def _add(call: Call, tournament: Tournament, form: NewUserForm) -> Act:
    values = form.cleaned_data
    return add_person(
        call=call,
        tournament=tournament,
        username=values["username"],
        password=values["password"],
        name=values["role"],
    )


def _taker(tournament: Tournament, role: Role) -> Callable[[Call], Act]:
    return lambda call: take_role(call=call, tournament=tournament, user=role.user)
