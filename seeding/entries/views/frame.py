"""The tournament's frame and its publish gates."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from seeding.entries.forms.frame import FrameForm, GatesForm
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.services import edit_tournament, set_gates
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.models import Act
from seeding.journal.services import Call


@desk(Right.DIRECT)
def frame(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Name, dates, zone and mats; what the public sees."""
    held = {
        "name": tournament.name,
        "starts_on": tournament.starts_on,
        "time_zone": tournament.time_zone,
        "mats": ", ".join(tournament.mats),
        "version": tournament.version,
    }
    form = FrameForm(posted(request, "frame"), initial=held)
    gates = GatesForm.of(tournament, posted(request, "gates"))

    def change(call: Call) -> Act:
        return edit_tournament(call=call, tournament=tournament, **form.values)

    def publish(call: Call) -> Act:
        return set_gates(call=call, tournament=tournament, gates=gates.values)

    acts = ((form, change, _("Saved.")), (gates, publish, _("Published as ticked.")))
    for one, do, word in acts:
        if carried(request, one, do):
            messages.success(request, word)
            return redirect("desk-frame", tournament.slug)
    shown = {"tournament": tournament, "form": form, "gates": gates}
    return render(request, "entries/frame.html", shown)
