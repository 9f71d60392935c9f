"""One bout: its result, correction and undo with what follows, confirming."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from brackets.models import Bout
from brackets.queries import numbered_bout
from results.core.errors import BoutVoid
from results.core.outcomes import kind_of
from results.forms.result import ResultForm, StateForm
from results.forms.ruling import ChosenForm
from results.models import Result, VoidBout
from results.queries.desk import DeskBout, seen
from results.queries.ruled import told_of, void_at, void_since
from results.services import confirm_result, correct_result
from results.views.desk.entering import (
    chosen,
    looked,
    may_write,
    out_after,
    result_form,
    rules_at,
    written,
)
from results.views.desk.page import require
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.api import text_of
from seeding.journal.forms import ActForm


@desk(Right.READ)
def bout(request: HttpRequest, tournament: Tournament, number: int) -> HttpResponse:
    """The bout with what can be done to it, by its state and by the rights of who looks."""
    try:
        row = numbered_bout(tournament, number)
    except BoutVoid as void:
        shown = {"tournament": tournament, "void": void.params, "text": text_of(void)}
        return render(request, "results/desk/bout_void.html", shown, status=404)
    at = seen([row])[0]
    if request.method == "POST":
        require(request, Right.RECORD)
    form = result_form(request, at)
    undo = ActForm(posted(request, "undo"), initial={"version": row.version}, auto_id="undo_%s")
    state = StateForm(posted(request, "state"), initial={"version": row.version})
    if done := _carried_out(request, at, form, undo, state):
        messages.success(request, done)
        return redirect("desk-bout", tournament.slug, number)
    look = looked(request, at, form)
    acting = form if look and look.outcome else undo
    if look:
        acting.look_again(row.version)
    shown = {
        "tournament": tournament,
        "bout": at,
        "form": form,
        "state": state,
        "look": look,
        "acting": acting,
        "may_write": may_write(request, at),
        "chosen": ChosenForm(request.POST if request.method == "POST" else None),
        "rulings": [one for one in told_of(row.drawn) if row.key in one.bouts],
        "void": void_at(row),
        "out": out_after(at),
        "states": Result.State,
    }
    return render(request, "results/desk/bout.html", shown)


def _carried_out(
    request: HttpRequest, at: DeskBout, form: ResultForm, undo: ActForm, state: StateForm
) -> str:
    """Do what was sent; in words what is done, or nothing where nothing is."""
    row, said, do = at.row, {"number": at.row.number}, request.POST.get("do")
    void = VoidBout.objects.filter(bout__drawn=row.drawn).count() if do else 0
    if do in ("enter", "correct") and carried(
        request, form, lambda call: written(request, call, at, form)
    ):
        if do == "enter":
            return _("The result of bout %(number)s is recorded.") % said
        return _("The result of bout %(number)s is corrected.") % said + _anew(row, void)
    if carried(
        request,
        undo,
        lambda call: correct_result(call=call, bout=row, outcome=None, **chosen(request)),
    ):
        text = _("The result of bout %(number)s is undone; it can be wrestled again.")
        return text % said + _anew(row, void)
    if carried(
        request,
        state,
        lambda call: confirm_result(call=call, bout=row, state=state.cleaned_data["state"]),
    ):
        word = Result.State(state.cleaned_data["state"]).label
        return _("The result of bout %(number)s is marked: %(state)s.") % {**said, "state": word}
    return ""


def _anew(row: Bout, before: int) -> str:
    """Which bouts became void, and under which numbers they are wrestled now."""
    void = void_since(row, before)
    if not void:
        return ""
    listed = [
        _("%(old)s as %(new)s") % {"old": one.called, "new": one.now} if one.now else one.called
        for one in void
    ]
    return " " + _("Void, and wrestled anew: %(bouts)s.") % {"bouts": ", ".join(listed)}


@desk(Right.RECORD)
def kind(request: HttpRequest, tournament: Tournament, number: int) -> JsonResponse:
    """The kind that a score makes by the rule book of the bout; empty where it makes none."""
    row = numbered_bout(tournament, number)
    points = [request.GET.get(name, "") for name in ("won", "lost")]
    if not all(one.isdecimal() for one in points):
        return JsonResponse({"kind": "", "words": ""})
    margin = int(points[0]) - int(points[1])
    if margin < 1:
        return JsonResponse({"kind": "", "words": ""})
    found = kind_of(margin, rules_at(seen([row])[0]).results)
    return JsonResponse({"kind": found.value, "words": _(found.value)})
