"""Bouts of the season to look at twice: perhaps one bout, told in two ways."""

from typing import Any

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.views.desk import carried, desk, posted
from seeding.forms.intake import BothForm, BoutForm, StrikeForm
from seeding.journal.forms import ActForm
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.queries.doubts import Repeat, bout_of, repeats_of, struck_bouts
from seeding.services.season import let_both_stand, put_back_bout, strike_bout

PAGE = 25


def parts_told() -> dict[str, str]:
    """The parts of a report that may differ, in words."""
    return {
        "winner": _("who won"),
        "kind": _("the result"),
        "score": _("the score"),
        "time": _("the time"),
        "weight": _("the weight"),
        "event": _("the event"),
    }


@desk(Right.DIRECT)
def twice(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Bouts of the same two wrestlers on one day, and what was struck."""
    strike = StrikeForm(posted(request, "strike"), auto_id=False)
    both = BothForm(posted(request, "both"), auto_id=False)
    back = BoutForm(posted(request, "back"), auto_id=False)

    def do_strike(call: Call) -> Act:
        values = strike.cleaned_data
        bout = bout_of(tournament, values["bout"])
        return strike_bout(call=call, tournament=tournament, bout=bout, reason=values["reason"])

    def do_both(call: Call) -> Act:
        one, other = (bout_of(tournament, both.cleaned_data[name]) for name in ("one", "other"))
        return let_both_stand(call=call, tournament=tournament, one=one, other=other)

    def do_back(call: Call) -> Act:
        bout = bout_of(tournament, back.cleaned_data["bout"])
        return put_back_bout(call=call, tournament=tournament, bout=bout)

    for form, do, word in (
        (strike, do_strike, _("Struck. It is no evidence any more.")),
        (both, do_both, _("Both bouts stand.")),
        (back, do_back, _("The bout counts again.")),
    ):
        if carried(request, form, do):
            messages.success(request, word)
            return redirect("desk-twice", tournament.slug)
    return render(request, "seeding/twice.html", _shown(request, tournament, strike, both, back))


def _shown(request: HttpRequest, tournament: Tournament, *forms: ActForm) -> dict[str, Any]:
    page = Paginator(repeats_of(tournament), PAGE).get_page(request.GET.get("page"))
    rows = [(found, differs_told(found), ActForm(auto_id=False)) for found in page.object_list]
    return {
        "tournament": tournament,
        "page": page,
        "rows": rows,
        "struck": [(bout, ActForm(auto_id=False)) for bout in struck_bouts(tournament)],
        "refused": [form for form in forms if form.errors],
    }


def differs_told(found: Repeat) -> str:
    """In what the two reports differ."""
    words = parts_told()
    return ", ".join(words[part] for part in found.differs)
