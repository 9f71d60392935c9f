"""Team points where true placement does not score: as if no place were challenged."""

import pytest

from brackets.core.drafting import WantedAdvance
from brackets.core.sources import BoutKey, Seat
from results.models import Withdrawal
from results.services import rule, withdraw
from seeding.entries.models import Entry
from tests.results.championship import CALL, document, load, wrestle
from tests.results.overruled import at, drawn, seeds, total

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("scores", [True, False])
def test_who_left_behind_a_bout_that_only_a_challenge_needs_has_left(scores: bool) -> None:
    """Two places: without the challenge for 2nd nobody wrestles back. Who left after C1-1 was ruled
    into the final, which the other one wins then."""
    settings = {
        "bracket.places": 2,
        "bracket.true_places": [2],
        "team_points.true_placement_scores": scores,
        "team_points.placement.2": [7, 4],
        "team_points.byes": "none",
    }
    tournament = load(document(entries=8, settings=settings))
    for number in (1, 2, 3, 4):
        wrestle(at(f"QF-{number}"), 0)
    for key in ("SF-1", "SF-2", "C1-1"):
        wrestle(at(key), 0)
    gone = Entry.objects.get(seed=seeds("C1-1")[1])
    withdraw(call=CALL, entry=gone, kind=Withdrawal.Kind.INJURY)
    wanted = WantedAdvance(Seat(BoutKey("1st", 1), 0), gone.key)
    rule(call=CALL, drawn=drawn(), wanted=wanted, reason="wrong name on the card")
    assert at("1st-1").implied
    champion = seeds("1st-1")[1]
    assert champion is not None
    assert total(tournament, champion) >= 7
