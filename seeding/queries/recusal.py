"""Who of the committee belongs to which team, and so has no say over whom."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from seeding.entries.models import Role, Team, Tournament, User
from seeding.entries.permissions import GRANTS, Right
from seeding.models import OwnTeam
from seeding.queries.order import Order


@dataclass(frozen=True, slots=True)
class Member:
    """Somebody who may act in the seeding room, and his own teams."""

    user: User
    role: Role
    teams: tuple[Team, ...]

    @property
    def mark(self) -> str:
        """What tells his form from the others'."""
        return str(self.user.pk)


def members(tournament: Tournament) -> list[Member]:
    """Everybody who may act in the seeding room, by sign-in name."""
    own = _teams(tournament)
    roles = Role.objects.filter(tournament=tournament).select_related("user")
    return [
        Member(row.user, row, tuple(own.get(row.user_id, ())))
        for row in roles.order_by("user__username")
        if Right.SEED in GRANTS[row.name]
    ]


def recused(tournament: Tournament) -> Mapping[str, tuple[Team, ...]]:
    """The teams of everybody who has own ones, by sign-in name, also of who lost his role since."""
    own = _teams(tournament)
    users = User.objects.in_bulk(own)
    return {
        users[pk].username: tuple(own[pk]) for pk in sorted(own, key=lambda pk: users[pk].username)
    }


def _teams(tournament: Tournament) -> Mapping[int, list[Team]]:
    found: dict[int, list[Team]] = {}
    rows = OwnTeam.objects.filter(tournament=tournament).select_related("team__merged_into")
    for row in rows.order_by("team__name"):
        found.setdefault(row.user_id, []).append(row.team)
    return found


def own_wrestlers(order: Order, teams: Iterable[Team]) -> frozenset[str]:
    """The ids of the entrants of these teams, also of those that took one of them in."""
    ids = {pk for team in teams for pk in (team.pk, team.merged_into_id) if pk}
    return frozenset(uid for uid, row in order.entries.items() if row.team_id in ids)


def own_teams(tournament: Tournament, user: int) -> tuple[Team, ...]:
    """The teams that a user belongs to."""
    return tuple(_teams(tournament).get(user, ()))
