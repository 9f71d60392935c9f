"""Who may do what in a tournament."""

from dataclasses import dataclass
from enum import StrEnum

from seeding.entries import queries
from seeding.entries.models import Organisation, Role, Tournament, User
from seeding.journal.core.errors import Invalid, NotAllowed, NotFound, Problem
from seeding.journal.services import OPERATOR, Call


class Right(StrEnum):
    """One kind of thing that a role allows."""

    OWN = "own"
    DIRECT = "direct"
    SEED = "seed"
    RECORD = "record"
    READ = "read"


GRANTS: dict[str, frozenset[Right]] = {
    Role.Name.OWNER: frozenset(Right),
    Role.Name.DIRECTOR: frozenset({Right.DIRECT, Right.SEED, Right.RECORD, Right.READ}),
    Role.Name.COMMITTEE: frozenset({Right.SEED, Right.READ}),
    Role.Name.TABLE: frozenset({Right.RECORD, Right.READ}),
    Role.Name.READER: frozenset({Right.READ}),
}


def rights(user: int | None, tournament: int) -> frozenset[Right]:
    """What the user may do in the tournament; the operator at the machine may do everything."""
    if user == OPERATOR:
        return frozenset(Right)
    if user is None:
        return frozenset()
    role = Role.objects.filter(user_id=user, tournament_id=tournament).first()
    if role:
        return GRANTS[role.name]
    superuser = User.objects.filter(pk=user, is_superuser=True, is_active=True).exists()
    return frozenset(Right) if superuser else frozenset()


def require(call: Call, tournament: int, right: Right) -> None:
    """Refuse with `NotAllowed` unless the caller has the right in that tournament."""
    if right not in rights(call.actor, tournament):
        raise NotAllowed(right=right)


@dataclass(frozen=True, slots=True)
class Sight:
    """A tournament before somebody's eyes; `rights` is empty for the public."""

    tournament: Tournament
    rights: frozenset[Right]

    @property
    def own(self) -> bool:
        """Whether closed kinds are seen too, and names in full."""
        return Right.READ in self.rights

    def need(self, right: Right) -> None:
        """Refuse with `NotAllowed` unless the right is there."""
        if right not in self.rights:
            raise NotAllowed(right=right)


def sight(user: int | None, slug: str) -> Sight:
    """The tournament for a user, None being the public.

    Of a tournament that publishes nothing, who has no role in it is not told that it exists.
    """
    tournament = queries.tournament(slug)
    held = rights(user, tournament.pk)
    if not (held or published(tournament)):
        raise NotFound(what="tournament", name=slug)
    return Sight(tournament, held)


def published(tournament: Tournament) -> bool:
    """Whether the public sees anything; seeds and results alone show nothing."""
    return tournament.shows_entries or tournament.shows_draw or tournament.shows_team_points


def may_found(call: Call, organisation: int) -> None:
    """Refuse unless the caller may hold tournaments for the organisation.

    Helpers may not: who holds tournaments changes the organisation's wrestlers and season.
    """
    if not founds(call.actor, organisation):
        raise NotAllowed(right=Right.OWN)


def founds(user: int | None, organisation: int) -> bool:
    """Whether the user may hold tournaments for the organisation."""
    if user == OPERATOR:
        return True
    row = User.objects.filter(pk=user).first() if user else None
    if row is None:
        return False
    return row.is_superuser or (row.founds and row.organisation_id == organisation)


def holder(user: int, slug: str) -> Organisation:
    """For whom a user makes a tournament: the organisation named, else his own."""
    rows = Organisation.objects
    found = (rows.filter(slug=slug) if slug else rows.filter(users=user)).first()
    if found is None:
        hint = f"There is no organisation “{slug}”." if slug else "Say for which organisation."
        raise Invalid([Problem("organisation", hint)])
    return found


def visible(user: int | None) -> "list[Tournament]":
    """The tournaments whose desk the user may enter, newest first."""
    rows = Tournament.objects.order_by("-starts_on", "slug")
    if user is None:
        return []
    if User.objects.filter(pk=user, is_superuser=True).exists():
        return list(rows)
    return list(rows.filter(roles__user_id=user))
