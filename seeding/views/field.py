"""The field of one weight: by place, wild cards and alternates with reasons, who steps in."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.db.models import Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from seeding.entries.models import Tournament, WeightClass
from seeding.entries.permissions import Right
from seeding.entries.queries import entries as entries_of
from seeding.entries.queries import entry as entry_of
from seeding.entries.queries import weight as weight_of
from seeding.entries.views.desk import carried, desk, posted
from seeding.forms.qualifying import MarkForm, PlacesForm, StepInForm
from seeding.journal.forms import ActForm
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.models import Berth
from seeding.queries.evidence import Why, why_of
from seeding.queries.qualifying import (
    Candidates,
    Field,
    Standing,
    berths,
    candidates,
    field_of,
    plan_of,
    regions,
)
from seeding.services.alternates import step_back, step_in
from seeding.services.qualifying import accept_candidates, set_places

Page = dict[str, Any]
Do = Callable[[Call], Act]


@dataclass(frozen=True, slots=True)
class Line:
    """A candidate in his order, and why he stands above the next; `heading` opens his part."""

    number: int
    berth: Berth
    heading: str
    why: Why | None


@dataclass(frozen=True, slots=True)
class Offer:
    """Somebody of the field with the button beside him."""

    standing: Standing
    form: ActForm
    came_for: str = ""


@desk(Right.SEED)
def field(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """Who is in the field of a weight, who waits, and why in this order."""
    at, plan = weight_of(tournament, weight), plan_of(tournament)
    if plan is None:
        messages.info(request, _("Say first how many places of each region advance."))
        return redirect("desk-qualifying", tournament.slug)
    found, now = candidates(at, plan), field_of(at)
    accept = MarkForm(posted(request, "accept"), initial={"mark": found.mark}, auto_id="accept_%s")
    offers = [_offer(request, one, now) for one in now.vacancies]
    backs = [_back(request, one) for one in now.stepped_in]
    acts: list[tuple[ActForm, Do, str]] = [
        (accept, _accepter(at, accept), _("Wild cards and alternates are as the list says.")),
        *((one.form, _stepper(one), _("The alternate is in the field.")) for one in offers),
        *((one.form, _backer(one), _("The alternate stands by again.")) for one in backs),
    ]
    for form, do, word in acts:
        if carried(request, form, do):
            messages.success(request, word)
            return redirect("desk-field", tournament.slug, at.key)
    shown: Page = {"tournament": tournament, "weight": at, "weights": tournament.weights.all()}
    shown |= {"plan": plan, "field": now, "found": found, "lines": _lines(found)}
    shown |= {"accept": accept, "offers": offers, "backs": backs}
    shown["refused"] = [form for form, _do, _word in acts if form.errors]
    return render(request, "seeding/qualifying_field.html", shown)


def _offer(request: HttpRequest, one: Standing, field: Field) -> Offer:
    do = f"step-{one.berth.entry.key}"
    first = field.first.entry.key if field.first else ""
    return Offer(
        one, StepInForm(posted(request, do), initial={"alternate": first}, auto_id=f"{do}_%s")
    )


def _back(request: HttpRequest, one: Standing) -> Offer:
    do = f"back-{one.berth.entry.key}"
    return Offer(one, ActForm(posted(request, do), auto_id=f"{do}_%s"))


def _accepter(at: WeightClass, form: MarkForm) -> Do:
    return lambda call: accept_candidates(call=call, weight=at, mark=form.cleaned_data["mark"])


def _stepper(one: Offer) -> Do:
    entry = one.standing.berth.entry

    def do(call: Call) -> Act:
        alternate = entry_of(entry.tournament, one.form.cleaned_data["alternate"])
        return step_in(call=call, entry=entry, alternate=alternate)

    return do


def _backer(one: Offer) -> Do:
    return lambda call: step_back(call=call, entry=one.standing.berth.entry)


def _lines(found: Candidates) -> list[Line]:
    cards = len(found.choice.wild_cards)
    waits = cards + len(found.choice.alternates)
    headings = {waits: _("Not in, and not waiting"), cards: _("Alternates"), 0: _("Wild cards")}
    if not cards:
        headings[0] = _("Alternates") if waits else _("Not in, and not waiting")
    whys = [why_of(reason, found.names, against=False) for reason in found.reasons()]
    return [
        Line(
            number=at + 1,
            berth=found.berths[uid],
            heading=headings.get(at, ""),
            why=whys[at] if at < len(whys) else None,
        )
        for at, uid in enumerate(found.order)
    ]


@desk(Right.DIRECT)
def places(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """Region and place of every entry of a weight, put in by hand."""
    at = weight_of(tournament, weight)
    rows = entries_of(at.pk).order_by("wrestler__family", "wrestler__given", "pk")
    held = {row.entry_id: row for row in berths(Q(entry__weight_class=at))}
    letters = [seen.region.letter for seen in regions(tournament)]
    form = PlacesForm(posted(request, "places"), entries=rows, berths=held, letters=letters)
    if carried(request, form, lambda call: set_places(call=call, weight=at, places=form.places)):
        messages.success(request, _("Saved."))
        return redirect("desk-field", tournament.slug, at.key)
    shown: Page = {"tournament": tournament, "weight": at, "form": form, "letters": letters}
    return render(request, "seeding/qualifying_places.html", shown)
