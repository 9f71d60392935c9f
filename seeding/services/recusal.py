"""Recusal: members of the committee belong to teams, and have no say over their wrestlers."""

from collections.abc import Collection, Sequence

from seeding.core.errors import OwnWrestler
from seeding.core.rules import OwnWrestlers
from seeding.entries.models import Team, Tournament, User, WeightClass
from seeding.entries.permissions import GRANTS, Right, require
from seeding.entries.queries import roles
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call, Deed, act
from seeding.models import OwnTeam
from seeding.queries import Order, rules_of
from seeding.queries.recusal import own_teams, own_wrestlers


@act
def set_own_teams(*, call: Call, tournament: Tournament, user: User, teams: Sequence[Team]) -> Deed:
    """Say to which teams somebody of the committee belongs; none: to no team."""
    require(call, tournament.pk, Right.DIRECT)
    role = roles(tournament).filter(user=user).first()
    if teams and (role is None or Right.SEED not in GRANTS[role.name]):
        hint = f"{user.username} has no part in the seeding room. Give the role first."
        raise Invalid([Problem("username", hint)])
    OwnTeam.objects.filter(tournament=tournament, user=user).delete()
    OwnTeam.objects.bulk_create(
        OwnTeam(tournament=tournament, user=user, team=team) for team in teams
    )
    subject = {"user": user.pk, "team": [team.pk for team in teams]}
    return Deed(tournament.log_id, "recusal.set", subject)


def stand_aside(
    call: Call, weight: WeightClass, order: Order, after: Sequence[str], named: Collection[str]
) -> None:
    """Refuse (OwnWrestler) where the caller would act on a wrestler of his own team.

    `after`: the order as it would become; `named`: the ids whom the act is about. To pass one's own
    wrestler by another is to decide about him too, so his place must stay the same.
    """
    if rules_of(weight.division).committee.own_wrestlers is not OwnWrestlers.NO_SAY:
        return
    own = own_wrestlers(order, own_teams(weight.tournament, call.actor))
    touched = [
        uid
        for at, uid in enumerate(order.order)
        if uid in own and (uid in named or after[at] != uid)
    ]
    if touched:
        raise OwnWrestler(wrestler=", ".join(order.names[uid] for uid in touched))
