import pytest

from brackets.core.errors import PoolOrderInvalid
from brackets.core.graph import BoutKey
from brackets.core.progress import Verdict, play
from tests.brackets.core.books import bracket, rules
from tests.brackets.core.wrestled import by_seeds


def test_a_round_robin_is_placed_by_its_order() -> None:
    built = bracket(4)
    standing = by_seeds(built, rules())
    assert standing.places == {}
    assert standing.guaranteed == {"1": 1, "2": 2, "3": 3, "4": 4}
    verdicts = {key: Verdict(0) for key in built.bouts}
    order = [["1"], ["2", "3"], ["4"]]
    ranked = play(built, verdicts, rules(), pool_order=order)
    assert ranked.places == {1: ("1",), 2: ("2", "3"), 4: ("4",)}
    without = play(built, verdicts, rules(), pool_order=order, vacating=frozenset("1"))
    assert without.places == {2: ("2", "3"), 4: ("4",)}
    up = rules(open_place="moved-up")
    moved = play(built, verdicts, up, pool_order=order, vacating=frozenset("1"))
    assert moved.places == {1: ("2", "3"), 3: ("4",)}


def test_an_unfinished_round_robin_has_no_places() -> None:
    built = bracket(3)
    given = {BoutKey("RR1", 1): Verdict(0)}
    standing = play(built, given, rules(), pool_order=[["2"], ["1"], ["3"]])
    assert standing.places == {}
    assert standing.guaranteed == {"1": 3, "2": 3, "3": 3}


def test_a_round_robin_order_must_rank_everyone() -> None:
    built = bracket(3)
    verdicts = {key: Verdict(0) for key in built.bouts}
    with pytest.raises(PoolOrderInvalid) as caught:
        play(built, verdicts, rules(), pool_order=[["1"], ["2"]])
    assert str(caught.value).endswith("each of its entries once: 1, 2, 3.")
