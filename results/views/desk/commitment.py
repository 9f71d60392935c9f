"""Committing the draw before entries close."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from brackets.queries.commitment import anything_drawn, commitment_of
from brackets.services import commit_draw, reveal_secret
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.forms import ActForm


@desk(Right.DIRECT)
def commitment(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Commit the draw; later see what was published, and reveal the secret before its time."""
    commit = ActForm(posted(request, "commit"))
    reveal = ActForm(posted(request, "reveal"), auto_id="reveal_%s")
    if carried(request, commit, lambda call: commit_draw(call=call, tournament=tournament)):
        messages.success(request, _("The draw is committed. The front page shows it."))
        return redirect("desk-commitment", tournament.slug)
    if carried(request, reveal, lambda call: reveal_secret(call=call, tournament=tournament)):
        messages.success(request, _("The secret is revealed."))
        return redirect("desk-commitment", tournament.slug)
    shown = {
        "tournament": tournament,
        "kept": commitment_of(tournament),
        "begun": anything_drawn(tournament),
        "commit": commit,
        "reveal": reveal,
    }
    return render(request, "results/desk/commitment.html", shown)
