"""Results: enter, correct, undo, confirm."""

from collections.abc import Mapping
from contextlib import suppress
from datetime import datetime

from brackets.models import Bout
from brackets.queries import bout_name
from brackets.services import lock_bracket
from brackets.services.logged import logged
from results.core.errors import (
    BoutAlreadyDecided,
    BoutHasNoResult,
    BoutNotOpen,
)
from results.core.outcomes import Outcome, check, notation
from results.models import Result
from results.queries.consequences import Choices
from results.queries.facts import rules_of
from results.queries.preview import preview
from results.services.carrying import carry_out
from results.services.settle import settle
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right, require
from seeding.journal.core.errors import Stale
from seeding.journal.services import Call, Deed, act, advance_version


@act
def enter_result(*, call: Call, bout: Bout, outcome: Outcome) -> Deed:
    """Enter the result of an open bout; both wrestlers move on at once, provisionally."""
    drawn = bout.drawn
    weight = drawn.weight_class
    require(call, weight.tournament_id, Right.RECORD)
    lock_bracket(drawn)
    existing = Result.objects.filter(bout=bout).first()
    if existing:
        raise BoutAlreadyDecided(bout=bout_name(bout), notation=notation(existing.outcome))
    advance_version(Bout.objects.filter(pk=bout.pk), call, f"Bout {bout_name(bout)}")
    check(outcome, rules_of(weight.division).results, complete=True)
    fresh = Bout.objects.get(pk=bout.pk)
    if fresh.status != Bout.Status.READY:
        raise BoutNotOpen(bout=bout_name(bout), status=fresh.get_status_display())
    save_result(call, fresh, outcome)
    settle(drawn)
    return Deed(weight.tournament.log_id, "result.entered", logged(bout=bout))


@act
def correct_result(
    *,
    call: Call,
    bout: Bout,
    outcome: Outcome | None,
    choices: Choices | None = None,
    mark: str = "",
    reason: str = "",
) -> Deed:
    """Replace a result, or with `outcome` None undo it; an official one needs the right to direct.

    The one way back. `results.queries.preview` shows beforehand what depends on it. Where later
    bouts that would change hands have been wrestled, the director chooses for each what becomes
    of it (`choices`) and says why; `mark` is that of the preview with these choices, so that only
    what was seen is done. Refused, with the list of those bouts, until all are chosen.
    """
    drawn = bout.drawn
    weight = drawn.weight_class
    require(call, weight.tournament_id, Right.RECORD)
    lock_bracket(drawn)
    _official_needs_direct(call, bout)
    before = Result.objects.filter(bout=bout).first()
    if not before:
        raise BoutHasNoResult(bout=bout_name(bout))
    advance_version(Bout.objects.filter(pk=bout.pk), call, f"Bout {bout_name(bout)}")
    if outcome:
        check(outcome, rules_of(weight.division).results, complete=True)
    void = carry_out(call, drawn, preview(bout, outcome, choices), mark=mark, reason=reason)
    before.delete()
    if outcome:
        save_result(call, bout, outcome, before.occurred_at)
    settle(drawn)
    verb = "result.corrected" if outcome else "result.undone"
    return Deed(weight.tournament.log_id, verb, logged(bout=bout, void=void))


def _official_needs_direct(call: Call, bout: Bout) -> None:
    if Result.objects.filter(bout=bout, state=Result.State.OFFICIAL).exists():
        require(call, bout.drawn.weight_class.tournament_id, Right.DIRECT)


def save_result(
    call: Call, bout: Bout, outcome: Outcome, occurred_at: datetime | None = None
) -> Result:
    """The row of an outcome; without another time it happened now."""
    row = Result.of(bout, outcome)
    row.occurred_at, row.received_at = occurred_at or call.now, call.now
    row.author_id = call.author
    row.save()
    return row


@act
def confirm_result(*, call: Call, bout: Bout, state: str) -> Deed:
    """Raise a result to confirmed or official, or bring it back to entered."""
    weight = bout.drawn.weight_class
    right = Right.RECORD if state == Result.State.CONFIRMED else Right.DIRECT
    require(call, weight.tournament_id, right)
    lock_bracket(bout.drawn)
    _official_needs_direct(call, bout)
    advance_version(Bout.objects.filter(pk=bout.pk), call, f"Bout {bout_name(bout)}")
    if not Result.objects.filter(bout=bout).update(state=Result.State(state)):
        raise BoutHasNoResult(bout=bout_name(bout))
    return Deed(weight.tournament.log_id, f"result.{state}", logged(bout=bout))


def make_official(*, call: Call, tournament: Tournament, seen: Mapping[int, int]) -> int:
    """Make many results official, each an act of its own; returns how many.

    `seen` are bouts with the version that the person had before the eyes: what was changed since
    is passed over.
    """
    require(call, tournament.pk, Right.DIRECT)
    rows = Bout.objects.filter(pk__in=seen, drawn__weight_class__tournament=tournament)
    done = 0
    for bout in rows.select_related("drawn__weight_class__tournament").order_by("number"):
        key = call.key and f"{call.key}/{bout.pk}"
        one = Call(call.actor, call.now, key, seen[bout.pk])
        with suppress(Stale, BoutHasNoResult):
            confirm_result(call=one, bout=bout, state=Result.State.OFFICIAL)
            done += 1
    return done
