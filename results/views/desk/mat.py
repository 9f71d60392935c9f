"""The table at a mat: who is next, the result, the undo of the last one."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from brackets.queries import numbered_bout
from results.core.outcomes import notation
from results.forms.result import ResultForm
from results.queries.desk import DeskBout, mat_queue, seen
from results.queries.preview import preview
from results.services import correct_result
from results.views.desk.entering import Look, may_write, out_after, result_form, written
from results.views.desk.page import followed
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.core.errors import NotFound
from seeding.journal.forms import ActForm


@desk(Right.RECORD)
def mat(request: HttpRequest, tournament: Tournament, mat: str) -> HttpResponse:
    """What is on the mat with the pad for its result; `?bout=` another open bout of the mat."""
    _known(tournament, mat)
    asked = request.GET.get("bout", "")
    queue = mat_queue(tournament, mat, int(asked) if asked.isdecimal() else None)
    at = _sent(request, tournament) or queue.now
    form = result_form(request, at) if at else None
    if at and form and _entered(request, at, form):
        said = {"number": at.row.number, "result": notation(form.outcome) if form.outcome else ""}
        messages.success(request, _("Bout %(number)s: %(result)s. Recorded.") % said)
        return redirect("mat-table", tournament.slug, mat)
    shown = {
        "tournament": tournament,
        "mat": mat,
        "queue": queue,
        "bout": at,
        "form": form,
        "out": out_after(queue.last) if queue.last else None,
        "may_undo": queue.last is not None and may_write(request, queue.last),
    }
    return followed(request, tournament, "results/desk/mat.html", "results/desk/_mat.html", shown)


def _known(tournament: Tournament, mat: str) -> None:
    if mat not in tournament.mats:
        raise NotFound(what="mat", name=mat)


def _sent(request: HttpRequest, tournament: Tournament) -> DeskBout | None:
    """The bout that the form was for."""
    number = request.POST.get("bout", "")
    return seen([numbered_bout(tournament, int(number))])[0] if number.isdecimal() else None


def _entered(request: HttpRequest, at: DeskBout, form: ResultForm) -> bool:
    return request.POST.get("do") == "enter" and carried(
        request, form, lambda call: written(request, call, at, form)
    )


@desk(Right.RECORD)
def undo(request: HttpRequest, tournament: Tournament, mat: str) -> HttpResponse:
    """Undo the last result of the mat, after a look at what follows."""
    _known(tournament, mat)
    at = _sent(request, tournament) or mat_queue(tournament, mat).last
    if at is None or (at.result is None and request.method == "GET"):
        return redirect("mat-table", tournament.slug, mat)
    row = at.row
    form = ActForm(posted(request, "undo"), initial={"version": row.version})
    if carried(request, form, lambda call: correct_result(call=call, bout=row, outcome=None)):
        messages.success(request, _("The result of bout %(n)s is undone.") % {"n": row.number})
        return redirect("mat-table", tournament.slug, mat)
    shown = {
        "tournament": tournament,
        "mat": mat,
        "bout": at,
        "form": form,
        "look": Look(at, None, preview(row, None)),
        "may_write": may_write(request, at),
    }
    return render(request, "results/desk/mat_undo.html", shown)
