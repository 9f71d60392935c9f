"""The list of bouts at the desk, and making many results official."""

from collections.abc import Iterable

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.http import urlencode
from django.utils.translation import ngettext

from results.forms.result import SeenForm
from results.queries import desk as queries
from results.queries.desk import DeskBout
from results.services import make_official
from results.views.desk.page import followed, require
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import weights
from seeding.entries.views.desk import desk, posted
from seeding.journal.views import submit

PAGE = 50
ASKED = ("mat", "weight", "status")


@desk(Right.READ)
def bouts(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """The bouts by number; `?mat=`, `?weight=` and `?status=` narrow the list."""
    asked = {name: request.GET.get(name, "") for name in ASKED}
    form = SeenForm(posted(request, "official"))
    if form.is_bound:
        require(request, Right.DIRECT)
        done = submit(
            request,
            form,
            lambda call: make_official(
                call=call, tournament=tournament, seen=form.cleaned_data["seen"]
            ),
        )
        if done is not None:
            text = ngettext("%(n)d result is official.", "%(n)d results are official.", done)
            messages.success(request, text % {"n": done})
            return redirect(request.get_full_path())
    page = Paginator(queries.listed(tournament, **asked), PAGE).get_page(request.GET.get("page"))
    listed = queries.seen(page.object_list)
    shown = {
        "tournament": tournament,
        "page": page,
        "bouts": listed,
        "asked": asked,
        "query": urlencode({name: value for name, value in asked.items() if value}),
        "weights": weights(tournament),
        "statuses": queries.STATUSES,
        "unofficial": _unofficial(listed),
        "form": form if form.is_bound else SeenForm.of(_unofficial(listed)),
    }
    return followed(
        request, tournament, "results/desk/bouts.html", "results/desk/_bouts.html", shown
    )


@desk(Right.READ)
def find(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """To the bout whose number was typed in."""
    number = request.GET.get("number", "")
    if not number.isdecimal():
        return redirect("desk-bouts", tournament.slug)
    return redirect("desk-bout", tournament.slug, int(number))


def _unofficial(listed: Iterable[DeskBout]) -> list[DeskBout]:
    return [one for one in listed if one.result and one.result.state != "official"]
