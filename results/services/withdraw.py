"""Withdrawals: who wrestles no more, and who comes back."""

from brackets.core.errors import BoutNotReady
from brackets.models import Drawn
from brackets.queries import bout_name, bouts
from brackets.services import lock_bracket
from brackets.services.logged import logged
from results.core.errors import AlreadyWithdrawn, ResultsRest
from results.models import Withdrawal
from results.queries.consequences import Choices
from results.queries.facts import facts
from results.queries.late import Follows
from results.queries.out import look_at_return
from results.queries.standing import standing_of
from results.services.carrying import carry_out
from results.services.rehearsal import rehearsed, seen_through
from results.services.settle import settle
from seeding.entries.models import Entry
from seeding.entries.permissions import Right, require
from seeding.journal.services import Call, Deed, act, advance_version


@act
def withdraw(*, call: Call, entry: Entry, kind: str, reason: str = "", mark: str = "") -> Deed:
    """Take an entry out of a drawn weight: every bout still to come is a forfeit.

    `mark`: of the preview that was seen; refused where something else would follow now. Licensed
    medical staff and the local code decide about injury and return; this only records.
    """
    require(call, entry.tournament_id, Right.DIRECT)
    advance_version(Entry.objects.filter(pk=entry.pk), call, "The entry")
    seen_through([entry.weight_class], lambda: leave(call, entry, kind, reason), mark)
    return Deed(entry.tournament.log_id, "entry.withdrawn", {"entry": entry.pk, "kind": kind})


def look_at_withdrawal(call: Call, entry: Entry, kind: str) -> Follows:
    """What would follow from taking an entry out of a drawn weight."""
    require(call, entry.tournament_id, Right.DIRECT)
    return rehearsed([entry.weight_class], lambda: leave(call, entry, kind))


def leave(call: Call, entry: Entry, kind: str, reason: str = "") -> None:
    """Take an entry out of its weight inside a greater act."""
    drawn = _lock(entry)
    if Withdrawal.objects.filter(entry=entry).exists():
        raise AlreadyWithdrawn(entry=entry.key)
    Withdrawal.objects.create(
        entry=entry,
        kind=Withdrawal.Kind(kind),
        behind=_behind(drawn, entry, kind),
        reason=reason,
        at=call.now,
        author_id=call.author,
    )
    if not drawn:
        return
    try:
        settle(drawn)
    except BoutNotReady as refusal:
        lost = next(row for row in bouts(drawn) if row.key == refusal.params["bout"])
        raise ResultsRest(bout=bout_name(lost), who=entry.wrestler.name) from refusal


@act
def reinstate(
    *,
    call: Call,
    entry: Entry,
    choices: Choices | None = None,
    mark: str = "",
    reason: str = "",
) -> Deed:
    """Let a withdrawn entry wrestle on.

    `choices`, `mark` and `reason`: as in `correct_result`, for bouts wrestled in his place.
    Licensed medical staff and the local code decide about return; this only records.
    """
    require(call, entry.tournament_id, Right.DIRECT)
    advance_version(Entry.objects.filter(pk=entry.pk), call, "The entry")
    drawn = _lock(entry)
    seen = look_at_return(entry, choices)
    void = carry_out(call, drawn, seen, mark=mark, reason=reason) if drawn else []
    Withdrawal.objects.filter(entry=entry).delete()
    if drawn:
        settle(drawn)
    subject = {"entry": entry.pk} | logged(void=void)
    return Deed(entry.tournament.log_id, "entry.reinstated", subject)


def _behind(drawn: Drawn | None, entry: Entry, kind: str) -> str:
    """The last bout or bye that he has behind him: what he won before he left still stands."""
    if not drawn:
        return ""
    reported = kind != Withdrawal.Kind.ABSENT
    behind = standing_of(drawn, facts(drawn)).behind(entry.key, reported=reported)
    return str(behind) if behind else ""


def _lock(entry: Entry) -> Drawn | None:
    rows = Drawn.objects.select_related("weight_class__division")
    drawn = rows.filter(weight_class_id=entry.weight_class_id).first()
    if drawn:
        lock_bracket(drawn)
    return drawn
