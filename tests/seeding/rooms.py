"""A weight to be seeded, for the tests of the room: bouts of the season, keys, rules."""

from collections.abc import Sequence
from datetime import date
from typing import Any

from django.urls import reverse

from seeding.core.identity import bout_identity
from seeding.entries.models import Division, Entry, Tournament, Wrestler
from seeding.models import PriorBout
from tests.seeding.entries.desks import enter, spring

NAMES = ("Ira Holm", "Tom Reed", "Sam Quill")
CIRCLE = ((6, "Holm", "Reed"), (7, "Reed", "Quill"), (8, "Quill", "Holm"))
WON = (*CIRCLE, (9, "Holm", "Quill"), (10, "Holm", "Quill"))


def beat(tournament: Tournament, day: int, winner: str, loser: str) -> None:
    """One bout of January."""
    one = Wrestler.objects.get(family=winner)
    other = Wrestler.objects.get(family=loser)
    when = date(2026, 1, day)
    PriorBout.objects.create(
        organisation=tournament.organisation,
        identity=bout_identity(when, one.uid, other.uid, "125", "Winter Classic"),
        date=when,
        weight="125",
        winner=one,
        loser=other,
        kind="decision",
        score=[5, 3],
        event="Winter Classic",
    )


def three(won: Sequence[tuple[int, str, str]] = WON) -> Tournament:
    """Holm, Reed and Quill; Holm beat Reed, Reed Quill, Quill Holm once and lost to him twice."""
    made = spring()
    enter(made, "125", *NAMES)
    for day, winner, loser in won:
        beat(made, day, winner, loser)
    return made


def room(name: str = "desk-seeding", weight: str = "125") -> str:
    return reverse(name, args=["spring", weight])


def key(family: str) -> str:
    return Entry.objects.get(wrestler__family=family).key


def rule(tournament: Tournament, **committee: Any) -> None:
    """Change what the rule book lets the committee do."""
    division = Division.objects.get(tournament=tournament)
    division.snapshot["seeding"]["committee"] |= committee
    division.save()


def rules(tournament: Tournament, **section: Any) -> None:
    """Change the list itself."""
    division = Division.objects.get(tournament=tournament)
    division.snapshot["seeding"] |= section
    division.save()
