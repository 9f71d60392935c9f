"""Team points at the desk: the table, what is behind it, adjustments."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from results.forms.points import AdjustForm, TakeBackForm
from results.models import Adjustment
from results.queries.points import TeamRow, adjustments, parts_of_team, team_table
from results.services import adjust, take_back_adjustment
from results.views.desk.page import may, require
from seeding.entries.models import Division, Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import team as team_of
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.queries import seq_of


@dataclass(frozen=True, slots=True)
class Table:
    """A division's teams from most points to fewest."""

    division: Division
    rows: tuple[TeamRow, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """An adjustment with the button that takes it back."""

    row: Adjustment
    form: TakeBackForm


@desk(Right.READ)
def points(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """The table of each division; `?team=` every part of one team's points."""
    if request.method == "POST":
        require(request, Right.DIRECT)
    form = AdjustForm.of(tournament, posted(request, "adjust"))
    if carried(request, form, lambda call: adjust(call=call, **form.values)):
        messages.success(request, _("The points are adjusted."))
        return redirect("desk-points", tournament.slug)
    if _taken_back(request, tournament):
        messages.success(request, _("The adjustment is taken back."))
        return redirect("desk-points", tournament.slug)
    key = request.GET.get("team", "")
    team = team_of(tournament, key) if key else None
    shown = {
        "tournament": tournament,
        "tables": [
            Table(one, team_table(one)) for one in Division.objects.filter(tournament=tournament)
        ],
        "lines": list(_lines(tournament)),
        "form": form if may(request, Right.DIRECT) else None,
        "team": team,
        "parts": parts_of_team(team) if team else (),
        "seq": seq_of(tournament.log_id),
    }
    return render(request, "results/desk/points.html", shown)


def _lines(tournament: Tournament) -> Iterator[Line]:
    for row in adjustments(tournament):
        yield Line(row, TakeBackForm(initial={"adjustment": row.pk}, auto_id=f"a{row.pk}_%s"))


def _taken_back(request: HttpRequest, tournament: Tournament) -> bool:
    """Whether the adjustment named is gone; a second press finds it gone already."""
    form = TakeBackForm(posted(request, "take-back"))
    if not (form.is_bound and form.is_valid()):
        return False
    row = adjustments(tournament).filter(pk=form.cleaned_data["adjustment"]).first()
    return row is None or carried(
        request, form, lambda call: take_back_adjustment(call=call, adjustment=row)
    )
