"""A tournament with people of every role, for the tests of the desk pages."""

from datetime import UTC, date, datetime

from django.test import Client

from seeding.entries.models import Division, Role, Tournament, User, WeightClass
from seeding.entries.services import (
    add_division,
    add_entry,
    add_team,
    add_weight_set,
    create_tournament,
    found_organisation,
    give_role,
)
from seeding.entries.services.entry import Person
from seeding.journal.services import OPERATOR, Call

NOW = datetime(2026, 3, 19, 15, 0, tzinfo=UTC)
CALL = Call(OPERATOR, NOW)


def spring(*, weights: bool = True) -> Tournament:
    """A tournament of one division; with `weights`, the ten of the college rule book."""
    organisation = found_organisation(slug="home", name="Home")
    create_tournament(
        call=CALL,
        organisation=organisation,
        slug="spring",
        name="Spring Open",
        starts_on=date(2026, 3, 19),
        time_zone="America/Chicago",
        mats=["1", "2"],
    )
    tournament = Tournament.objects.get(slug="spring")
    if weights:
        add_division(
            call=CALL,
            tournament=tournament,
            key="open",
            name="Open",
            rulebook="college-2025",
            settings={},
        )
        add_weight_set(call=CALL, division=Division.objects.get(key="open"), name="men")
    return tournament


def signed_in(role: str | None, tournament: Tournament) -> Client:
    """A browser of somebody with that role (None: with none)."""
    user = User.objects.create(
        username=role or "nobody",
        organisation=tournament.organisation,
        founds=role == Role.Name.OWNER,
    )
    if role:
        give_role(call=CALL, tournament=tournament, user=user, name=role)
    client = Client()
    client.force_login(user)
    return client


def owner(tournament: Tournament) -> Client:
    """The owner's browser."""
    return signed_in(Role.Name.OWNER, tournament)


def enter(tournament: Tournament, weight: str, *names: str) -> WeightClass:
    """Enter wrestlers at a weight, each for a team of his own."""
    at = WeightClass.objects.get(tournament=tournament, key=weight)
    for name in names:
        given, _, family = name.partition(" ")
        team = tournament.teams.filter(name=f"Team {family}").first()
        if not team:
            add_team(call=CALL, tournament=tournament, name=f"Team {family}", short=family[:3])
            team = tournament.teams.get(name=f"Team {family}")
        add_entry(call=CALL, weight=at, team=team, person=Person(given, family))
    return at
