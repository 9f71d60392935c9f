"""The demo as it stands in the database: seeded by the criteria, half-way through its day."""

import pytest

from brackets.models import Bout
from deploy.scenario.staged import LAST, OVERRULED, load_demo
from results.models import Result
from results.queries.points import team_table
from seeding.entries.models import Division, Entry
from seeding.journal.queries import first_break
from seeding.models import Override

pytestmark = pytest.mark.django_db


def test_the_demo_is_seeded_drawn_and_half_wrestled() -> None:
    tournament = load_demo(last=60)
    assert Bout.objects.exclude(number=None).count() == 456
    assert Result.objects.count() == 60 < LAST
    assert Override.objects.get().entry.weight_class.key == OVERRULED
    seeds = Entry.objects.filter(weight_class__key="125", status="entered")
    assert set(seeds.values_list("seed", flat=True)) == set(range(1, 34))
    assert team_table(Division.objects.get())[0].line.total > 0
    assert first_break(tournament.log_id) is None
