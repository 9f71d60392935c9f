"""A bout that keeps its two keeps both of them, whatever becomes of their ways to it."""

import pytest

from brackets.core.graph import BoutKey
from brackets.core.progress import play
from brackets.core.replay import Choice
from brackets.core.sources import Seat
from brackets.core.standing import Status, Verdict
from tests.brackets.core.books import bracket, rules
from tests.brackets.core.wrestled import by_seeds, replayed, sides

EIGHT = bracket(8)
QF1, QF2, SF1 = BoutKey("QF", 1), BoutKey("QF", 2), BoutKey("SF", 1)


@pytest.mark.parametrize("choice", [Choice.STANDS, Choice.AGAIN])
def test_a_bout_that_keeps_its_two_has_both_by_the_ruling(choice: Choice) -> None:
    """1 against 4, who won by forfeit; 8 beat 1 by a correction, then 4 was never there either."""
    gone = {"5": None}
    met = play(EIGHT, {QF1: Verdict(0), SF1: Verdict(0)}, rules(), out=gone)
    assert sides(met, "SF-1") == ["1", "4"]
    given = {QF1: Verdict(1), QF2: Verdict(1), SF1: Verdict(0)}
    told = by_seeds(EIGHT, rules(), "QF", "SF")
    found = replayed(
        EIGHT, given, {key: told.bouts[key].sides for key in given}, rules(), choices={SF1: choice}
    )
    (made,) = found.made
    assert {Seat(SF1, 0), Seat(SF1, 1)} <= {one.way for one in made.ways}
    left = {QF1: Verdict(1)} | ({SF1: Verdict(0)} if choice is Choice.STANDS else {})
    after = play(EIGHT, left, rules(), out={"5": None, "4": None}, rulings=found.made)
    assert after.bouts[QF2].winner is None
    assert sides(after, "SF-1") == ["1", "4"]
    assert after.bouts[SF1].status is Status.DECIDED
