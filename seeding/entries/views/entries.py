"""Entries by weight: list, add, weigh-in."""

from collections.abc import Callable
from dataclasses import dataclass

from django.contrib import messages
from django.db.models import F
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _

from seeding.entries import queries
from seeding.entries.forms.entry import NewEntryForm, WeighInForm
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.permissions import Right
from seeding.entries.queries.ways import leavers, weigh_ins
from seeding.entries.services import add_entry, weigh_in
from seeding.entries.services.entry import Person
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.core.errors import NotAllowed
from seeding.journal.models import Act
from seeding.journal.services import Call


@dataclass(frozen=True, slots=True)
class Line:
    """One entry with the form of its weigh-in; `out`: why it wrestles no more, if so."""

    entry: Entry
    form: WeighInForm
    out: str


@desk(Right.READ)
def overview(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """How many are entered, weighed in and seeded at each weight."""
    shown = {
        "tournament": tournament,
        "weights": queries.weights(tournament),
        "weigh_ins": weigh_ins(tournament),
    }
    return render(request, "entries/entries.html", shown)


@desk(Right.READ)
def weight(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """The entries of one weight; whoever directs may add and weigh in."""
    rows = list(queries.weights(tournament))
    at = queries.weight(tournament, weight)
    form = NewEntryForm(
        posted(request, "add"), tournament=tournament, initial={"publish": Entry.Publish.FULL}
    )
    if request.method == "POST":
        _require_direct(request)
        if carried(request, form, lambda call: _add(call, at, form)):
            messages.success(request, _("Added."))
            return redirect("desk-entries", tournament.slug, at.key)
    lines = _lines(request, at)
    for line in lines:
        if carried(request, line.form, _weigher(line)):
            messages.success(request, _("Recorded."))
            return redirect(_at(tournament, line.entry))
    shown = {"tournament": tournament, "weights": rows, "weight": at, "lines": lines, "form": form}
    shown["weigh_ins"] = weigh_ins(tournament)
    return render(request, "entries/weight_entries.html", shown)


def _require_direct(request: HttpRequest) -> None:
    held: frozenset[Right] = getattr(request, "rights", frozenset())
    if Right.DIRECT not in held:
        raise NotAllowed(right=Right.DIRECT)


def _add(call: Call, weight: WeightClass, form: NewEntryForm) -> Act:
    values = form.values
    person = Person(str(values.pop("given")), str(values.pop("family")))
    team = values.pop("team")
    return add_entry(call=call, weight=weight, team=team, person=person, details=values)


def _weigher(line: Line) -> Callable[[Call], Act]:
    return lambda call: weigh_in(call=call, entry=line.entry, state=line.form.cleaned_data["state"])


def _lines(request: HttpRequest, weight: WeightClass) -> list[Line]:
    rows = list(
        queries.entries(weight.pk)
        .select_related("tournament")
        .order_by(F("seed").asc(nulls_last=True), "wrestler__family", "wrestler__given", "pk")
    )
    left = leavers([row.pk for row in rows])
    return [
        Line(
            row,
            WeighInForm(
                posted(request, f"weigh-{row.key}"),
                initial={"version": row.version},
                auto_id=f"{row.key}_%s",
            ),
            left.get(row.pk, ""),
        )
        for row in rows
    ]


def _at(tournament: Tournament, entry: Entry) -> str:
    page = reverse("desk-entries", args=[tournament.slug, entry.weight_class.key])
    return f"{page}#{entry.key}"
