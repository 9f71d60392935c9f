"""Which members of the committee belong to which teams."""

from collections.abc import Callable

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import team as team_of
from seeding.entries.queries import teams as teams_of
from seeding.entries.views.desk import carried, desk, posted
from seeding.forms.order import OwnTeamsForm
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.queries.recusal import Member, members
from seeding.services import set_own_teams


@desk(Right.DIRECT)
def recusals(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Everybody who may act in the seeding room, with his own teams."""
    teams = list(teams_of(tournament))
    lines = [
        (
            one,
            OwnTeamsForm(
                posted(request, f"own-{one.user.pk}"),
                teams=teams,
                chosen=[team.key for team in one.teams],
                auto_id=f"own{one.user.pk}_%s",
            ),
        )
        for one in members(tournament)
    ]
    for member, form in lines:
        if carried(request, form, _setter(tournament, member, form)):
            messages.success(request, _("Saved."))
            return redirect("desk-recusals", tournament.slug)
    return render(request, "seeding/recusals.html", {"tournament": tournament, "lines": lines})


def _setter(tournament: Tournament, member: Member, form: OwnTeamsForm) -> Callable[[Call], Act]:
    return lambda call: set_own_teams(
        call=call,
        tournament=tournament,
        user=member.user,
        teams=[team_of(tournament, key) for key in form.cleaned_data["teams"]],
    )
