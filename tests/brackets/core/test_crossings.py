"""Crossings as rule books print them, and their laws."""

import doctest
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brackets.core import crossings as module
from brackets.core.crossings import Exchange, exchange
from brackets.core.graph import BoutKey, Bracket, Exit, From
from brackets.core.rematch import rematches
from brackets.core.rules import SIZES, Crossing
from tests.brackets.core.books import SECTION, bracket, published, rules

Case = dict[str, Any]
CASES = published("brackets_crossings.json")
ORDERS = st.lists(st.sampled_from(list(Crossing)), min_size=6, max_size=6)


def crossed_bracket(lines: int, crossings: object, places: int = 4) -> Bracket:
    every = {**SECTION["crossings"], str(lines): crossings}
    return bracket(lines, places, rules(crossings=every))


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_published_and_calculated(case: Case) -> None:
    assert case["source"]
    built = crossed_bracket(**case["given"])
    for code, order in case["expect"].get("orders", {}).items():
        drops = [built.sources[BoutKey(code, i)][1] for i in range(1, len(order) + 1)]
        assert [drop.bout.position for drop in drops if isinstance(drop, From)] == order
    first = {row.round.code: row.then for row in reversed(rematches(built)) if row.then}
    for code, again in case["expect"].get("rounds", {}).items():
        assert first[code].code == again


@pytest.mark.parametrize(
    ("name", "four", "eight"),
    [
        ("straight", (1, 2, 3, 4), (1, 2, 3, 4, 5, 6, 7, 8)),
        ("reversed", (4, 3, 2, 1), (8, 7, 6, 5, 4, 3, 2, 1)),
        ("half-swap", (3, 4, 1, 2), (5, 6, 7, 8, 1, 2, 3, 4)),
        ("within-half", (2, 1, 4, 3), (4, 3, 2, 1, 8, 7, 6, 5)),
    ],
)
def test_the_four_names(name: str, four: tuple[int, ...], eight: tuple[int, ...]) -> None:
    for order in (four, eight):
        one = exchange(Crossing(name), len(order))
        assert one.order == order
        assert one.name == name


def test_an_exchange_without_a_name_is_called_by_its_order() -> None:
    assert Exchange(8, 1).name == "2 1 4 3 6 5 8 7"


@given(st.integers(1, 7).flatmap(lambda p: st.tuples(st.just(2**p), st.integers(0, 2**p - 1))))
def test_a_crossing_is_a_permutation_and_its_own_inverse(drawn: tuple[int, int]) -> None:
    one = Exchange(*drawn)
    places = range(1, one.bouts + 1)
    assert sorted(one.order) == list(places)
    assert [one.loser(one.loser(i)) for i in places] == list(places)


@given(st.sampled_from(SIZES[:-1]), ORDERS, st.sampled_from([4, 6, 8]))
def test_every_loser_drops_exactly_once(lines: int, named: list[Crossing], places: int) -> None:
    built = crossed_bracket(lines, named[: lines.bit_length() - 3], places)
    drops = [one for sides in built.sources.values() for one in sides if isinstance(one, From)]
    losers = [one.bout for one in drops if one.exit is Exit.LOSER]
    championship = [
        key for key in built.bouts if built.wiring.championship[built.wiring.index[key]]
    ]
    for key in championship:
        assert losers.count(key) == (key.round != "1st")
    assert len(losers) == len(set(losers))


def test_examples() -> None:
    assert doctest.testmod(module).failed == 0
