"""Organisations, users, roles."""

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import F
from django.utils.text import slugify

from seeding.entries.core.errors import LastOwner, TakenName
from seeding.entries.models import Organisation, Role, Tournament, User
from seeding.entries.permissions import Right, require
from seeding.journal.core.errors import Invalid, NotAllowed, Problem
from seeding.journal.models import Act
from seeding.journal.services import OPERATOR, Call, Deed, act


def found_organisation(*, slug: str, name: str) -> Organisation:
    """The organisation with that slug, made when there is none; it has no log of its own."""
    return Organisation.objects.get_or_create(slug=slug, defaults={"name": name})[0]


def new_organisation(*, call: Call, name: str) -> Organisation:
    """The organisation of that name; only an operator of the installation may make a new one."""
    operator = User.objects.filter(pk=call.actor, is_superuser=True).exists()
    if not (operator or call.actor == OPERATOR):
        raise NotAllowed(right=Right.OWN)
    found = Organisation.objects.filter(name=name).first()
    return found or found_organisation(slug=_free_slug(name), name=name)


def _free_slug(name: str) -> str:
    slug = slugify(name)[:40] or "organisation"
    taken = set(Organisation.objects.values_list("slug", flat=True))
    tries = (slug, *(f"{slug}-{number}" for number in range(2, len(taken) + 3)))
    return next(one for one in tries if one not in taken)


def add_user(
    *, organisation: Organisation, username: str, password: str, founds: bool = False
) -> User:
    """A new user of the organisation; the faces ask whether the caller may make one."""
    if User.objects.filter(username=username).exists():
        raise TakenName(what="user", name=username)
    user = User(username=username, organisation=organisation, founds=founds)
    try:
        validate_password(password, user)
    except ValidationError as error:
        raise Invalid([Problem("password", text) for text in error.messages]) from error
    user.set_password(password)
    user.save()
    return user


def add_person(
    *, call: Call, tournament: Tournament, username: str, password: str, name: str
) -> Act:
    """A new user of the tournament's organisation, with a role in the tournament.

    The password never enters the act, so that the log keeps no trace of it.
    """
    require(call, tournament.pk, Right.OWN)
    known = User.objects.filter(username=username, organisation=tournament.organisation_id)
    again = call.key and Act.objects.filter(actor=call.actor, key=call.key).exists()
    with transaction.atomic():
        user = (known.first() if again else None) or add_user(
            organisation=tournament.organisation, username=username, password=password
        )
        return give_role(call=call, tournament=tournament, user=user, name=name)


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
    Tournament.objects.filter(pk=tournament.pk).update(version=F("version"))  # one at a time
    owners = Role.objects.filter(tournament=tournament, name=Role.Name.OWNER)
    is_owner = owners.filter(user=user).exists()
    if is_owner and name != Role.Name.OWNER and owners.count() == 1:
        raise LastOwner(name=user.username)
