"""Teams, co-operative teams, merging and splitting."""

from collections.abc import Sequence

from django.db.models import F
from django.utils.text import slugify

from seeding.entries.core.errors import StillUsed, TakenName
from seeding.entries.models import Entry, Team, Tournament
from seeding.entries.permissions import Right, require
from seeding.journal.services import Call, Deed, act


@act
def add_team(
    *,
    call: Call,
    tournament: Tournament,
    name: str,
    short: str,
    members: Sequence[str] = (),
    key: str = "",
) -> Deed:
    """A new team; `members` names the schools of a co-operative one."""
    require(call, tournament.pk, Right.DIRECT)
    made = make_team(tournament, name, short, members, key)
    return Deed(tournament.log_id, "team.added", {"team": made.pk})


def make_team(
    tournament: Tournament, name: str, short: str, members: Sequence[str] = (), key: str = ""
) -> Team:
    """The row of a new team, for services that add several things in one act."""
    teams = Team.objects.filter(tournament=tournament)
    key = key or slugify(name)[:40] or f"team-{teams.count() + 1}"
    if teams.filter(key=key).exists() or teams.filter(name=name).exists():
        raise TakenName(what="team", name=name)
    return Team.objects.create(
        tournament=tournament, key=key, name=name, short=short, members=list(members)
    )


@act
def edit_team(
    *, call: Call, team: Team, name: str, short: str, members: Sequence[str] = ()
) -> Deed:
    """Rename a team or change whom it is made of."""
    require(call, team.tournament_id, Right.DIRECT)
    others = Team.objects.filter(tournament=team.tournament_id, name=name).exclude(pk=team.pk)
    if others.exists():
        raise TakenName(what="team", name=name)
    Team.objects.filter(pk=team.pk).update(name=name, short=short, members=list(members))
    return Deed(team.tournament.log_id, "team.edited", {"team": team.pk})


@act
def merge_teams(*, call: Call, team: Team, into: Team) -> Deed:
    """Make one team of two: the wrestlers move with their points, the first team is closed.

    Adjustments stay with the team they were given to and count for the heir (results follows
    `merged_into`).
    """
    require(call, team.tournament_id, Right.DIRECT)
    if team.pk == into.pk or team.merged_into_id or into.merged_into_id:
        raise StillUsed(what="Team", name=team.name, count=0, users="ways to be merged")
    members = sorted({*into.members, *(team.members or [team.name])})
    Entry.objects.filter(team=team).update(team=into, version=F("version") + 1)
    Team.objects.filter(pk=into.pk).update(members=members)
    Team.objects.filter(pk=team.pk).update(merged_into=into)
    return Deed(team.tournament.log_id, "teams.merged", {"team": team.pk, "into": into.pk})


@act
def split_team(
    *, call: Call, team: Team, name: str, short: str, entries: Sequence[Entry]
) -> Deed:
    """Make a second team out of some wrestlers of a first; their points go with them."""
    require(call, team.tournament_id, Right.DIRECT)
    made = make_team(team.tournament, name, short)
    moved = Entry.objects.filter(team=team, pk__in=[row.pk for row in entries])
    ids = sorted(moved.values_list("pk", flat=True))
    moved.update(team=made, version=F("version") + 1)
    return Deed(
        team.tournament.log_id, "team.split", {"team": team.pk, "into": made.pk, "entries": ids}
    )
