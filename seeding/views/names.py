"""Names that are alike: one person or two, decided by people with the evidence before them."""

from typing import Any

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from seeding.core.doubles import Likeness
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right, founds
from seeding.entries.views.desk import carried, desk, posted
from seeding.forms.intake import PairForm
from seeding.journal.forms import ActForm
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.queries.doubts import bouts_of, doubles_of, doubt, doubts_of, wrestler_of
from seeding.services.season import keep_apart, merge_wrestlers

PAGE = 25


def likeness_told(likeness: Likeness) -> str:
    """In what two names agree, in words."""
    return {
        Likeness.SAME: _("the same name"),
        Likeness.SWAPPED: _("given and family name swapped"),
        Likeness.INITIAL: _("the same family name; one given name may be short for the other"),
        Likeness.SPELLING: _("spelled almost alike"),
    }[likeness]


@desk(Right.DIRECT)
def names(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """The pairs of names that are alike, the strongest sign first."""
    form = PairForm(posted(request, "apart"), auto_id=False)

    def judge(call: Call) -> Act:
        return _apart(call, tournament, form.cleaned_data["one"], form.cleaned_data["other"])

    if carried(request, form, judge):
        messages.success(request, _("Two people. They are not proposed again."))
        return redirect("desk-names", tournament.slug)
    page = Paginator(doubles_of(tournament), PAGE).get_page(request.GET.get("page"))
    rows = [
        (found, likeness_told(found.double.likeness), ActForm(auto_id=False))
        for found in doubts_of(tournament, list(page.object_list))
    ]
    shown = {"tournament": tournament, "page": page, "rows": rows, "form": form}
    return render(request, "seeding/names.html", shown)


@desk(Right.DIRECT)
def pair(request: HttpRequest, tournament: Tournament, one: str, other: str) -> HttpResponse:
    """Two wrestlers side by side with all their bouts, and the decision."""
    first, second = wrestler_of(tournament, one), wrestler_of(tournament, other)
    apart = ActForm(posted(request, "apart"), auto_id="apart_%s")
    keeps = [
        (
            keep,
            gone,
            f"keep-{keep.uid}",
            ActForm(posted(request, f"keep-{keep.uid}"), auto_id=False),
        )
        for keep, gone in ((first, second), (second, first))
    ]
    if carried(request, apart, lambda call: _apart(call, tournament, one, other)):
        messages.success(request, _("Two people. They are not proposed again."))
        return redirect("desk-names", tournament.slug)
    for keep, gone, _do, form in keeps:

        def merge(call: Call, keep: Any = keep, gone: Any = gone) -> Act:
            return merge_wrestlers(call=call, tournament=tournament, keep=keep, gone=gone)

        if carried(request, form, merge):
            messages.success(request, _("One person now. Files may still call him by either name."))
            return redirect("desk-names", tournament.slug)
    shown = {
        "tournament": tournament,
        "found": doubt(tournament, first, second),
        "sides": [(row, bouts_of(tournament, row)) for row in (first, second)],
        "apart": apart,
        "keeps": keeps,
        "refused": [form for form in (apart, *(one[3] for one in keeps)) if form.errors],
        "may_merge": founds(request.user.pk, tournament.organisation_id),
    }
    return render(request, "seeding/names_pair.html", shown)


def _apart(call: Call, tournament: Tournament, one: str, other: str) -> Act:
    return keep_apart(
        call=call,
        tournament=tournament,
        one=wrestler_of(tournament, one),
        other=wrestler_of(tournament, other),
    )
