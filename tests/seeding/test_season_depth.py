"""What the seeding of a weight reads of the season: three rings around the entrants."""

import itertools

import pytest

from seeding.entries.models import Entry, WeightClass
from seeding.queries import rules_of, season_of
from tests.results.championship import document, load

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]


def test_the_records_of_opponents_opponents_are_whole() -> None:
    """Published: RPI weighs the winning percentage of the opponents' opponents."""
    file = document(entries=2)
    chain = ["125-1", "w1", "w2", "w3", "w4"]
    file["wrestlers"] = [{"id": one, "family": one} for one in chain[1:]]
    file["prior_bouts"] = [
        {"date": f"2026-01-0{day}", "weight": "125", "winner": a, "loser": b, "kind": "fall"}
        for day, (a, b) in enumerate(itertools.pairwise(chain), start=1)
    ]
    load(file)
    weight = WeightClass.objects.select_related("tournament").get()
    entries = list(Entry.objects.select_related("wrestler"))
    season = season_of(weight, entries, rules_of(weight.division))
    # w2 is an opponent's opponent: his bout with w3 counts for him; w3's with w4 for nobody here.
    assert [bout.date.day for bout in season.bouts] == [1, 2, 3]
