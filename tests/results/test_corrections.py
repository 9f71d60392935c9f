"""Correcting, undoing and withdrawing: what follows, and what is refused."""

import json
from decimal import Decimal

import pytest

from brackets.models import Bout
from brackets.queries import numbered
from results.core.errors import (
    BoutAlreadyDecided,
    BoutNotOpen,
    LaterBoutsWrestled,
    ResultsRest,
)
from results.core.outcomes import Kind, Outcome
from results.models import Result, Withdrawal
from results.queries.points import team_table
from results.queries.preview import preview
from results.serializers.document import dump
from results.services import correct_result, enter_result, reinstate, withdraw
from seeding.entries.models import Division, Entry, Tournament
from tests.results.championship import CALL, document, load, side, wrestle

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]


@pytest.fixture
def eight() -> Tournament:
    """Eight entries, nothing wrestled: bouts 1-4 quarterfinals, 5-6 semifinals, 7-8 C1, ..."""
    return load(document(entries=8))


def bout(of: Tournament, number: int) -> Bout:
    return numbered(of).get(number=number)


def total(of: Tournament, seed: int) -> Decimal:
    rows = team_table(Division.objects.get(tournament=of))
    return next(row.line.total for row in rows if row.team.name == f"Team {seed}")


def test_a_wrong_kind_is_corrected_and_points_follow(eight: Tournament) -> None:
    wrestle(bout(eight, 1), 0)
    assert total(eight, 1) == Decimal(7)  # advancement 1, sixth place certain 6
    correct_result(call=CALL, bout=bout(eight, 1), outcome=Outcome(Kind.FALL, 0, time=61))
    assert total(eight, 1) == Decimal(9)


def test_a_wrong_winner_is_corrected_and_both_change_places(eight: Tournament) -> None:
    wrestle(bout(eight, 1), 0)
    seen = preview(bout(eight, 1), Outcome(Kind.DECISION, 1, (5, 3)))
    assert {one.bout.round for one in seen.changed} == {"SF", "C1"}
    assert not seen.wrestled
    # With eight entries everybody has eighth place (3) for certain; a quarterfinal won is 1 + 6.
    assert {(str(moved.what), moved.before, moved.after) for moved in seen.teams} == {
        ("Team 1", "7", "3"),
        ("Team 8", "3", "7"),
    }
    correct_result(call=CALL, bout=bout(eight, 1), outcome=Outcome(Kind.DECISION, 1, (5, 3)))
    semifinal = bout(eight, 5)
    assert semifinal.top
    assert semifinal.top.seed == 8


def test_a_winner_who_has_wrestled_on_is_not_swapped(eight: Tournament) -> None:
    for number in (1, 2, 5):
        wrestle(bout(eight, number), 0)
    with pytest.raises(LaterBoutsWrestled) as refusal:
        correct_result(call=CALL, bout=bout(eight, 1), outcome=Outcome(Kind.DECISION, 1, (5, 3)))
    assert refusal.value.where == "5"
    correct_result(call=CALL, bout=bout(eight, 1), outcome=Outcome(Kind.DECISION, 0, (3, 2)))
    assert Result.objects.get(bout__number=1).score == [3, 2]


def test_undo_opens_the_bout_again(eight: Tournament) -> None:
    wrestle(bout(eight, 1), 0)
    correct_result(call=CALL, bout=bout(eight, 1), outcome=None)
    assert bout(eight, 1).status == Bout.Status.READY
    assert bout(eight, 5).top is None
    assert total(eight, 1) == Decimal(3)  # eighth place is certain among eight


def test_a_bout_is_decided_once(eight: Tournament) -> None:
    wrestle(bout(eight, 1), 0)
    with pytest.raises(BoutAlreadyDecided, match="Bout 1 already has a result, Dec 5-3"):
        wrestle(bout(eight, 1), 1)
    with pytest.raises(BoutNotOpen):
        wrestle(bout(eight, 5), 1)


def test_who_withdraws_forfeits_what_is_to_come_and_may_return(eight: Tournament) -> None:
    entry = Entry.objects.get(seed=1)
    wrestle(bout(eight, 1), 0)
    wrestle(bout(eight, 2), 0)
    withdraw(call=CALL, entry=entry, kind="injury")
    assert bout(eight, 5).implied
    final = Bout.objects.get(round="1st")
    assert final.top
    assert final.top.seed != 1
    reinstate(call=CALL, entry=entry)
    assert bout(eight, 5).status == Bout.Status.READY


def test_who_took_his_place_stands_in_the_way_of_his_return(eight: Tournament) -> None:
    entry = Entry.objects.get(seed=1)
    for number in (1, 2, 3, 4, 6):
        wrestle(bout(eight, number), 0)
    withdraw(call=CALL, entry=entry, kind="injury")
    wrestle(Bout.objects.get(round="1st"), 0)
    with pytest.raises(LaterBoutsWrestled) as refusal:
        reinstate(call=CALL, entry=entry)
    assert refusal.value.where == str(Bout.objects.get(round="1st").number)


def test_flagrant_misconduct_costs_all_points_and_three(eight: Tournament) -> None:
    """Association page: out, loses what he earned, and 3 team points off."""
    wrestle(bout(eight, 1), 0)
    wrestle(bout(eight, 2), 0)
    enter_result(
        call=CALL,
        bout=bout(eight, 5),
        outcome=Outcome(Kind.DISQUALIFICATION, side(1), misconduct=True),
    )
    assert total(eight, 1) == Decimal(-3)
    correct_result(call=CALL, bout=bout(eight, 5), outcome=None)
    assert total(eight, 1) == Decimal(7)


def test_a_forfeit_received_stands_when_he_who_received_it_leaves_too(eight: Tournament) -> None:
    """1 v 8 and 4 v 5 in the top half: 8 leaves before his bout, 1 wins on and leaves later."""
    withdraw(call=CALL, entry=Entry.objects.get(seed=8), kind="medical")
    assert bout(eight, 1).winner == Entry.objects.get(seed=1)
    wrestle(bout(eight, 2), 0)
    wrestle(bout(eight, 5), 0)  # seed 1 into the final
    withdraw(call=CALL, entry=Entry.objects.get(seed=1), kind="injury")
    assert bout(eight, 1).winner == Entry.objects.get(seed=1)
    assert Result.objects.count() == 2
    for number in (3, 4, 6):
        wrestle(bout(eight, number), 0)
    final = Bout.objects.get(round="1st")
    assert final.implied
    assert final.winner != Entry.objects.get(seed=1)
    again = json.loads(json.dumps(dump(eight)))
    assert {item["entry"]: item["after"] for item in again["withdrawals"]} == {
        "125-1": "SF-1",
        "125-8": None,
    }


def test_nobody_leaves_as_never_there_where_others_have_wrestled_on() -> None:
    """16 is in an open semifinal by forfeits alone, and a chain behind it has been wrestled.

    Had he never been there, those who lost to them who were out would come to that chain.
    """
    settings = {"bracket.wrestleback": "follow-the-leader"}
    of = load(document(entries=16, settings=settings))

    def out(seed: int) -> Entry:
        return of.entries.get(key=f"125-{seed}")

    def won(*bouts: tuple[str, int, int]) -> None:
        for code, position, winner in bouts:
            wrestle(Bout.objects.get(round=code, position=position), winner)

    for seed in (2, 1, 4):
        withdraw(call=CALL, entry=out(seed), kind="absent")
    won(("R1", 6, 1), ("R1", 3, 0), ("R1", 5, 1), ("R1", 2, 0), ("R1", 7, 1))
    won(("QF", 2, 1), ("QF", 3, 0), ("QF", 4, 1))
    withdraw(call=CALL, entry=out(9), kind="injury")
    won(("C2", 1, 1))
    before = dump(of)
    with pytest.raises(ResultsRest, match="The result of bout 19 rests on bouts of"):
        withdraw(call=CALL, entry=out(16), kind="absent")
    assert dump(of) == before
    withdraw(call=CALL, entry=out(16), kind="medical")
    assert Withdrawal.objects.get(entry=out(16)).behind == "QF-1"
