"""Acts on teams that move points: merge, split, move a wrestler, adjust by hand."""

from collections.abc import Iterable, Sequence
from decimal import Decimal

from brackets.models import Drawn
from brackets.services import lock_bracket
from results.models import Adjustment
from results.services.settle import settle
from seeding.entries.models import Division, Entry, Team
from seeding.entries.permissions import Right, require
from seeding.entries.services import team as ground
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call, Deed, act


@act
def merge_teams(*, call: Call, team: Team, into: Team) -> Deed:
    """Make one team of two: the wrestlers move with their points, adjustments too."""
    require(call, team.tournament_id, Right.DIRECT)
    moved = ground.merge(team, into)
    Adjustment.objects.filter(team=team).update(team=into)
    _settle_weights(moved)
    return Deed(team.tournament.log_id, "teams.merged", {"team": team.pk, "into": into.pk})


@act
def split_team(*, call: Call, team: Team, name: str, short: str, entries: Sequence[Entry]) -> Deed:
    """Make a second team out of some wrestlers of a first; their points go with them."""
    require(call, team.tournament_id, Right.DIRECT)
    made = ground.make_team(team.tournament, name, short)
    ids = [row.pk for row in entries]
    _settle_weights(ground.rehome(Entry.objects.filter(team=team, pk__in=ids), made))
    subject = {"team": team.pk, "into": made.pk, "entries": ids}
    return Deed(team.tournament.log_id, "team.split", subject)


@act
def move_entry(*, call: Call, entry: Entry, team: Team) -> Deed:
    """Move a wrestler to another team; the points he earned go with him."""
    require(call, entry.tournament_id, Right.DIRECT)
    _settle_weights(ground.rehome(Entry.objects.filter(pk=entry.pk), team))
    return Deed(entry.tournament.log_id, "entry.moved", {"entry": entry.pk, "team": team.pk})


@act
def adjust(*, call: Call, division: Division, team: Team, points: Decimal, reason: str) -> Deed:
    """Give a team points, or take some, with a reason that stands beside them."""
    require(call, team.tournament_id, Right.DIRECT)
    if not points or not reason.strip():
        raise Invalid([Problem("points", "Give points other than 0, and a reason.")])
    made = Adjustment.objects.create(
        division=division,
        team=team,
        points=points,
        reason=reason.strip(),
        at=call.now,
        author_id=call.author,
    )
    return Deed(team.tournament.log_id, "points.adjusted", {"adjustment": made.pk})


@act
def take_back_adjustment(*, call: Call, adjustment: Adjustment) -> Deed:
    """Remove an adjustment; the log keeps that it was there."""
    team = adjustment.team
    require(call, team.tournament_id, Right.DIRECT)
    gone = adjustment.pk
    adjustment.delete()
    return Deed(team.tournament.log_id, "points.adjustment-taken-back", {"adjustment": gone})


def _settle_weights(weights: Iterable[int]) -> None:
    rows = Drawn.objects.filter(weight_class_id__in=set(weights)).order_by("pk")
    for drawn in rows.select_related("weight_class__division"):
        lock_bracket(drawn)
        settle(drawn)
