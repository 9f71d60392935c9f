"""Large sheets in parts."""

from collections import Counter
from itertools import pairwise

import pytest

from brackets.core.graph import Exit, From
from brackets.core.layout import GAP, Box
from brackets.core.parts import Part, parts
from brackets.core.rows import time_columns
from brackets.core.rules import Wrestleback
from tests.brackets.core.books import bracket, rules
from tests.strategies import drawn

BACKS = [str(one) for one in Wrestleback]


def free(upper: Box, lower: Box) -> bool:
    return upper.column != lower.column or upper.y + upper.h + GAP <= lower.y


@pytest.mark.parametrize("wrestleback", BACKS)
@pytest.mark.parametrize(("high", "wide"), [(13, 8), (26, 10)])
def test_every_bout_stands_on_one_part_and_none_on_another(
    wrestleback: str, high: int, wide: int
) -> None:
    used = rules(wrestleback=wrestleback, pigtails_up_to=3)
    for entrants in (2, 8, 19, 33, 64, 97, 131, 256):
        built = drawn(entrants, 8, used)
        found = parts(built, high, wide)
        boxes = [box for one in found for box in one.layout.boxes]
        assert Counter(box.key for box in boxes) == Counter(built.byes.union(built.bouts))
        for one in found:
            order = sorted(one.layout.boxes, key=lambda box: (box.column, box.y))
            assert all(free(upper, lower) for upper, lower in pairwise(order))
            assert len(one.layout.columns) <= wide
            assert max(box.x + box.w for box in order) <= one.layout.width
            assert max(box.y + box.h for box in order) <= one.layout.height
            assert all(stub.at[0] < one.layout.width for stub in one.layout.stubs)


@pytest.mark.parametrize("wrestleback", BACKS)
def test_who_goes_on_elsewhere_is_told_where(wrestleback: str) -> None:
    built = drawn(128, 8, rules(wrestleback=wrestleback))
    found = parts(built, 13, 8)
    ways = [(one.source, one.target) for part in found for one in part.layout.winners]
    stubs = [(one.source, one.target) for part in found for one in part.layout.stubs]
    drawn_ones = built.byes.union(built.bouts)
    assert sorted(ways + stubs) == sorted(
        (side.bout, key)
        for key, sides in built.sources.items()
        for side in sides
        if isinstance(side, From) and side.exit is Exit.WINNER
        if {side.bout, key} <= drawn_ones
    )


def codes(part: Part) -> str:
    columns = part.layout.columns
    return ", ".join(" ".join((*one.above, *one.below)) for one in columns)


def test_128_lines_are_quarters_and_what_follows_on_one_time_axis() -> None:
    built = bracket(128)
    found = parts(built, 26, 10)
    assert [(one.number, one.of) for one in found] == [(1, 4), (2, 4), (3, 4), (4, 4), (1, 1)]
    assert {codes(one) for one in found[:4]} == {"R1, R2 C1, R3 C2, R4 C3, C4, QF C5, C6"}
    assert codes(found[4]) == "SF C7, C8, C9, C10, 1st 7th 5th 3rd"
    columns = time_columns(built)
    for one in found:
        for box in one.layout.boxes:
            assert box.column - found[0].layout.boxes[0].column >= 0
            assert columns[box.key.round] - columns[one.layout.boxes[0].key.round] == (
                box.column - one.layout.boxes[0].column
            )


def test_a_small_sheet_is_one_part() -> None:
    assert [(one.number, one.of) for one in parts(bracket(16), 13, 7)] == [(1, 1)]
    assert [(one.number, one.of) for one in parts(bracket(33), 26, 10)] == [(1, 1)]
