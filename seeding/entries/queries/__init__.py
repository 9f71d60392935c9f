"""Every read of the ground floor."""

from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Mapping
from typing import Any, NoReturn

from django.db.models import Count, Q, QuerySet

from seeding.entries.models import (
    Division,
    Entry,
    Role,
    Team,
    Tournament,
    User,
    WeightClass,
    Wrestler,
)
from seeding.journal.core.errors import NotFound
from seeding.journal.models import Act


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


def of_own_places(of: Division) -> QuerySet[WeightClass]:
    """The weights whose number of places is not that of their division's settings."""
    return WeightClass.objects.filter(division=of).exclude(places=of.snapshot["bracket"]["places"])


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


def weights(of: Tournament) -> QuerySet[WeightClass]:
    """The weights of a tournament, light to heavy, each with its counts of entries."""
    entered = Q(entries__status=Entry.Status.ENTERED)
    return (
        WeightClass.objects.filter(tournament=of)
        .select_related("division")
        .annotate(
            entered=Count("entries", filter=entered),
            scratched=Count("entries", filter=Q(entries__status=Entry.Status.SCRATCHED)),
            weighed=Count("entries", filter=entered & Q(entries__weigh_in=Entry.WeighIn.MADE)),
            missed=Count("entries", filter=entered & Q(entries__weigh_in=Entry.WeighIn.MISSED)),
            seeded=Count("entries", filter=entered & Q(entries__seed__gt=0)),
        )
    )


def teams(of: Tournament) -> QuerySet[Team]:
    """The teams of a tournament by name, each with its count of entries."""
    entered = Q(entries__status=Entry.Status.ENTERED)
    rows = Team.objects.filter(tournament=of).select_related("merged_into")
    return rows.annotate(entered=Count("entries", filter=entered))


def roles(of: Tournament) -> QuerySet[Role]:
    """Who may do what in a tournament."""
    return Role.objects.filter(tournament=of).select_related("user").order_by("user__username")


Namer = Callable[[Collection[int]], Mapping[int, str]]
"""The names of the rows with these primary keys."""


def _entry_names(keys: Collection[int]) -> Mapping[int, str]:
    rows = Entry.objects.filter(pk__in=keys).select_related("wrestler", "weight_class", "team")
    return {
        row.pk: f"{row.wrestler.given} {row.wrestler.family}".strip()
        + f", {row.weight_class.label} ({row.team.short})"
        for row in rows
    }


def _user_names(keys: Collection[int]) -> Mapping[int, str]:
    return dict(User.objects.filter(pk__in=keys).values_list("pk", "username"))


def _labels(rows: QuerySet[Any], field: str) -> Namer:
    return lambda keys: dict(rows.filter(pk__in=keys).values_list("pk", field))


def _wrestler_names(keys: Collection[int]) -> Mapping[int, str]:
    return {row.pk: row.name for row in Wrestler.objects.filter(pk__in=keys)}


NAMERS: dict[str, Namer] = {
    "entry": _entry_names,
    "entries": _entry_names,
    "user": _user_names,
    "wrestler": _wrestler_names,
    "actor": _user_names,
    "weight": _labels(WeightClass.objects.all(), "label"),
    "weights": _labels(WeightClass.objects.all(), "label"),
    "team": _labels(Team.objects.all(), "name"),
    "into": _labels(Team.objects.all(), "name"),
    "division": _labels(Division.objects.all(), "name"),
    "tournament": _labels(Tournament.objects.all(), "name"),
}
"""How the ids in the log are told to people, by their key in an act's subject.

A later app adds its own when it is set up, for instance `NAMERS["bout"]`.
"""


def names_in(acts: Iterable[Act]) -> Mapping[tuple[str, int], str]:
    """The names behind the ids of these acts, one query per kind of thing."""
    wanted: dict[str, set[int]] = defaultdict(set)
    for act in acts:
        wanted["actor"].add(act.actor)
        for kind, value in act.subject.items():
            if kind in NAMERS:
                wanted[kind].update(value if isinstance(value, list) else [value])
    return {
        (kind, pk): name for kind, keys in wanted.items() for pk, name in NAMERS[kind](keys).items()
    }


def _missing(what: str, name: str) -> NoReturn:
    raise NotFound(what=what, name=name)
