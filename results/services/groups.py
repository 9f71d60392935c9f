"""Groups formed after weigh-in that are merged, split, or exchange a wrestler."""

from collections.abc import Sequence

from django.db import transaction
from django.db.models import ProtectedError

from results.core.errors import GroupWrestled
from results.queries.regroup import After, Change, Regrouped, regrouped
from results.services.draw import undo
from seeding.entries.models import Entry, GroupReason, WeightClass
from seeding.entries.permissions import Right, require
from seeding.entries.queries.groups import WAITING, waiting_of
from seeding.entries.services.division import light_to_heavy
from seeding.entries.services.groups import new_group, put_into
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call, Deed, act
from seeding.services import void_seeds

PUBLISHED = "The groups were changed."  # a committed draw's reason is published, ours is not


@act
def regroup(
    *,
    call: Call,
    group: WeightClass,
    entries: Sequence[str],
    target: WeightClass | None,
    reason: str = "",
) -> Deed:
    """Move entries (by key) to another group, None being a new one.

    Until the first bout of a touched group has a result: a draw of it is taken back. A limit that
    would be broken needs a reason, which stays at the desk.
    """
    require(call, group.tournament_id, Right.DIRECT)
    waiting_of(group.division)
    change = Change(group.division, group, tuple(entries), target)
    seen = regrouped(change)
    _allowed(seen, reason)
    into = _carry_out(call, change, seen)
    _note(call, change, seen, reason.strip(), into)
    subject = {"division": group.division_id, "weights": [group.pk, into.pk]}
    moved = {"entries": [one.pk for one in seen.moved]}
    _leave_none_empty(change, seen)
    light_to_heavy(group.tournament)
    return Deed(group.tournament.log_id, _verb(change, seen), subject | moved)


def _allowed(seen: Regrouped, reason: str) -> None:
    for side in seen.wrestled:
        raise GroupWrestled(group=_label(side), count=side.wrestled)
    if seen.needs_reason and not reason.strip():
        raise Invalid([Problem("reason", "A limit would be broken: say why it is right here.")])


def _carry_out(call: Call, change: Change, seen: Regrouped) -> WeightClass:
    """Take draws and seeds back and move the entries; the group that they are in then."""
    for side in seen.sides:
        if side.weight and side.drawn:
            undo(call, side.weight, PUBLISHED)
        if side.weight:
            void_seeds(side.weight)
    if change.target is None:
        movers = {one.pk for one in seen.moved}
        members = tuple(one for one in seen.sides[1].members if one.entry.pk in movers)
        return new_group(change.division, members)
    put_into(change.target, [one.pk for one in seen.moved])
    return change.target


def _note(call: Call, change: Change, seen: Regrouped, reason: str, into: WeightClass) -> None:
    if seen.needs_reason:
        GroupReason.objects.create(
            division=change.division,
            group=f"{change.group.label}, {into.label}",
            reason=reason,
            at=call.now,
            by_id=call.author,
        )


def _leave_none_empty(change: Change, seen: Regrouped) -> None:
    """Remove a group that everybody has left; one whose seeding or draws are on record stays."""
    if seen.sides[0].members or seen.sides[0].waits or change.target is None:
        return
    scratched = Entry.objects.filter(weight_class=change.group)
    put_into(waiting_of(change.division), list(scratched.values_list("pk", flat=True)))
    try:
        with transaction.atomic():
            change.group.delete()
    except ProtectedError:
        return


def _verb(change: Change, seen: Regrouped) -> str:
    if change.target is None:
        return "group.split"
    whole = not (seen.sides[0].members or seen.sides[0].waits)
    return "groups.merged" if whole else "group.moved"


def _label(side: After) -> str:
    return side.weight.label if side.weight else WAITING
