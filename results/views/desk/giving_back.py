"""Giving the results back to the organisation's season."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from results.queries.giving_back import giving_back
from results.services import give_back
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.forms import ActForm

LISTED = 200


@desk(Right.DIRECT)
def season(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """What the season would get, and the button that gives it."""
    form = ActForm(posted(request, "give"), auto_id="give_%s")
    if carried(request, form, lambda call: give_back(call=call, tournament=tournament)):
        messages.success(request, _("The season has the results of this tournament."))
        return redirect("desk-giving-back", tournament.slug)
    plan = giving_back(tournament)
    shown = {"tournament": tournament, "plan": plan, "form": form}
    shown["corrected"] = plan.corrected[:LISTED]
    shown["gone"] = plan.gone[:LISTED]
    return render(request, "results/desk/giving_back.html", shown)
