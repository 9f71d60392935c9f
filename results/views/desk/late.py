"""Late changes of one entry or one weight: each shown first, done afterwards."""

from collections.abc import Callable
from dataclasses import dataclass

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _

from brackets import queries as brackets
from brackets.queries.commitment import commitment_of
from results.core.late import Phase, Remedy
from results.forms.late import DoneForm, LateEntryForm, SwapForm
from results.forms.remedy import RemedyForm
from results.queries.desk import full_name
from results.queries.draws import draw_told
from results.queries.late import Follows, usable_lines
from results.queries.weigh_in import concern
from results.services import enter_late, redraw, swap_lines, take_out
from results.services.draw import refuse_begun
from results.services.late import (
    look_at_cases,
    look_at_late_entry,
    look_at_redraw,
    look_at_swap,
)
from seeding.entries import queries
from seeding.entries.core.errors import GroupedByPage
from seeding.entries.models import Tournament, WeightClass
from seeding.entries.permissions import Right
from seeding.entries.queries.groups import is_group
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.api import text_of
from seeding.journal.core.errors import Refusal
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.journal.views import call_of

DO = "do-it"


@dataclass(frozen=True, slots=True)
class Look:
    """What would follow, or why it cannot be done."""

    follows: Follows | None
    refusal: str = ""

    @classmethod
    def under(
        cls, request: HttpRequest, done: DoneForm, version: int, look: Callable[[Call], Follows]
    ) -> "Look":
        """Look at it as the person would do it now, and let the button do just that."""
        try:
            found = cls(look(call_of(request)))
        except Refusal as refusal:
            found = cls(None, text_of(refusal))
        done.show(found.mark, version)
        return found

    @property
    def mark(self) -> str:
        return self.follows.mark if self.follows else ""


@desk(Right.DIRECT)
def entry(request: HttpRequest, tournament: Tournament, key: str) -> HttpResponse:
    """One entry that does not wrestle on its line; `?<key>.remedy=`: what would follow."""
    row = queries.entry(tournament, key)
    about = concern(row, timezone.now())
    form = RemedyForm(request.GET or None, people=[about])
    shown = {"tournament": tournament, "entry": row, "about": about, "form": form}
    if form.is_bound and form.is_valid():
        case = form.cases[0]
        needs = about.phase is Phase.DRAWN and case.remedy is not Remedy.WITHDRAW
        done = DoneForm.of(posted(request, DO), needs_reason=needs)

        def act(call: Call) -> Act:
            return form.beside(lambda: take_out(call=call, case=case, **said(done)))

        def seen(call: Call) -> Follows:
            return form.beside(lambda: look_at_cases(call, [case]))

        if carried(request, done, act):
            messages.success(request, _("Done: %(name)s.") % {"name": full_name(row)})
            return redirect("desk-entries", tournament.slug, row.weight_class.key)
        look = Look.under(request, done, row.version, seen)
        shown |= {"look": look, "done": done}
    return render(request, "results/desk/late_entry.html", shown)


@desk(Right.DIRECT)
def newcomer(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """Somebody who comes late; `?family=`: what would follow."""
    at = queries.weight(tournament, weight)
    made = brackets.find_drawn(at)
    free, begun = usable_lines(made) if made else (), begun_at(at) if made else ""
    form = LateEntryForm.of(at, free, request.GET or None, anew=not begun)
    shown = _of_weight(tournament, at) | {"form": form, "drawn": made, "begun": begun, "free": free}
    shown["group"] = text_of(GroupedByPage(weight=at.label)) if is_group(at) else ""
    if form.is_bound and form.is_valid():
        late = form.late
        done = DoneForm.of(posted(request, DO), needs_reason=made is not None)
        if carried(
            request, done, lambda call: enter_late(call=call, weight=at, late=late, **said(done))
        ):
            messages.success(request, _("%(name)s is entered.") % {"name": late.person.family})
            return _back(tournament, at)
        look = Look.under(
            request, done, at.version, lambda call: look_at_late_entry(call, at, late)
        )
        by_lot = made is not None and late.line is None and not late.redraw
        shown |= {"look": look, "done": done, "by_lot": by_lot}
    return render(request, "results/desk/late_newcomer.html", shown)


@desk(Right.DIRECT)
def swap(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """Two lines that change places; `?one=` and `&other=`: what would follow."""
    at = queries.weight(tournament, weight)
    form = SwapForm.of(brackets.starters(at), request.GET or None)
    shown = _of_weight(tournament, at) | {"form": form, "drawn": brackets.drawn(at)}
    if form.is_bound and form.is_valid():
        lines = form.lines
        done = DoneForm.of(posted(request, DO), needs_reason=True)
        if carried(
            request, done, lambda call: swap_lines(call=call, weight=at, lines=lines, **said(done))
        ):
            messages.success(request, _("The lines are swapped."))
            return _back(tournament, at)
        look = Look.under(request, done, at.version, lambda call: look_at_swap(call, at, lines))
        shown |= {"look": look, "done": done}
    return render(request, "results/desk/late_swap.html", shown)


@desk(Right.DIRECT)
def again(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """A weight that is drawn anew, with what that would undo."""
    at = queries.weight(tournament, weight)
    shown = _of_weight(tournament, at) | {"drawn": brackets.drawn(at), "told": draw_told(at)}
    done = DoneForm.of(posted(request, DO), needs_reason=True)
    if carried(request, done, lambda call: redraw(call=call, weight=at, **said(done))):
        messages.success(request, _("%(weight)s is drawn anew.") % {"weight": at.label})
        return _back(tournament, at)
    look = Look.under(request, done, at.version, lambda call: look_at_redraw(call, at))
    made = commitment_of(tournament)
    shown |= {"look": look, "done": done, "revealed": made and made.revealed_at}
    return render(request, "results/desk/late_redraw.html", shown)


def begun_at(weight: WeightClass) -> str:
    """Why a weight cannot be drawn anew; "" where it can."""
    try:
        refuse_begun(weight)
    except Refusal as refusal:
        return text_of(refusal)
    return ""


def said(form: DoneForm) -> dict[str, str]:
    """What was said with the button."""
    return {name: form.cleaned_data[name] for name in ("reason", "mark")}


def _of_weight(tournament: Tournament, weight: WeightClass) -> dict[str, object]:
    return {"tournament": tournament, "weight": weight}


def _back(tournament: Tournament, weight: WeightClass) -> HttpResponse:
    return redirect("desk-draw-weight", tournament.slug, weight.key)
