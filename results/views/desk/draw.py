"""From entries to numbered bouts: the format each weight takes, the draw, numbers, mats."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from brackets import queries
from brackets.models import Bout
from brackets.queries.stages import mat_loads, stages
from brackets.services import number_bouts, send_to_mat
from results.forms.draw import DrawForm, SendForm, TakeBackForm
from results.queries.draws import draw_told
from results.services import draw_every, draw_weight, take_back_draw
from results.views.desk.late import begun_at
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import weight as weight_of
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.forms import ActForm
from seeding.journal.services import Call
from seeding.journal.views import submit


@desk(Right.DIRECT)
def draw(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Every weight with its format; draw all that wait, number the bouts, look after the mats."""
    every = ActForm(posted(request, "draw-all"), auto_id="every_%s")
    numbers = ActForm(posted(request, "number"), auto_id="numbers_%s")
    if every.is_bound:
        done = submit(request, every, lambda call: draw_every(call=call, tournament=tournament))
        if done is not None:
            text = ngettext("%(n)d weight is drawn.", "%(n)d weights are drawn.", done)
            messages.success(request, text % {"n": done})
            return redirect("desk-draw", tournament.slug)
    if carried(request, numbers, lambda call: number_bouts(call=call, tournament=tournament)):
        messages.success(request, _("The bouts are numbered and have their mats."))
        return redirect("desk-draw", tournament.slug)
    found = stages(tournament)
    shown = {
        "tournament": tournament,
        "stages": found,
        "waiting": [one for one in found if one.shape and not one.drawn],
        "unnumbered": sum(one.unnumbered for one in found),
        "numbered": sum(one.numbered for one in found),
        "wrestled": sum(one.wrestled for one in found),
        "loads": mat_loads(tournament),
        "divisions": tournament.divisions.all(),
        "every": every,
        "numbers": numbers,
    }
    return render(request, "results/desk/draw.html", shown)


@desk(Right.DIRECT)
def weight(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """One weight: draw it, see how the lot fell, take the draw back."""
    at = weight_of(tournament, weight)
    form = DrawForm.of(at, posted(request, "draw"))
    back = TakeBackForm.of(at, posted(request, "take-back"))
    if carried(request, form, lambda call: draw_weight(call=call, weight=at, **form.values)):
        messages.success(request, _("%(weight)s is drawn.") % {"weight": at.label})
        return redirect("desk-draw-weight", tournament.slug, at.key)
    if carried(request, back, lambda call: take_back_draw(call=call, weight=at, **back.values)):
        messages.success(request, _("The draw of %(weight)s is taken back.") % {"weight": at.label})
        return redirect("desk-draw-weight", tournament.slug, at.key)
    found = stages(tournament)
    shown = {
        "tournament": tournament,
        "stages": found,
        "stage": next(one for one in found if one.weight.pk == at.pk),
        "lines": queries.starters(at),
        "told": draw_told(at),
        "begun": begun_at(at) if at.locked else "",
        "form": form,
        "taken_back": back,
    }
    return render(request, "results/desk/draw_weight.html", shown)


@desk(Right.DIRECT)
def mats(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """The bouts of a mat, and sending one to another; `?mat=` whose bouts, `?bout=` which one."""
    chosen = _chosen(tournament, request.GET.get("bout", ""))
    only = request.GET.get("mat", "")
    form = SendForm.of(tournament, chosen, posted(request, "send"))
    if carried(request, form, lambda call: _send(call, tournament, form)):
        words = _("Bout %(number)s is on mat %(mat)s now.") % form.cleaned_data
        messages.success(request, words)
        page = reverse("desk-draw-mats", args=[tournament.slug])
        return redirect(f"{page}?mat={only}" if only else page)
    shown = {
        "tournament": tournament,
        "loads": mat_loads(tournament),
        "only": only,
        "bouts": queries.to_come(tournament, only) if only else (),
        "chosen": chosen,
        "form": form,
    }
    return render(request, "results/desk/mats.html", shown)


def _chosen(tournament: Tournament, number: str) -> Bout | None:
    return queries.numbered_bout(tournament, int(number)) if number.isdecimal() else None


def _send(call: Call, tournament: Tournament, form: SendForm) -> object:
    bout = queries.numbered_bout(tournament, form.cleaned_data["number"])
    return send_to_mat(call=call, bout=bout, mat=form.cleaned_data["mat"])
