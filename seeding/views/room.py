"""The seeding room: the order, the reasons, the committee's moves."""

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _

from seeding.core.rules import Challenges, OwnWrestlers
from seeding.entries.models import Tournament, WeightClass
from seeding.entries.permissions import Right
from seeding.entries.queries import entry as entry_of
from seeding.entries.queries import weight as weight_of
from seeding.entries.views.desk import carried, desk, posted
from seeding.forms.order import CompareForm, MoveForm
from seeding.journal.forms import ActForm
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.models import Challenge, Override
from seeding.queries import Order, order_of, rules_of, weight_states
from seeding.queries.evidence import why
from seeding.queries.list_used import list_used
from seeding.queries.lots import drawn
from seeding.queries.minutes import challenges_of
from seeding.queries.places import circles, places, undecided
from seeding.queries.recusal import own_teams, own_wrestlers
from seeding.queries.scratches import seeds_void
from seeding.services import adopt_order, move_seed, take_back_move

Page = dict[str, Any]


@desk(Right.SEED)
def weights(request: HttpRequest, tournament: Tournament) -> HttpResponse:
    """How far the seeding of each weight is."""
    shown = {"tournament": tournament, "states": weight_states(tournament)}
    return render(request, "seeding/weights.html", shown)


@desk(Right.SEED)
def room(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """The order of one weight and everything the committee does to it."""
    at = weight_of(tournament, weight)
    order = order_of(at)
    held = {"version": order.version}
    move = MoveForm(
        posted(request, "move"),
        entries=by_key(order),
        chosen=request.GET.get("move", ""),
        version=order.version,
    )
    adopt = ActForm(posted(request, "adopt"), initial=held, auto_id="adopt_%s")
    backs = [
        (row, ActForm(posted(request, f"back-{row.pk}"), initial=held, auto_id=f"back{row.pk}_%s"))
        for row in order.overrides
    ]
    acts: list[tuple[ActForm, Callable[[Call], Act], str]] = [
        (move, lambda call: _move(call, tournament, move), _("Moved.")),
        (
            adopt,
            lambda call: adopt_order(call=call, weight=at),
            _("The order is now the seeds. When all weights are seeded: Draw."),
        ),
        *((form, _taker(row), _("The move is taken back.")) for row, form in backs),
    ]
    for form, do, word in acts:
        if carried(request, form, do):
            messages.success(request, word)
            return redirect("desk-seeding", tournament.slug, at.key)
        form.look_again(order.version)
    refused = [form for form, _do, _word in acts if form.errors]
    shown: Page = {"move": move, "adopt": adopt, "backs": backs, "refused": refused}
    return render(request, "seeding/room.html", {**_frame(request, at, order), **shown})


def _frame(request: HttpRequest, at: WeightClass, order: Order) -> Page:
    own = own_wrestlers(order, own_teams(at.tournament, request.user.pk or 0))
    rules = rules_of(at.division).committee
    waiting = [row for row in challenges_of(order) if row.state == Challenge.State.OPEN]
    until = order.kept.challenges_until if order.kept else None
    return {
        "tournament": at.tournament,
        "void": seeds_void(at),
        "weight": at,
        "weights": at.tournament.weights.all(),
        "order": order,
        "used": list_used(at, order),
        "places": places(order),
        "drawn": drawn(order),
        "circles": circles(order),
        "undecided": undecided(order),
        "waiting": [(order.called(row.entry), order.called(row.over), row.by) for row in waiting],
        "heard_until": until if until and until > timezone.now() else None,
        "hears": rules.challenges is not Challenges.NONE,
        "own": own if rules.own_wrestlers is OwnWrestlers.NO_SAY else frozenset(),
        "most": rules.largest_move,
        "compare": CompareForm(None, entries=_choices(order, str)),
    }


def by_key(order: Order) -> list[tuple[str, str]]:
    """The entries of an order to choose from, each with its place."""
    return _choices(order, lambda uid: order.entries[uid].key)


def _choices(order: Order, value: Callable[[str], str]) -> list[tuple[str, str]]:
    return [
        (value(uid), f"{number} {order.names[uid]} ({order.entries[uid].team.short})")
        for number, uid in enumerate(order.order, 1)
    ]


def _move(call: Call, tournament: Tournament, form: MoveForm) -> Act:
    values = form.cleaned_data
    entry = entry_of(tournament, values["entry"])
    return move_seed(call=call, entry=entry, to=values["to"], reason=values["reason"])


def _taker(row: Override) -> Callable[[Call], Act]:
    return lambda call: take_back_move(call=call, override=row)


@desk(Right.SEED)
def compare(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """Two wrestlers by every criterion, with all the bouts."""
    at = weight_of(tournament, weight)
    order = order_of(at)
    form = CompareForm(request.GET or None, entries=_choices(order, str))
    shown: Page = {"tournament": tournament, "weight": at, "form": form}
    if form.is_valid():
        a, b = form.cleaned_data["a"], form.cleaned_data["b"]
        if a == b:
            form.add_error("b", _("Choose two different wrestlers."))
        else:
            shown["why"] = why(order, a, b)
    return render(request, "seeding/compare.html", shown)
