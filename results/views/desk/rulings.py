"""Rulings: what was decided against the format, deciding, and taking it back."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from brackets.models import Bout, Drawn
from brackets.queries import drawn as drawn_of
from brackets.queries import numbered, numbered_bout
from results.forms.ruling import (
    ChosenForm,
    PlaceForm,
    RulingForm,
    SeatsForm,
    WinnerForm,
    answered,
)
from results.models import Ruling
from results.queries.consequences import Preview
from results.queries.desk import seen
from results.queries.ruled import called, names, rulings, say, told, void_bouts, void_told
from results.queries.rulings import drafted, look_at_drafted, look_at_taking_back, ruling_of
from results.services import rule, take_back_ruling
from seeding.entries.models import Entry, Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import weight as weight_of
from seeding.entries.queries import weights
from seeding.entries.views.desk import carried, desk, posted
from seeding.journal.core.errors import Refusal
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.journal.views import refuse


@dataclass(frozen=True, slots=True)
class Look:
    """What a ruling says, and what follows from it."""

    preview: Preview
    says: tuple[str, ...] = ()


@desk(Right.READ)
def listed(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """Every ruling with its reason, and every void bout."""
    shown = {
        "tournament": tournament,
        "rulings": told(tournament, rulings(tournament)),
        "void": void_told(void_bouts(tournament)),
        "weights": [row for row in weights(tournament) if row.locked],
    }
    return render(request, "results/desk/rulings.html", shown)


@desk(Right.DIRECT)
def on_bout(request: HttpRequest, tournament: Tournament, number: int) -> HttpResponse:
    """Rule on a bout: who goes on as its winner, or who stands in it."""
    row = numbered_bout(tournament, number)
    field = _field(row.drawn)
    forms: list[RulingForm] = [
        WinnerForm(_sent(request, "winner"), row),
        SeatsForm(_sent(request, "seats"), row, field),
    ]
    if row.top is None or row.bottom is None:
        forms = forms[1:]
    return _ruling(request, row.drawn, forms, {"bout": seen([row])[0]})


@desk(Right.DIRECT)
def on_place(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """Rule on a place of a weight."""
    at = weight_of(tournament, weight)
    row = drawn_of(at)
    form = PlaceForm(_sent(request, "place"), at, _field(row))
    still = numbered(tournament).filter(
        drawn=row, status__in=(Bout.Status.READY, Bout.Status.WAITING)
    )
    return _ruling(request, row, [form], {"weight": at, "still": list(still)})


def _field(drawn: Drawn) -> list[Entry]:
    rows = Entry.objects.filter(weight_class_id=drawn.weight_class_id)
    entered = rows.filter(status=Entry.Status.ENTERED).select_related("wrestler", "team")
    return list(entered.order_by("wrestler__family", "wrestler__given", "pk"))


def _sent(request: HttpRequest, name: str) -> QueryDict | None:
    return posted(request, f"look-{name}") or posted(request, f"rule-{name}")


def _ruling(
    request: HttpRequest, drawn: Drawn, forms: Sequence[RulingForm], about: dict[str, object]
) -> HttpResponse:
    tournament = drawn.weight_class.tournament
    form = next((one for one in forms if one.is_bound), None)
    if (
        form
        and request.POST["do"].startswith("rule-")
        and carried(
            request,
            form,
            lambda call: rule(call=call, drawn=drawn, wanted=form.wanted(), **form.decided),
        )
    ):
        messages.success(request, _("The ruling is made."))
        return redirect("desk-rulings", tournament.slug)
    shown = {
        "tournament": tournament,
        "forms": forms,
        "form": form,
        "look": _looked(drawn, form) if form else None,
        **about,
    }
    return render(request, "results/desk/ruling.html", shown)


def _looked(drawn: Drawn, form: RulingForm) -> Look | None:
    if not form.is_valid() and not form.cleaned_data.keys() >= form.own:
        return None
    try:
        wanted = form.wanted()
        value = drafted(drawn, wanted)
        found = answered(lambda made: look_at_drafted(drawn, value, made), form.data)
    except Refusal as refusal:
        if not form.errors:
            refuse(form, refusal)
        return None
    said = say(value, names(drawn.weight_class.tournament), called(drawn))
    return Look(found, tuple(said))


@desk(Right.DIRECT)
def taking_back(request: HttpRequest, tournament: Tournament, ruling: int) -> HttpResponse:
    """A ruling, and taking it back after a look at what follows."""
    row = ruling_of(tournament, ruling)
    form = ChosenForm.of(request.POST, "take-back")
    if carried(request, form, lambda call: _taken_back(call, row, form)):
        messages.success(request, _("The ruling is taken back."))
        return redirect("desk-rulings", tournament.slug)
    shown = {
        "tournament": tournament,
        "ruling": told(tournament, [row])[0],
        "form": form,
        "look": Look(answered(lambda made: look_at_taking_back(row, made), request.POST)),
    }
    return render(request, "results/desk/ruling_back.html", shown)


def _taken_back(call: Call, row: Ruling, form: ChosenForm) -> Act:
    return take_back_ruling(call=call, ruling=row, **form.decided)
