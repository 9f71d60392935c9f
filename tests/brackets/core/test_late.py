"""What becomes of a line-up: each change, what it refuses, and laws over all of them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brackets.core.errors import LineChangeUnfit
from brackets.core.late import (
    ChangeKind,
    LineChange,
    after_all,
    changed,
    drawn_rightly,
    free_lines,
    late_line,
    line_of,
    way_up,
)
from brackets.core.sources import LineUp
from tests.brackets.core.books import bracket, rules

EIGHT: LineUp = ("a", None, "b", ("c", "d"), "e", "f", "g", "h")
EMPTIED, REPLACED = ChangeKind.EMPTIED, ChangeKind.REPLACED
FILLED, SWAPPED = ChangeKind.FILLED, ChangeKind.SWAPPED


@pytest.mark.parametrize(
    ("change", "after"),
    [
        (LineChange(EMPTIED, gone="b"), ("a", None, None, ("c", "d"), "e", "f", "g", "h")),
        (LineChange(EMPTIED, gone="c"), ("a", None, "b", "d", "e", "f", "g", "h")),
        (LineChange(REPLACED, gone="b", came="x"), ("a", None, "x", ("c", "d"), *"efgh")),
        (LineChange(REPLACED, gone="d", came="x"), ("a", None, "b", ("c", "x"), *"efgh")),
        (LineChange(FILLED, (2,), came="x"), ("a", "x", "b", ("c", "d"), *"efgh")),
        (LineChange(SWAPPED, (2, 4)), ("a", ("c", "d"), "b", None, *"efgh")),
    ],
)
def test_a_change_touches_its_lines_alone(change: LineChange, after: LineUp) -> None:
    assert changed(EIGHT, change) == after
    assert LineChange.read(change.plain()) == change


def test_in_a_round_robin_the_line_goes() -> None:
    assert changed(("a", "b", "c"), LineChange(EMPTIED, gone="b")) == ("a", "c")


@pytest.mark.parametrize(
    "change",
    [
        LineChange(EMPTIED, gone="x"),
        LineChange(REPLACED, gone="x", came="y"),
        LineChange(REPLACED, gone="a", came="c"),
        LineChange(REPLACED, gone="a"),
        LineChange(FILLED, (1,), came="x"),
        LineChange(FILLED, (2, 3), came="x"),
        LineChange(FILLED, (2,), came="a"),
        LineChange(SWAPPED, (1, 1)),
        LineChange(SWAPPED, (0, 1)),
        LineChange(SWAPPED, (1,)),
    ],
)
def test_what_does_not_fit_is_refused(change: LineChange) -> None:
    with pytest.raises(LineChangeUnfit):
        changed(EIGHT, change)


def test_two_byes_do_not_change_places() -> None:
    with pytest.raises(LineChangeUnfit, match="both lines are byes"):
        changed(("a", None, "b", None, *"efgh"), LineChange(SWAPPED, (2, 4)))


def test_where_no_line_is_free_that_is_said() -> None:
    with pytest.raises(LineChangeUnfit, match="free lines: none"):
        changed(("a", "b"), LineChange(FILLED, (1,), came="x"))
    with pytest.raises(LineChangeUnfit, match="no free line"):
        late_line((), "125", "1912")


def test_lines_are_found_by_who_stands_on_them() -> None:
    assert [line_of(EIGHT, one) for one in "abcdefgh"] == [1, 3, 4, 4, 5, 6, 7, 8]
    assert free_lines(EIGHT) == (2,)
    assert LineChange(REPLACED, gone="a", came="x").entries == ("a", "x")


@given(st.sets(st.integers(1, 64), min_size=1), st.text("0123456789abcdef", min_size=1))
def test_the_lot_is_the_same_whatever_order_the_lines_come_in(among: set[int], seed: str) -> None:
    line = late_line(sorted(among), "125", seed)
    assert line == late_line(sorted(among, reverse=True), "125", seed)
    assert line in among
    change = LineChange(FILLED, (line,), came="x", among=tuple(sorted(among)), lot_seed=seed)
    assert drawn_rightly(change, "125")
    assert drawn_rightly(LineChange(FILLED, (line,), came="x"), "125")


def test_every_free_line_has_the_same_chance() -> None:
    found = [late_line((2, 7, 10, 15), "125", str(seed)) for seed in range(4000)]
    assert all(900 < found.count(line) < 1100 for line in (2, 7, 10, 15))


@given(st.lists(st.tuples(st.integers(1, 8), st.integers(1, 8)).filter(lambda p: p[0] != p[1])))
def test_swaps_lose_nobody_and_undo_themselves(pairs: list[tuple[int, int]]) -> None:
    swaps = [LineChange(SWAPPED, pair) for pair in pairs]
    there = after_all(EIGHT, swaps)
    assert sorted(map(str, there)) == sorted(map(str, EIGHT))
    assert after_all(there, reversed(swaps)) == EIGHT


def test_the_way_up_is_every_bout_that_one_wins_from_a_line() -> None:
    built = bracket(9, 8, rules(pigtails_up_to=1))
    ways = {line: [str(seat.bout) for seat in way_up(built, line)] for line in range(1, 9)}
    assert {way[-1] for way in ways.values()} == {"1st-1"}
    assert sorted(len(way) for way in ways.values()) == [3] * 7 + [8]
    assert [len(way) for way in ways.values() if way[0] == "P-1"] == [8]  # both halves of the line
    assert list(way_up(bracket(6, 6, rules(two_pools=[6])), 1)) == []
