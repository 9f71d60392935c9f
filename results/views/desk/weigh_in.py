"""The weigh-in: the sheet of everybody, and what is done about those who miss it, in one step."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from results.core.late import Remedy
from results.forms.late import CutOffForm, DoneForm, SheetForm
from results.forms.remedy import RemedyForm
from results.queries.weigh_in import Case, all_concerned, concerned, cut_offs, sheet
from results.services import apply_weigh_in, set_cut_off
from results.services.late import look_at_cases
from results.views.desk.late import DO, Look
from seeding.entries import queries
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.services import record_weigh_in
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.models import Act
from seeding.journal.services import Call


@desk(Right.DIRECT)
def weigh_in(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Everybody who is to be weighed; `?weight=` of one weight."""
    only = request.GET.get("weight", "")
    weights = list(queries.weights(tournament))
    rows = sheet(tournament)
    if only:
        rows = rows.filter(weight_class=queries.weight(tournament, only))
    form = SheetForm(posted(request, "weigh"), entries=rows, weights=weights)
    off = CutOffForm(posted(request, "cut-off"), tournament=tournament)
    here = reverse("desk-weigh-in", args=[tournament.slug]) + (f"?weight={only}" if only else "")
    if carried(request, form, lambda call: _record(call, tournament, form)):
        n = len(form.changed)
        text = ngettext("%(n)d weigh-in recorded.", "%(n)d weigh-ins recorded.", n) % {"n": n}
        messages.success(request, text)
        return redirect(here)
    if carried(
        request, off, lambda call: set_cut_off(call=call, tournament=tournament, **off.values)
    ):
        stated = off.cleaned_data["at"]
        text = _("The cut-off is stated.") if stated else _("No cut-off is stated.")
        messages.success(request, text)
        return redirect(here)
    shown = {
        "tournament": tournament,
        "weights": weights,
        "only": only,
        "form": form,
        "off": off,
        "cut_offs": cut_offs(tournament),
        "concerned": all_concerned(tournament).count(),
    }
    return render(request, "results/desk/weigh_in.html", shown)


def _record(call: Call, tournament: Tournament, form: SheetForm) -> Act:
    if not form.changed:
        raise Invalid([Problem("", _("Nothing was changed."))])
    return record_weigh_in(call=call, tournament=tournament, items=form.changed)


@desk(Right.DIRECT)
def apply(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """All misses, wrong weights and no-shows; with what is chosen in the address: what follows."""
    people = concerned(tournament, timezone.now())
    form = RemedyForm(request.GET or None, people=people)
    shown = {"tournament": tournament, "people": people, "form": form}
    shown["cut_offs"] = cut_offs(tournament)
    if people and form.is_bound and form.is_valid():
        cases = form.cases
        done = DoneForm.of(posted(request, DO), needs_reason=_redrawn(cases))
        if carried(
            request, done, lambda call: form.beside(lambda: _apply(call, tournament, cases, done))
        ):
            messages.success(request, _("The weigh-in is applied."))
            return redirect("desk-weigh-in", tournament.slug)
        look = Look.under(
            request, done, 0, lambda call: form.beside(lambda: look_at_cases(call, cases))
        )
        shown |= {"look": look, "done": done}
    return render(request, "results/desk/weigh_in_apply.html", shown)


def _redrawn(cases: list[Case]) -> bool:
    return any(one.remedy is Remedy.REDRAW for one in cases)


def _apply(call: Call, tournament: Tournament, cases: list[Case], done: DoneForm) -> Act:
    said = {name: done.cleaned_data[name] for name in ("reason", "mark")}
    return apply_weigh_in(call=call, tournament=tournament, cases=cases, **said)
