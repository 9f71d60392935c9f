"""Pages of later apps that the pages of entries lead to; an app adds its own when it is set up."""

from django.urls import reverse

from seeding.entries.models import Entry, Tournament

WEIGH_INS: list[str] = []
"""Names of pages on which the weigh-in of a tournament is recorded and applied."""
WAYS_OUT: list[str] = []
"""Names of pages on which an entry is taken out, with what follows shown before."""


def weigh_ins(tournament: Tournament) -> list[str]:
    """The addresses of the weigh-in's pages."""
    return [reverse(name, args=[tournament.slug]) for name in WEIGH_INS]


def ways_out(tournament: Tournament, entry: Entry) -> list[str]:
    """The addresses where an entry can be taken out."""
    return [reverse(name, args=[tournament.slug, entry.key]) for name in WAYS_OUT]
