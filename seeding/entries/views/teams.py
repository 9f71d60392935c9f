"""Teams: add, edit, co-operative members. Merging and moving touch points and stand elsewhere."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from seeding.entries import queries
from seeding.entries.forms.entry import TeamForm
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.services import add_team, edit_team
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.models import Act
from seeding.journal.services import Call


@desk(Right.DIRECT)
def teams(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Every team with its count of entries; a new one."""
    form = TeamForm(posted(request, "add"))

    def add(call: Call) -> Act:
        return add_team(call=call, tournament=tournament, **form.fill_short(tournament))

    if carried(request, form, add):
        messages.success(request, _("%(team)s is added.") % {"team": form.cleaned_data["name"]})
        return redirect("desk-teams", tournament.slug)
    shown = {"tournament": tournament, "teams": queries.teams(tournament), "form": form}
    return render(request, "entries/teams.html", shown)


@desk(Right.DIRECT)
def team(request: HttpRequest, tournament: Tournament, key: str) -> HttpResponse:
    """One team."""
    row = queries.team(tournament, key)
    held = {"name": row.name, "short": row.short, "members": "\n".join(row.members)}
    form = TeamForm(posted(request, "edit"), initial=held)

    def edit(call: Call) -> Act:
        return edit_team(call=call, team=row, **form.fill_short(tournament))

    if carried(request, form, edit):
        messages.success(request, _("Saved."))
        return redirect("desk-teams", tournament.slug)
    shown = {"tournament": tournament, "team": row, "form": form}
    return render(request, "entries/team.html", shown)
