"""That no crossing delays rematches more: by enumeration where it can be, by counting beyond."""

import doctest
from collections.abc import Iterable, Sequence
from itertools import permutations, product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from brackets.core import latest as module
from brackets.core.crossings import Exchange, exchange
from brackets.core.latest import certify, exchanges, latest, limit, reached
from brackets.core.rematch import rematches
from brackets.core.rules import SIZES, Crossing
from tests.brackets.core.books import SECTION, book, bracket, rules
from tests.brackets.core.meetings import Drops, earliest, ends, every_crossing

Whole = NDArray[np.integer]


def drops(chosen: Iterable[Exchange]) -> Drops:
    return [[one.loser(i + 1) - 1 for i in range(one.bouts)] for one in chosen]


def named(lines: int) -> list[tuple[Exchange, ...]]:
    bouts = [lines >> number for number in range(2, lines.bit_length() - 1)]
    return list(product(*([exchange(one, size) for one in Crossing] for size in bouts)))


def coarse(lines: int, found: Sequence[int]) -> list[int]:
    """Indices in running order as numbers of consolation rounds, placing bouts as one."""
    placing = 2 * lines.bit_length() - 5
    return [min(index + 1, placing) for index in found]


@pytest.mark.parametrize("lines", SIZES)
@pytest.mark.parametrize("places", [4, 6, 8])
def test_what_is_promised_is_what_the_bracket_does(lines: int, places: int) -> None:
    built = bracket(lines, places, rules(crossings={**SECTION["crossings"], str(lines): "latest"}))
    rows = [row for row in rematches(built) if row.then and row.round.places is None]
    codes = [row.then.code for row in rows if row.then]
    assert [ends(places, lines)[i] for i in earliest(lines, drops(latest(lines)), places)] == codes
    assert [row.bouts for row in rows] == [lines >> r for r in range(1, lines.bit_length() - 2)]


@pytest.mark.parametrize("lines", SIZES)
def test_the_certificate(lines: int) -> None:
    held = certify(lines, latest(lines))
    assert held.proven
    assert held.reached == held.limit == limit(lines)
    assert coarse(lines, earliest(lines, drops(held.exchanges))) == list(held.reached)


@pytest.mark.parametrize("lines", [8, 16])
@pytest.mark.parametrize("places", [4, 6, 8])
def test_no_permutation_of_8_or_16_is_later(lines: int, places: int) -> None:
    every = [sorted(earliest(lines, one, places)) for one in every_crossing(lines)]
    assert sorted(earliest(lines, drops(latest(lines)), places)) == max(every)
    assert coarse(lines, max(every)) == list(limit(lines))
    for found in every:
        assert all(a <= b for a, b in zip(found, max(every), strict=True))


def test_no_permutation_of_32_is_later() -> None:
    # all 40,320 x 24 x 2, in numbers of consolation rounds
    second = np.array(list(permutations(range(8))), dtype=np.int8)
    best: list[int] = []
    for third, fourth in every_crossing(16):
        found = np.sort(_earliest_of_32(second, np.array(third), np.array(fourth)), axis=1)
        assert (found <= limit(32)).all()
        best = max(best, *np.unique(found, axis=0).tolist())
    assert best == list(limit(32)) == sorted(reached(32, latest(32)))


def _earliest_of_32(second: Whole, third: Whole, fourth: Whole) -> Whole:
    """A row of T(1), T(2), T(3) for each row of `second`."""
    ones, twos, threes = np.arange(16), np.arange(8), np.arange(4)
    drops_of_first = (
        _meeting(ones // 2, second[:, ones // 2], 2),
        _meeting(ones // 4, third[ones // 4], 3),
        _meeting(ones // 8, fourth[ones // 8], 4),
    )
    drops_of_second = (
        _meeting(second // 2, third[twos // 2], 3),
        _meeting(second // 4, fourth[twos // 4], 4),
    )
    first = np.minimum(drops_of_first[0].min(axis=1), min(one.min() for one in drops_of_first[1:]))
    later = np.minimum(*drops_of_second).min(axis=1)
    quarter = np.full(len(second), _meeting(third // 2, fourth[threes // 2], 4).min())
    return np.stack((first, later, quarter), axis=1)


def _meeting(mine: Whole, his: Whole, dropped: int) -> Whole:
    """The consolation round in which two places of round `dropped` come together."""
    rounds: Whole = np.array([2 * dropped - 2, *(2 * (dropped + up) - 3 for up in (1, 2, 3))])
    steps: Whole = np.sum([mine >> up != his >> up for up in range(3)], axis=0)
    return rounds[steps]


@given(st.data(), st.sampled_from([32, 64, 128, 256]))
def test_no_drawn_permutation_passes_the_limit(data: st.DataObject, lines: int) -> None:
    sizes = [lines >> number for number in range(2, lines.bit_length() - 1)]
    one = [data.draw(st.permutations(range(size))) for size in sizes]
    found = sorted(coarse(lines, earliest(lines, one)))
    assert all(a <= b for a, b in zip(found, limit(lines), strict=True))


@pytest.mark.parametrize("lines", [8, 16, 32, 64])
@pytest.mark.parametrize("places", [4, 6, 8])
def test_no_four_names_are_later(lines: int, places: int) -> None:
    best = max(sorted(earliest(lines, drops(one), places)) for one in named(lines))
    assert sorted(earliest(lines, drops(latest(lines)), places)) == best


@given(st.data(), st.sampled_from(SIZES))
def test_the_numbers_of_a_crossing_follow_from_its_masks(data: st.DataObject, lines: int) -> None:
    sizes = [lines >> number for number in range(2, lines.bit_length() - 1)]
    one = [Exchange(size, data.draw(st.integers(0, size - 1))) for size in sizes]
    assert coarse(lines, earliest(lines, drops(one))) == list(reached(lines, one))


def test_the_four_names_do_not_reach_the_limit_of_256() -> None:
    assert not any(certify(256, one).proven for one in named(256))


@pytest.mark.parametrize("name", ["college-2025", "college-2013", "high-school-2025"])
def test_the_books_delay_rematches_as_long_as_any_crossing(name: str) -> None:
    for lines in SIZES:
        assert certify(lines, exchanges(book(name).size(lines))).proven


def test_a_crossing_that_does_not_reach_the_limit() -> None:
    held = certify(16, [Exchange(4, 0), Exchange(2, 1)])
    assert (held.reached, held.limit, held.proven) == ((2, 5), (4, 5), False)


def test_examples() -> None:
    assert doctest.testmod(module).failed == 0
