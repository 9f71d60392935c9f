"""What later apps add to the pages of entries, each when it is set up: pages that these lead to,
and who is out."""

from collections.abc import Callable, Iterable, Mapping, Sequence

from django.urls import reverse

from seeding.entries.models import Entry, Tournament

WEIGH_INS: list[str] = []
"""Names of pages on which the weigh-in of a tournament is recorded and applied."""
WAYS_OUT: list[str] = []
"""Names of pages on which an entry is taken out, with what follows shown before."""


LEAVERS: list[Callable[[Iterable[int]], Mapping[int, str]]] = []
"""Why those of some entries are out who are, by primary key."""


def weigh_ins(tournament: Tournament) -> list[str]:
    """The addresses of the weigh-in's pages."""
    return [reverse(name, args=[tournament.slug]) for name in WEIGH_INS]


def ways_out(tournament: Tournament, entry: Entry) -> list[str]:
    """The addresses where an entry can be taken out."""
    return [reverse(name, args=[tournament.slug, entry.key]) for name in WAYS_OUT]


def leavers(entries: Sequence[int]) -> dict[int, str]:
    """Why those of these entries are out who are, by primary key."""
    return {pk: why for told in LEAVERS for pk, why in told(entries).items()}
