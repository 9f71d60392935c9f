"""One 33-entry weight from a file to the points ledger, through the services."""

from decimal import Decimal

import pytest

from brackets.models import Bout, Placing
from brackets.queries import numbered
from results.models import LedgerPart
from results.queries.points import team_table
from seeding.entries.models import Division, Tournament
from seeding.journal.models import Act, Log
from seeding.journal.queries import first_break
from tests.results.championship import WEIGHTS, document, load, seed_of, wrestle

pytestmark = pytest.mark.django_db

# Calculated from the college rule book (placement 16 12 10 9 7 6 4 3, advancement 1 and 0.5), and
# published as worked figures: one bracket of 32 lines, decisions only, the better seed always
# wins. Seed 1 wrestles one bout less on the way than the lines show: none, he is on a full line.
CHALK = {
    1: "20",  # 4 + 16
    2: "16",  # 4 + 12
    3: "13.5",  # lost semifinal, 3rd: 3 + 0.5 + 10
    4: "12.5",  # lost semifinal, 4th: 3 + 0.5 + 9
    5: "10",  # lost quarterfinal, 5th: 2 + 2 x 0.5 + 7
    6: "9",  # lost quarterfinal, 6th: 2 + 2 x 0.5 + 6
    7: "6.5",  # lost quarterfinal, 7th: 2 + 0.5 + 4
    8: "5.5",  # lost quarterfinal, 8th: 2 + 0.5 + 3
}


@pytest.fixture
def finished() -> Tournament:
    """The better seed wins every bout by decision, in order of number."""
    tournament = load(document())
    for number in numbered(tournament).values_list("number", flat=True):
        bout = numbered(tournament).get(number=number)
        wrestle(bout, seed_of(bout, 0) > seed_of(bout, 1))
    return tournament


def test_has_64_bouts_numbered_without_a_gap() -> None:
    """Published: 64 bouts for a 33-entry weight to 8 places."""
    tournament = load(document())
    assert list(numbered(tournament).values_list("number", flat=True)) == list(range(1, 65))


def test_ten_weights_have_640_bouts_numbered_as_published() -> None:
    """Published: 640 bouts; the ranges of numbers per round are read off two championships."""
    tournament = load(document(WEIGHTS))
    rows = numbered(tournament)
    assert rows.count() == 640
    first = {code: rows.filter(round=code).order_by("number").first() for code in RANGES}
    assert {code: row.number for code, row in first.items() if row} == RANGES
    in_r1 = rows.filter(round="R1").order_by("number")
    assert [row.drawn.weight_class.key for row in in_r1[:17]] == ["125"] * 16 + ["133"]


RANGES = {
    "P": 1, "R1": 11, "R2": 171, "CP": 251, "C1": 261, "QF": 341, "C2": 381, "C3": 461, "SF": 501,
    "C4": 521, "C5": 561, "C6": 581, "7th": 601, "5th": 611, "3rd": 621, "1st": 631,
}  # fmt: skip


def test_places_follow_the_seeds(finished: Tournament) -> None:
    found = dict(Placing.objects.values_list("place", "entry__seed"))
    assert found == {place: place for place in range(1, 9)}


def test_points_are_the_worked_figures(finished: Tournament) -> None:
    rows = team_table(Division.objects.get(tournament=finished))
    totals = {row.team.name: row.line.total for row in rows}
    assert {seed: totals[f"Team {seed}"] for seed in CHALK} == {
        seed: Decimal(points) for seed, points in CHALK.items()
    }


def test_every_point_says_which_bout_or_place_gave_it(finished: Tournament) -> None:
    champion = LedgerPart.objects.filter(entry__seed=1)
    assert sum(part.points for part in champion) == Decimal(20)
    assert all(part.bout_id or part.place for part in LedgerPart.objects.all())


def test_every_result_is_one_act_in_an_unbroken_chain(finished: Tournament) -> None:
    log = Log.objects.get(pk=finished.log_id)
    assert log.seq == 65  # the loading, and 64 results
    assert list(Act.objects.filter(log=log).values_list("seq", flat=True)) == list(range(1, 66))
    assert first_break(log.pk) is None


def test_nobody_is_left_to_wrestle(finished: Tournament) -> None:
    assert not Bout.objects.filter(status__in=["ready", "waiting"]).exists()
