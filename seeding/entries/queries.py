"""Every read of the ground floor."""

from typing import NoReturn

from django.db.models import QuerySet

from seeding.entries.models import Division, Entry, Team, Tournament, User, WeightClass, Wrestler
from seeding.journal.core.errors import NotFound


def tournament(slug: str) -> Tournament:
    """The tournament at that slug."""
    found = Tournament.objects.select_related("log", "organisation").filter(slug=slug).first()
    if not found:
        raise NotFound(what="tournament", name=slug)
    return found


def weight(of: Tournament, key: str) -> WeightClass:
    """The weight of a tournament by its key."""
    found = WeightClass.objects.select_related("division", "tournament").filter(
        tournament=of, key=key
    )
    return found.first() or _missing("weight", key)


def division(of: Tournament, key: str) -> Division:
    """The division of a tournament by its key."""
    return Division.objects.filter(tournament=of, key=key).first() or _missing("division", key)


def team(of: Tournament, key: str) -> Team:
    """The team of a tournament by its key."""
    return Team.objects.filter(tournament=of, key=key).first() or _missing("team", key)


def entry(of: Tournament, key: str) -> Entry:
    """The entry of a tournament by its key."""
    found = Entry.objects.select_related("wrestler", "team", "weight_class__division").filter(
        tournament=of, key=key
    )
    return found.first() or _missing("entry", key)


def entries(weight_class: int) -> QuerySet[Entry]:
    """The entries of a weight in seed order, with wrestler and team."""
    return Entry.objects.filter(weight_class_id=weight_class).select_related("wrestler", "team")


def wrestler(of: Tournament, uid: str) -> Wrestler:
    """A wrestler entered in the tournament, by opaque id."""
    found = Wrestler.objects.filter(uid=uid, entries__tournament=of).first()
    return found or _missing("wrestler", uid)


def user(name: str) -> User:
    """The user with that sign-in name."""
    return User.objects.filter(username=name).first() or _missing("user", name)


def _missing(what: str, name: str) -> NoReturn:
    raise NotFound(what=what, name=name)
