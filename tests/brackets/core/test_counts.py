"""How many bouts every way back makes, by closed formulas, and which places it gives."""

import pytest

from brackets.core.errors import PlacesNotWrestled
from brackets.core.rules import Wrestleback
from tests.brackets.core.books import bracket, rules

EVERYONE, TO_FIFTH, WINNERS, LEADER, FINALISTS, NOBODY, DOUBLE = map(str, Wrestleback)


def full(wrestleback: str, thirds: str = "wrestled", places: int = 8, lines: int = 32) -> int:
    used = rules(wrestleback=wrestleback, thirds=thirds)
    return len(bracket(lines, places, used).bouts)


@pytest.mark.parametrize("rounds", range(3, 9))
def test_number_of_bouts_of_full_brackets(rounds: int) -> None:
    """Calculated, for n = 2^k; v = k - 3 rounds before the quarterfinals."""
    n, v = 2**rounds, rounds - 3
    assert [full(EVERYONE, places=p, lines=n) for p in (2, 3)] == [n - 1, 2 * n - 4]
    assert [full(TO_FIFTH, places=p, lines=n) for p in (2, 3, 4, 6, 8)] == [
        *(n - 1, n, n),
        *(2 * n - 5, 2 * n - 4),
    ]
    for kind in (WINNERS, LEADER):
        found = [full(kind, places=p, lines=n) for p in (2, 4, 6, 8)]
        assert found == [n - 1, n + 4 * v + 4, n + 4 * v + 5, n + 4 * v + 6]
    for thirds, more in (("two", [0, 0]), ("wrestled", [1, 2])):
        chains = n - 1 + 2 * (rounds - 2)
        assert [full(FINALISTS, thirds, places=p, lines=n) for p in (4, 6)] == [
            chains + one for one in more
        ]
    assert [full(NOBODY, thirds, 4, n) for thirds in ("two", "wrestled")] == [n - 1, n]
    assert [full(DOUBLE, places=p, lines=n) for p in (2, 3, 4, 6, 8)] == [
        *(2 * n - 1, 2 * n - 1, 2 * n - 1),
        *(2 * n, 2 * n + 1),
    ]
    if rounds > 3:
        assert [full(EVERYONE, places=p, lines=n) for p in (12, 16)] == [2 * n + 2, 2 * n + 6]
        assert [full(TO_FIFTH, places=p, lines=n) for p in (12, 16)] == [2 * n, 2 * n + 4]
        assert [full(DOUBLE, places=p, lines=n) for p in (12, 16)] == [2 * n + 5, 2 * n + 9]


@pytest.mark.parametrize("entrants", range(8, 129))
def test_number_of_bouts_with_byes(entrants: int) -> None:
    """Calculated: a bye takes one bout off either side, where everyone wrestles back."""
    counts = [len(bracket(entrants, p, rules(wrestleback=DOUBLE)).bouts) for p in (4, 6, 8)]
    assert counts == [2 * entrants - 1, 2 * entrants, 2 * entrants + 1]
    counts = [len(bracket(entrants, p, rules(wrestleback=TO_FIFTH)).bouts) for p in (4, 6, 8)]
    assert counts == [entrants, 2 * entrants - 5, 2 * entrants - 4]
    assert len(bracket(entrants, 4, rules(wrestleback=NOBODY)).bouts) == entrants


@pytest.mark.parametrize(
    ("wrestleback", "entrants", "places", "most"),
    [
        (NOBODY, 8, 6, 4),
        (FINALISTS, 8, 8, 6),
        (WINNERS, 16, 12, 8),
        (LEADER, 16, 16, 8),
        (EVERYONE, 9, 12, 8),
    ],
)
def test_places_that_are_not_wrestled_for(
    wrestleback: str, entrants: int, places: int, most: int
) -> None:
    with pytest.raises(PlacesNotWrestled) as caught:
        bracket(entrants, places, rules(wrestleback=wrestleback))
    lines = 16 if entrants > 9 else 8
    assert str(caught.value) == (
        f"A bracket of {lines} lines with wrestleback {wrestleback} gives {most} places at most, "
        f"not {min(places, entrants)}. "
        "Give the weight fewer places, or its division another wrestleback."
    )


@pytest.mark.parametrize(
    ("entrants", "absent"), [(10, "11th"), (10, "13SF"), (11, "13SF"), (13, "15th"), (14, "15th")]
)
def test_no_bout_is_for_places_that_so_few_cannot_take(entrants: int, absent: str) -> None:
    codes = [one.code for one in bracket(entrants, 16).rounds]
    assert absent not in codes
    more = {"11th": 11, "13SF": 13, "15th": 15}[absent]
    assert absent in [one.code for one in bracket(more, 16).rounds]
