"""Challenges to an order: how long they are heard, what is asked, what the committee answers."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _

from seeding.entries.models import Tournament, WeightClass
from seeding.entries.permissions import Right
from seeding.entries.queries import entry as entry_of
from seeding.entries.queries import weight as weight_of
from seeding.entries.views.desk import carried, desk, posted
from seeding.forms.order import AnswerForm, ChallengeForm, WindowForm
from seeding.journal.forms import ActForm
from seeding.journal.models import Act
from seeding.journal.services import Call
from seeding.models import Challenge
from seeding.queries import Order, order_of, rules_of
from seeding.queries.minutes import challenges_of
from seeding.services import (
    challenge,
    close_challenges,
    grant_challenge,
    open_challenges,
    refuse_challenge,
    withdraw_challenge,
)
from seeding.views.room import by_key

ANSWERS = ("grant", "refuse")
Do = Callable[[Call], Act]


@dataclass(frozen=True, slots=True)
class Asked:
    """One challenge with the forms that answer it."""

    row: Challenge
    name: str
    over: str
    answer: AnswerForm
    withdraw: ActForm


@dataclass(frozen=True, slots=True)
class Forms:
    """Everything that can be sent from the page."""

    window: WindowForm
    close: ActForm
    new: ChallengeForm
    lines: tuple[Asked, ...]


@desk(Right.SEED)
def challenges(request: HttpRequest, tournament: Tournament, weight: str) -> HttpResponse:
    """The window, the challenges and their answers."""
    at = weight_of(tournament, weight)
    order = order_of(at)
    now = timezone.now()
    forms = _forms(request, at, order, now)
    for form, do, word in _acts(request, at, forms):
        if carried(request, form, do):
            messages.success(request, word)
            return redirect("desk-challenges", tournament.slug, at.key)
        form.look_again(order.version)
    until = order.kept.challenges_until if order.kept else None
    bare = (forms.close, *(one.withdraw for one in forms.lines))
    shown = {
        "tournament": tournament,
        "weight": at,
        "rules": rules_of(at.division).committee,
        "until": until,
        "open": bool(until and until > now),
        "window": forms.window,
        "close": forms.close,
        "new": forms.new,
        "lines": forms.lines,
        "refused": [form for form in bare if form.errors],
    }
    return render(request, "seeding/challenges.html", shown)


def _forms(request: HttpRequest, at: WeightClass, order: Order, now: datetime) -> Forms:
    held = {"version": order.version}
    hours = timedelta(hours=rules_of(at.division).committee.challenge_hours)
    until = order.kept.challenges_until if order.kept else None
    return Forms(
        window=WindowForm(
            posted(request, "window"),
            until=until if until and until > now else now + hours,
            zone=at.tournament.time_zone,
            version=order.version,
        ),
        close=ActForm(posted(request, "close"), initial=held, auto_id="close_%s"),
        new=ChallengeForm(posted(request, "new"), entries=by_key(order), version=order.version),
        lines=tuple(_asked(request, row, order) for row in challenges_of(order)),
    )


def _asked(request: HttpRequest, row: Challenge, order: Order) -> Asked:
    held = {"version": order.version}
    withdraw = posted(request, f"withdraw-{row.pk}")
    return Asked(
        row=row,
        name=order.called(row.entry),
        over=order.called(row.over),
        answer=AnswerForm(_answered(request, row), initial=held, auto_id=f"answer{row.pk}_%s"),
        withdraw=ActForm(withdraw, initial=held, auto_id=f"withdraw{row.pk}_%s"),
    )


def _acts(request: HttpRequest, at: WeightClass, forms: Forms) -> Iterator[tuple[ActForm, Do, str]]:
    window, new = forms.window, forms.new
    yield (
        window,
        lambda call: open_challenges(call=call, weight=at, until=_until(window)),
        _("Challenges are heard until then."),
    )
    yield (
        forms.close,
        lambda call: close_challenges(call=call, weight=at),
        _("The window is closed."),
    )
    yield (
        new,
        lambda call: _challenge(call, at.tournament, new),
        _("The challenge is recorded."),
    )
    for one in forms.lines:
        yield one.answer, _answerer(request, one), _("Answered.")
        yield one.withdraw, _withdrawer(one.row), _("Withdrawn.")


def _until(form: WindowForm) -> datetime:
    found: datetime = form.cleaned_data["until"]
    return found


def _challenge(call: Call, tournament: Tournament, form: ChallengeForm) -> Act:
    values = form.cleaned_data
    return challenge(
        call=call,
        entry=entry_of(tournament, values["entry"]),
        over=entry_of(tournament, values["over"]),
        by=values["by"],
        reason=values["reason"],
    )


def _answered(request: HttpRequest, row: Challenge) -> QueryDict | None:
    """What was sent, where the button pressed grants or refuses this challenge."""
    return next(
        (sent for word in ANSWERS if (sent := posted(request, f"{word}-{row.pk}")) is not None),
        None,
    )


def _answerer(request: HttpRequest, one: Asked) -> Do:
    granted = request.POST.get("do", "").startswith("grant-")
    service = grant_challenge if granted else refuse_challenge
    return lambda call: service(
        call=call, challenge=one.row, answer=one.answer.cleaned_data["answer"]
    )


def _withdrawer(row: Challenge) -> Do:
    return lambda call: withdraw_challenge(call=call, challenge=row)
