"""Teams, co-operative teams, merging and splitting."""

from collections.abc import Sequence

from django.db.models import F, QuerySet
from django.utils.text import slugify

from seeding.entries.core.errors import CannotMerge, TakenName, TeamClosed
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


def merge(team: Team, into: Team) -> list[int]:
    """Move all of a team's entries to another and close it; returns the weights touched."""
    if team.pk == into.pk or team.tournament_id != into.tournament_id:
        raise CannotMerge(team=team.name, into=into.name, why="they are not two teams of one event")
    for closed in (team, into):
        if closed.merged_into_id:
            raise CannotMerge(team=team.name, into=into.name, why=f"{closed.name} is closed")
    members = [*(into.members or [into.name]), *(team.members or [team.name])]
    Team.objects.filter(pk=into.pk).update(members=members)
    Team.objects.filter(pk=team.pk).update(merged_into=into)
    return rehome(Entry.objects.filter(team=team), into)


def open_team(team: Team) -> None:
    """Refuse with `TeamClosed` when the team was merged into another."""
    if Team.objects.filter(pk=team.pk).exclude(merged_into=None).exists():
        raise TeamClosed(team=team.name)


def rehome(rows: QuerySet[Entry], team: Team) -> list[int]:
    """Give the entries another team; returns the weights touched."""
    open_team(team)
    weights = list(rows.values_list("weight_class_id", flat=True).distinct())
    rows.update(team=team, version=F("version") + 1)
    return weights
