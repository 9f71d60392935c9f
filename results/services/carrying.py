"""Carrying out what was chosen about wrestled bouts: what stands, what is void."""

from collections.abc import Iterable

from brackets.models import Bout, Drawn
from brackets.queries import bout_name
from brackets.services.number import renumber
from results.core.errors import InTwoBouts, LaterBoutsWrestled, NotAsSeen, PlaceTaken, ReasonMissing
from results.models import Result, Ruling, VoidBout, ended
from results.queries.consequences import Preview
from seeding.entries.models import Entry
from seeding.entries.permissions import Right, require
from seeding.journal.services import Call


def carry_out(call: Call, drawn: Drawn, seen: Preview, *, mark: str, reason: str) -> list[Bout]:
    """Do what the preview says about wrestled bouts; returns those that are void.

    Refuses where something is left to choose, where a law would be broken, and where there was
    something to choose and what was seen then (`mark`) is not what follows now.
    """
    refuse_impossible(seen)
    if not seen.affected:
        return []
    require(call, drawn.weight_class.tournament_id, Right.DIRECT)
    if mark != seen.mark:
        raise NotAsSeen
    need_reason(reason)
    void = [_void(call, row, reason) for row in seen.void]
    renumber(void)
    for ruling in seen.made:
        save_ruling(call, Ruling.of(drawn, ruling), reason)
    return void


def refuse_impossible(seen: Preview) -> None:
    """Refuse, by name, what the preview forbids."""
    if seen.wrestled:
        listed = _named(seen.wrestled)
        raise LaterBoutsWrestled(later=listed, where=listed)
    if seen.clashes:
        bouts = [bout for one in seen.clashes for bout in one.bouts]
        raise InTwoBouts(wrestlers=_names(one.entry for one in seen.clashes), bouts=_named(bouts))
    for one in seen.shared:
        raise PlaceTaken(place=one.place, wrestlers=_names(one.entries))


def need_reason(reason: str) -> None:
    """Refuse what is to stay on record without a reason."""
    if not reason.strip():
        raise ReasonMissing


def save_ruling(call: Call, row: Ruling, reason: str) -> Ruling:
    """Keep a ruling with who made it, when and why."""
    row.reason, row.at, row.author_id = reason, call.now, call.author
    row.save()
    return row


def _void(call: Call, row: Result, reason: str) -> Bout:
    bout = row.bout
    if bout.top is None or bout.bottom is None:
        raise AssertionError("a bout with a result has both its wrestlers")
    VoidBout.objects.create(
        bout=bout,
        number=bout.number,
        mat=bout.mat,
        top=bout.top,
        bottom=bout.bottom,
        reason=reason,
        voided_at=call.now,
        voided_by_id=call.author,
        occurred_at=row.occurred_at,
        received_at=row.received_at,
        author_id=row.author_id,
        **ended(row.outcome),
    )
    row.delete()
    return bout


def _named(bouts: Iterable[Bout]) -> str:
    return ", ".join(dict.fromkeys(bout_name(row) for row in bouts))


def _names(entries: Iterable[Entry]) -> str:
    return ", ".join(row.wrestler.name for row in entries)
