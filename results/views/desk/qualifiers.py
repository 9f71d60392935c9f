"""The places of the regions' events: what taking them in would do, and the button."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from results.queries.qualifying import look
from results.services.qualifying import take_places
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.views.desk import carried, desk, posted
from seeding.forms.qualifying import MarkForm


@desk(Right.DIRECT)
def qualifiers(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Who comes in, who is missing and which names are doubtful, before anything is done."""
    form = MarkForm(posted(request, "take"))
    if carried(
        request,
        form,
        lambda call: take_places(call=call, tournament=tournament, mark=form.cleaned_data["mark"]),
    ):
        messages.success(request, _("The places are taken in."))
        return redirect("desk-qualifying", tournament.slug)
    shown = {"tournament": tournament, "seen": look(tournament), "form": form}
    return render(request, "results/desk/qualifiers.html", shown)
