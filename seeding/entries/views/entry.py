"""One entry: change it, spell the name otherwise, scratch and restore it."""

from collections.abc import Callable

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from seeding.entries import queries
from seeding.entries.forms.entry import EditEntryForm, NameForm
from seeding.entries.models import Entry, Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries.ways import ways_out
from seeding.entries.services import correct_name, edit_entry, restore_entry, scratch_entry
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.forms import ActForm
from seeding.journal.models import Act
from seeding.journal.services import Call


@desk(Right.DIRECT)
def entry(request: HttpRequest, tournament: Tournament, key: str) -> HttpResponse:
    """The entry and everything that can be done to it before the draw."""
    row = queries.entry(tournament, key)
    form = EditEntryForm(posted(request, "edit"), entry=row, tournament=tournament)
    name = NameForm.of(row, posted(request, "name"))
    turn = ActForm(posted(request, "turn"), initial={"version": row.version}, auto_id="turn_%s")
    acts: list[tuple[ActForm, Callable[[Call], Act]]] = [
        (form, lambda call: edit_entry(call=call, entry=row, details=form.values)),
        (name, lambda call: correct_name(call=call, entry=row, **name.values)),
        (turn, lambda call: _turn(call, row)),
    ]
    for one, do in acts:
        if carried(request, one, do):
            messages.success(request, _("Saved."))
            row.refresh_from_db()
            return redirect("desk-entries", tournament.slug, row.weight_class.key)
    shown = {"tournament": tournament, "entry": row, "form": form, "name": name, "turn": turn}
    shown["ways_out"] = ways_out(tournament, row)
    return render(request, "entries/entry.html", shown)


def _turn(call: Call, row: Entry) -> Act:
    """Restore who is scratched, scratch everybody else."""
    if row.status == Entry.Status.SCRATCHED:
        return restore_entry(call=call, entry=row)
    return scratch_entry(call=call, entry=row)
