"""The overview of the head table."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _

from results.queries.overview import overview
from results.queries.papers import sheet_jobs
from results.queries.stranded import stranded
from results.services import order_sheets
from results.views.desk.page import followed
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.forms import ActForm


@desk(Right.READ)
def home(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """What to do next, how far everything is, and the sheets on paper."""
    form = ActForm(posted(request, "sheets"), auto_id="sheets_%s")
    if carried(request, form, lambda call: order_sheets(call=call, tournament=tournament)):
        messages.success(request, _("The sheets are being made."))
        return redirect("desk-sheets", tournament.slug)
    shown = {
        "tournament": tournament,
        "overview": overview(tournament),
        "stranded": stranded(tournament),
        "form": form,
        "jobs": sheet_jobs(tournament)[:1],
    }
    return followed(request, tournament, "results/desk/home.html", "results/desk/_home.html", shown)
