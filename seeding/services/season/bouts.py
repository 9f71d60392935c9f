"""Bouts of the season to look at twice: struck, put back, or left to stand."""

from seeding.core.errors import NotStruck
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right, require
from seeding.journal.core.errors import Invalid, NotFound, Problem
from seeding.journal.services import Call, Deed, act
from seeding.models import BothStand, PriorBout


@act
def strike_bout(*, call: Call, tournament: Tournament, bout: PriorBout, reason: str) -> Deed:
    """Take a bout out of the season, with a reason; a file that brings it again changes nothing."""
    _own(call, tournament, bout)
    if not reason.strip():
        raise Invalid([Problem("reason", "Say why, for those who will ask.")])
    changed = PriorBout.objects.filter(pk=bout.pk, struck_at=None).update(
        struck_at=call.now, struck_by=call.author, struck_reason=reason.strip()
    )
    if not changed:
        raise NotStruck(state="struck")
    return Deed(tournament.log_id, "season.bout-struck", {"prior_bout": bout.pk})


@act
def put_back_bout(*, call: Call, tournament: Tournament, bout: PriorBout) -> Deed:
    """Let a struck bout count again."""
    _own(call, tournament, bout)
    struck = PriorBout.objects.filter(pk=bout.pk, struck_at__isnull=False)
    if not struck.update(struck_at=None, struck_by=None, struck_reason=""):
        raise NotStruck(state="standing")
    return Deed(tournament.log_id, "season.bout-put-back", {"prior_bout": bout.pk})


@act
def let_both_stand(*, call: Call, tournament: Tournament, one: PriorBout, other: PriorBout) -> Deed:
    """Judge that two bouts of the same two wrestlers on one day are two bouts."""
    _own(call, tournament, one, other)
    first, second = sorted((one, other), key=lambda row: row.pk)
    BothStand.objects.get_or_create(
        one=first, other=second, defaults={"author_id": call.author, "at": call.now}
    )
    return Deed(tournament.log_id, "season.both-stand", {"prior_bout": [first.pk, second.pk]})


def _own(call: Call, tournament: Tournament, *bouts: PriorBout) -> None:
    require(call, tournament.pk, Right.DIRECT)
    for row in bouts:
        if row.organisation_id != tournament.organisation_id:
            raise NotFound(what="bout", name=str(row.pk))
