"""Challenges: coaches are heard until a stated time, and the committee answers each."""

from datetime import datetime, timedelta

from seeding.core.errors import Answered, NotHeard, WindowClosed
from seeding.core.rules import Challenges
from seeding.entries.models import Entry, WeightClass
from seeding.entries.permissions import Right, require
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call, Deed, act
from seeding.models import Challenge, Override, SeedOrder
from seeding.queries import Order, order_of, rules_of
from seeding.services.order import open_order, put
from seeding.services.recusal import stand_aside

State = Challenge.State


@act
def open_challenges(*, call: Call, weight: WeightClass, until: datetime | None) -> Deed:
    """Hear challenges until then; without a time, for as long as the list says."""
    require(call, weight.tournament_id, Right.SEED)
    rules = rules_of(weight.division).committee
    if rules.challenges is Challenges.NONE:
        raise NotHeard(why="the list of this division hears none")
    ends = until or call.now + timedelta(hours=rules.challenge_hours)
    if ends <= call.now:
        raise Invalid([Problem("until", "This time is past. Choose a later one.")])
    return _window(call, weight, ends)


@act
def close_challenges(*, call: Call, weight: WeightClass) -> Deed:
    """Hear no challenge from now on."""
    require(call, weight.tournament_id, Right.SEED)
    return _window(call, weight, call.now)


def _window(call: Call, weight: WeightClass, until: datetime) -> Deed:
    kept = open_order(call, weight)
    SeedOrder.objects.filter(pk=kept.pk).update(challenges_until=until)
    subject = {"weight": weight.pk, "until": until.isoformat()}
    return Deed(weight.tournament.log_id, "challenge.opened", subject)


@act
def challenge(*, call: Call, entry: Entry, over: Entry, by: str, reason: str) -> Deed:
    """Record that a coach asks to have `entry` put above `over`, who stands above him."""
    weight = entry.weight_class
    require(call, weight.tournament_id, Right.SEED)
    kept = open_order(call, weight)
    _heard(call, kept, order_of(weight), entry, over)
    row = Challenge.objects.create(
        order=kept,
        entry=entry,
        over=over,
        by=by.strip(),
        reason=reason.strip(),
        author_id=call.author,
        at=call.now,
    )
    return _deed(row, "challenge.made")


def _heard(call: Call, kept: SeedOrder, order: Order, entry: Entry, over: Entry) -> None:
    weight = entry.weight_class
    until = kept.challenges_until
    if until is None or call.now >= until:
        when = "until a time that is past" if until else "only in a window, and none is open"
        raise WindowClosed(weight=weight.label, when=when)
    one, other = entry.wrestler.uid, over.wrestler.uid
    if not {one, other} <= set(order.order):
        raise Invalid([Problem("over", f"Both must be entered at {weight.label}.")])
    if order.order.index(one) <= order.order.index(other):
        raise Invalid([Problem("over", "Choose somebody who stands above him.")])
    rules = rules_of(weight.division).committee
    if rules.challenges is Challenges.NONE:
        raise NotHeard(why="the list of this division hears none")
    for criterion in rules.challenge_needs:
        if criterion.compare(one, other, order.proposal.season).better != one:
            who = f"{order.names[one]} over {order.names[other]}"
            raise NotHeard(why=f"{criterion.name} does not speak for {who}, and has to")


@act
def grant_challenge(*, call: Call, challenge: Challenge, answer: str) -> Deed:
    """The committee agrees: the wrestler takes the place of him over whom he asked to stand."""
    kept, order = _answering(call, challenge, answer)
    move: Override | None = None
    at = order.order.index(challenge.over.wrestler.uid)
    if order.order.index(challenge.entry.wrestler.uid) > at:
        reason = f"Challenge by {challenge.by}: {answer.strip()}"
        move = put(call, kept, order, challenge.entry, at + 1, reason[:300])
    _answer(call, challenge, State.GRANTED, answer, move)
    return _deed(challenge, "challenge.granted")


@act
def refuse_challenge(*, call: Call, challenge: Challenge, answer: str) -> Deed:
    """The committee leaves the order as it is, and says why."""
    _answering(call, challenge, answer)
    _answer(call, challenge, State.REFUSED, answer)
    return _deed(challenge, "challenge.refused")


@act
def withdraw_challenge(*, call: Call, challenge: Challenge) -> Deed:
    """The coach does not ask any more."""
    weight = challenge.order.weight_class
    require(call, weight.tournament_id, Right.SEED)
    open_order(call, weight)
    _still_open(challenge)
    order = order_of(weight)
    named = {challenge.entry.wrestler.uid, challenge.over.wrestler.uid}
    stand_aside(call, weight, order, order.order, named)
    _answer(call, challenge, State.WITHDRAWN, "")
    return _deed(challenge, "challenge.withdrawn")


def _answering(call: Call, row: Challenge, answer: str) -> tuple[SeedOrder, Order]:
    weight = row.order.weight_class
    require(call, weight.tournament_id, Right.SEED)
    kept = open_order(call, weight)
    _still_open(row)
    if not answer.strip():
        raise Invalid([Problem("answer", "Say why, for the coach who asked.")])
    order = order_of(weight)
    named = {row.entry.wrestler.uid, row.over.wrestler.uid}
    if not named <= set(order.order):
        raise Invalid([Problem("answer", "One of the two is scratched. Withdraw the challenge.")])
    stand_aside(call, weight, order, order.order, named)
    return kept, order


def _still_open(row: Challenge) -> None:
    row.refresh_from_db()
    if row.state != State.OPEN:
        raise Answered(state=row.get_state_display())


def _answer(
    call: Call, row: Challenge, state: State, answer: str, move: Override | None = None
) -> None:
    Challenge.objects.filter(pk=row.pk).update(
        state=state,
        answer=answer.strip(),
        answered_by=call.author,
        answered_at=call.now,
        move=move,
    )


def _deed(row: Challenge, verb: str) -> Deed:
    weight = row.order.weight_class
    subject = {"weight": weight.pk, "entry": row.entry_id, "challenge": row.pk}
    return Deed(weight.tournament.log_id, verb, subject)
