"""Organisations, users, roles."""

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError

from seeding.entries.core.errors import LastOwner, TakenName
from seeding.entries.models import Organisation, Role, Tournament, User
from seeding.entries.permissions import Right, require
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call, Deed, act


def found_organisation(*, slug: str, name: str) -> Organisation:
    """The organisation with that slug, made when there is none; it has no log of its own."""
    return Organisation.objects.get_or_create(slug=slug, defaults={"name": name})[0]


def add_user(*, organisation: Organisation, username: str, password: str) -> User:
    """A new user of the organisation; the faces ask whether the caller may make one."""
    if User.objects.filter(username=username).exists():
        raise TakenName(what="user", name=username)
    user = User(username=username, organisation=organisation)
    try:
        validate_password(password, user)
    except ValidationError as error:
        raise Invalid([Problem("password", text) for text in error.messages]) from error
    user.set_password(password)
    user.save()
    return user


@act
def give_role(*, call: Call, tournament: Tournament, user: User, name: str) -> Deed:
    """Give a user a role in the tournament, or another role than before."""
    require(call, tournament.pk, Right.OWN)
    _keep_an_owner(tournament, user, name)
    Role.objects.update_or_create(tournament=tournament, user=user, defaults={"name": name})
    return Deed(tournament.log_id, "role.given", {"user": user.pk, "role": name})


@act
def take_role(*, call: Call, tournament: Tournament, user: User) -> Deed:
    """Take a user's role away."""
    require(call, tournament.pk, Right.OWN)
    _keep_an_owner(tournament, user, None)
    Role.objects.filter(tournament=tournament, user=user).delete()
    return Deed(tournament.log_id, "role.taken", {"user": user.pk})


def _keep_an_owner(tournament: Tournament, user: User, name: str | None) -> None:
    owners = Role.objects.filter(tournament=tournament, name=Role.Name.OWNER)
    is_owner = owners.filter(user=user).exists()
    if is_owner and name != Role.Name.OWNER and owners.count() == 1:
        raise LastOwner(name=user.username)
