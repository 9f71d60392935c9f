from itertools import combinations, pairwise

import pytest

from brackets.core.layout import GAP, HEIGHT, WIDTH, Box, Layout, layout
from brackets.core.rows import time_columns
from brackets.core.rules import Wrestleback
from tests.brackets.core.books import bracket, rules
from tests.strategies import drawn

SAMPLE = [2, 3, 5, 6, 7, 8, 9, 12, 16, 17, 23, 32, 33, 40, 64, 65, 97, 128]
CASES = [(n, pool) for n in SAMPLE for pool in ((0, 5) if n <= 5 else (5,))]


FORMATS = [
    *(
        {"wrestleback": str(one), "thirds": two}
        for one in Wrestleback
        for two in ("two", "wrestled")
    ),
    {"true_places": [2, 4, 6]},
    {"two_pools": [6, 7], "of_two": "best-of-three"},
]


@pytest.mark.parametrize("changes", FORMATS, ids=lambda one: " ".join(map(str, one.values())))
def test_every_format_is_drawn_without_overlap(changes: dict[str, object]) -> None:
    used = rules(pigtails_up_to=3, **changes)
    for entrants in (2, 6, 7, 8, 9, 12, 19, 33, 40, 64, 256):
        for places in (2, 8, 16):
            made = layout(drawn(entrants, places, used))
            order = sorted(made.boxes, key=lambda box: (box.column, box.y))
            assert all(apart(one, other) for one, other in pairwise(order))
            boxes = {box.key: box for box in made.boxes}
            for way in made.winners + made.drops:
                assert way.points[0] == boxes[way.source].out()
                assert way.points[-1] == boxes[way.target].port(way.slot)
                assert boxes[way.source].column < boxes[way.target].column
                if entrants <= 19:
                    assert not [str(b.key) for b in made.boxes if crosses(way.points, b)], way


def test_what_comes_after_the_places_has_a_column_of_its_own() -> None:
    made = layout(bracket(32, 16, rules(true_places=[2, 4])))
    assert [one.above + one.below for one in made.columns][-2:] == [
        ("1st", "15th", "13th", "11th", "9th", "7th", "5th", "3rd"),
        ("4th", "2nd"),
    ]


def sheet(entrants: int, pool: int, places: int = 8) -> Layout:
    return layout(bracket(entrants, places, rules(round_robin_up_to=pool)))


def apart(one: Box, other: Box) -> bool:
    return (
        one.x + one.w <= other.x
        or other.x + other.w <= one.x
        or one.y + one.h + GAP <= other.y
        or other.y + other.h + GAP <= one.y
    )


@pytest.mark.parametrize(("entrants", "pool"), CASES)
def test_boxes_stand_apart_and_within_the_sheet(entrants: int, pool: int) -> None:
    made = sheet(entrants, pool)
    by_column: dict[int, list[Box]] = {}
    for box in made.boxes:
        by_column.setdefault(box.column, []).append(box)
        assert (box.w, box.h) == (WIDTH, HEIGHT)
        assert 0 <= box.x <= box.x + box.w <= made.width
        assert 0 <= box.y <= box.y + box.h <= made.height
    for boxes in by_column.values():
        assert len({box.x for box in boxes}) == 1
        assert all(apart(one, other) for one, other in combinations(boxes, 2))
    assert all(
        column.x + column.w < following.x
        for column, following in zip(made.columns, made.columns[1:], strict=False)
    )


@pytest.mark.parametrize(("entrants", "pool"), CASES)
def test_what_is_drawn(entrants: int, pool: int) -> None:
    built = bracket(entrants, 8, rules(round_robin_up_to=pool))
    made = layout(built)
    assert {box.key for box in made.boxes} == built.byes.union(built.bouts)
    assert {box.key for box in made.boxes if box.bye} == built.byes
    codes = [code for column in made.columns for code in column.above + column.below]
    assert sorted(codes) == sorted({box.key.round for box in made.boxes})


def crosses(points: tuple[tuple[float, float], ...], box: Box) -> bool:
    """Whether a line of right angles runs through the inside of a box."""
    return any(
        max(x1, x2) > box.x
        and min(x1, x2) < box.x + box.w
        and max(y1, y2) > box.y
        and min(y1, y2) < box.y + box.h
        for (x1, y1), (x2, y2) in pairwise(points)
    )


@pytest.mark.parametrize(("entrants", "pool"), CASES)
def test_lines_join_their_boxes_at_right_angles_and_cross_none(entrants: int, pool: int) -> None:
    made = sheet(entrants, pool)
    boxes = {box.key: box for box in made.boxes}
    for way in made.winners + made.drops:
        assert way.points[0] == boxes[way.source].out()
        assert way.points[-1] == boxes[way.target].port(way.slot)
        for (x1, y1), (x2, y2) in pairwise(way.points):
            assert x1 == x2 or y1 == y2
    if entrants <= 40:
        for way in made.winners + made.drops:
            assert not [str(box.key) for box in made.boxes if crosses(way.points, box)], way


def test_one_time_axis() -> None:
    made = sheet(33, 5)
    columns = [" ".join(one.above) + " | " + " ".join(one.below) for one in made.columns]
    assert columns == [
        *("P | ", "R1 | ", "R2 | CP", "QF | C1", " | C2", "SF | C3", " | C4", " | C5", " | C6"),
        "1st | 7th 5th 3rd",
    ]
    below = [box for box in made.boxes if box.key.round.startswith("C")]
    above = [box for box in made.boxes if box.key.round in ("P", "R1", "R2", "QF", "SF", "1st")]
    assert max(box.y + box.h for box in above) < min(box.y for box in below)


@pytest.mark.parametrize("entrants", SAMPLE)
def test_what_feeds_a_bout_stands_in_an_earlier_column(entrants: int) -> None:
    built = bracket(entrants)
    columns = time_columns(built)
    assert all(columns[one.round] < columns[other.round] for one, other in built.graph.edges)


def test_a_round_robin_is_a_column_per_round() -> None:
    made = sheet(5, 5)
    assert [one.above for one in made.columns] == [(f"RR{i}",) for i in range(1, 6)]
    assert (made.winners, made.drops, made.middle) == ((), (), None)
