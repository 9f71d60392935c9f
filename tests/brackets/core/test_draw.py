from collections.abc import Collection
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brackets.core.draw import Entrant, draw_by_region
from brackets.core.errors import SeedTwice
from brackets.core.formats import build
from brackets.core.graph import Line, LineUp
from brackets.core.lines import line_order
from brackets.core.rules import BracketRules
from seeding.core.lot import Lot
from seeding.core.qualifying import Held, LinesByRegion, Spot
from tests.brackets.core import books
from tests.brackets.core.books import book, rules


def field(entrants: int, seeds: int) -> list[Entrant]:
    return [
        Entrant(f"e{i}", i if i <= seeds else None, f"t{i % 7}") for i in range(1, entrants + 1)
    ]


def drawn(
    entrants: list[Entrant], used: BracketRules, seed: str = "1912", holes: Collection[int] = ()
) -> LineUp:
    return books.drawn(entrants, used, Lot(seed, "draw/125"), holes)


def test_the_published_first_round() -> None:
    # read off 20 published brackets
    pairs = (
        "1-32/33 16-17 9-24 8-25 5-28 12-21 13-20 4-29 3-30 14-19 11-22 6-27 7-26 10-23 15-18 2-31"
    )
    lines = drawn(field(33, 33), book())
    names = ["/".join(one) if isinstance(one, tuple) else str(one) for one in lines]
    found = " ".join(f"{names[i]}-{names[i + 1]}" for i in range(0, 32, 2))
    assert found.replace("e", "") == pairs


def test_byes_fall_beside_the_best_seeds() -> None:
    assert drawn(field(5, 5), rules(round_robin_up_to=0)) == (
        *("e1", None, "e5", "e4", "e3", None, None, "e2"),
    )


@pytest.mark.parametrize("entrants", range(6, 34))
def test_a_bye_meets_no_bye_while_there_are_seeds_for_all(entrants: int) -> None:
    built = build(drawn(field(entrants, entrants), rules()), rules(), 8)
    lines = built.lines
    for key, sides in built.sources.items():
        if all(isinstance(side, Line) for side in sides):
            held = [lines[side.number - 1] for side in sides if isinstance(side, Line)]
            assert held != [None, None], key


def test_seeds_are_placed_and_the_rest_drawn() -> None:
    order = line_order(16, rules())
    by_lot = {drawn(field(16, 4), rules(), str(seed)) for seed in range(20)}
    assert len(by_lot) == 20
    for lines in by_lot:
        ranks = {lines[i]: rank for i, rank in enumerate(order)}
        assert [ranks[f"e{seed}"] for seed in range(1, 5)] == [1, 2, 3, 4]


def test_a_gap_among_the_seeds_closes() -> None:
    field_of = [Entrant(f"e{seed}", seed, "") for seed in (1, 2, 4, 5, 6, 7, 8, 9)]
    assert drawn(field_of, rules()) == ("e1", "e9", "e6", "e5", "e4", "e7", "e8", "e2")


def test_a_round_robin_is_in_order_of_seed() -> None:
    assert drawn(field(4, 4), rules()) == ("e1", "e2", "e3", "e4")


def test_a_seed_twice() -> None:
    with pytest.raises(SeedTwice) as caught:
        drawn([Entrant("a", 1, ""), Entrant("b", 1, ""), Entrant("c", 2, "")], rules())
    assert str(caught.value).startswith("Seed 1 is given twice")


@given(
    entrants=st.integers(2, 129),
    seeds=st.integers(0, 129),
    lot=st.text(max_size=8),
    data=st.data(),
)
def test_the_same_field_in_another_order_is_drawn_alike(
    entrants: int, seeds: int, lot: str, data: st.DataObject
) -> None:
    first = field(entrants, seeds)
    other = data.draw(st.permutations(first))
    lines = drawn(first, rules(), lot)
    assert lines == drawn(other, rules(), lot)
    assert sorted(build(lines, rules(), 8).entries()) == sorted(one.id for one in first)


def test_the_lot_is_the_recorded_one() -> None:
    assert drawn(field(4, 0), rules()) == ("e2", "e4", "e3", "e1")


@given(st.sampled_from(range(6, 33)), st.sampled_from(range(1, 6)), st.randoms())
def test_a_hole_keeps_everybody_else_where_he_was(entrants: int, hole: int, chance: Random) -> None:
    """Who is scratched leaves his rank empty: all others stand on the lines that they had."""
    full = field(entrants, entrants)
    left = [one for one in full if one.seed != hole]
    chance.shuffle(left)
    plain = rules(round_robin_up_to=0)
    before = [None if one == f"e{hole}" else one for one in drawn(full, plain)]
    assert list(drawn(left, plain, holes={hole})) == before


def test_lines_by_region_have_no_lot_and_a_missing_place_is_a_bye() -> None:
    pattern = ("A1", "B4", "B2", "A3", "B1", "A4", "A2", "B3")
    field = [Held(one, Spot(one[0], int(one[1:]))) for one in pattern if one != "A4"]
    lines = draw_by_region(field, LinesByRegion({8: pattern}), rules())
    assert lines == tuple(None if one == "A4" else one for one in pattern)


def test_a_small_field_by_region_is_a_round_robin_in_the_order_of_the_lines() -> None:
    pattern = ("A1", "B4", "B2", "A3", "B1", "A4", "A2", "B3")
    field = [Held(one, Spot(one[0], int(one[1:]))) for one in ("A1", "A2", "B1", "B2")]
    assert draw_by_region(field, LinesByRegion({8: pattern}), rules()) == ("A1", "B2", "B1", "A2")
