"""When opponents can meet again: what a crossing is for."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from brackets.forms.rematches import RematchForm
from brackets.queries import rules_of
from brackets.queries.rematches import table_of
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import division as division_of
from seeding.entries.views.desk import desk
from seeding.journal.core.errors import Refusal


@desk(Right.READ)
def rematches(request: HttpRequest, tournament: Tournament, division: str) -> HttpResponse:
    """The table for the format that `?lines=&places=&wrestleback=&crossing=` name."""
    row = division_of(tournament, division)
    rules = rules_of(row)
    form = RematchForm.of(rules, request.GET.dict())
    shown: dict[str, object] = {"tournament": tournament, "division": row, "form": form}
    if form.is_valid():
        shown["asked"] = form.asked
        try:
            shown["table"] = table_of(rules, form.asked)
        except Refusal as refusal:
            form.add_error(None, str(refusal))
    return render(request, "brackets/rematches.html", shown)
