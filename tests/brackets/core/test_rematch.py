from itertools import combinations, product
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brackets.core.errors import NoSuchBout
from brackets.core.graph import BoutKey, Bracket
from brackets.core.latest import latest
from brackets.core.rematch import Row, earliest_rematch, rematches
from brackets.core.rules import BracketRules, Wrestleback
from brackets.core.standing import Status
from tests.brackets.core.books import SECTION, book, bracket, rules
from tests.strategies import Story, drawn, told

Choices = tuple[bool, ...]


def played(built: Bracket, choices: Choices) -> dict[frozenset[str], list[int]]:
    """Who met whom in which bouts when the bottom side wins where `choices` says so."""
    wiring = built.wiring
    values: list[str | None] = [None] * (2 * len(wiring.keys))
    for line in built.lines:
        values += line if isinstance(line, tuple) else (line, None)
    met: dict[frozenset[str], list[int]] = {}
    for i, (top, bottom) in enumerate(wiring.inputs):
        sides = values[top], values[bottom]
        a, b = sides
        if a is not None and b is not None:
            met.setdefault(frozenset((a, b)), []).append(i)
            values[2 * i], values[2 * i + 1] = sides[choices[i]], sides[not choices[i]]
        else:
            values[2 * i] = a if b is None else b
    return met


def agree(built: Bracket, key: BoutKey, seen: dict[int, int]) -> bool:
    """Whether what was seen of a bout's opponents is what `earliest_rematch` says, if it is all."""
    again = earliest_rematch(built, key)
    index = built.wiring.index
    return seen.get(index[key]) == (None if again is None else index[again])


@pytest.mark.parametrize("crossing", ["straight", "reversed"])
@pytest.mark.parametrize("entrants", [6, 7, 8])
def test_every_outcome_of_a_small_bracket(entrants: int, crossing: str) -> None:
    used = rules(crossings={**SECTION["crossings"], "8": [crossing]})
    built = bracket(entrants, 8, used)
    seen: dict[int, int] = {}
    for choices in product((False, True), repeat=len(built.sources)):
        for bouts in played(built, choices).values():
            for first, then in combinations(bouts, 2):
                seen[first] = min(then, seen.get(first, then))
    assert all(agree(built, key, seen) for key in built.bouts)


@given(st.integers(9, 33), st.sampled_from([4, 6, 8]), st.integers())
def test_nobody_meets_again_before_the_earliest(entrants: int, places: int, seed: int) -> None:
    built = bracket(entrants, places, book())
    chance = Random(seed)
    index = built.wiring.index
    for _ in range(5):
        choices = tuple(chance.random() < 0.5 for _ in built.sources)
        for bouts in played(built, choices).values():
            for first, then in combinations(bouts, 2):
                again = earliest_rematch(built, built.wiring.keys[first])
                assert again is not None
                assert index[again] <= then


@given(st.integers(6, 70), st.sampled_from([4, 6, 8]))
def test_only_those_who_met_before_the_semifinals_meet_again(entrants: int, places: int) -> None:
    rows = rematches(bracket(entrants, places))
    for row in rows:
        never = row.round.code in ("SF", "1st", "CP") or row.round.section == "consolation"
        assert (row.again is None) == (row.then is None)
        assert not (never and row.again)
    order = [(row.round.column, row.then.column if row.then else 1000) for row in rows]
    assert order == sorted(set(order))


@given(st.integers(2, 130), st.sampled_from([4, 6, 8]))
def test_the_table_counts_every_bout_once(entrants: int, places: int) -> None:
    built = bracket(entrants, places)
    rows = rematches(built)
    assert sum(row.bouts for row in rows) == len(built.bouts)
    for row in rows:
        assert earliest_rematch(built, row.example) == row.again
        assert row.example.round == row.round.code
        assert row.then is None or (row.again and built.round_of(row.again) == row.then)


@pytest.mark.parametrize(
    ("bout", "again"),
    [
        ("P-1", "C5-2"),
        ("R1-1", "C5-1"),
        ("R2-1", "C6-2"),
        ("QF-1", "5th-1"),
        ("SF-1", None),
        ("C1-1", None),
        ("C5-1", None),
        ("1st-1", None),
    ],
)
def test_the_published_bracket(bout: str, again: str | None) -> None:
    # calculated on the form read off 20 published brackets
    found = earliest_rematch(bracket(33, 8, book()), BoutKey.parse(bout))
    assert (str(found) if found else None) == again


def shown(row: Row) -> tuple[str, int, str, str]:
    return row.round.code, row.bouts, str(row.example), str(row.again)


def test_the_table_of_the_published_bracket() -> None:
    rows = [shown(row) for row in rematches(bracket(33, 8, book()))]
    assert rows[:6] == [
        ("P", 1, "P-1", "C5-2"),
        ("R1", 16, "R1-1", "C5-1"),
        ("R2", 8, "R2-1", "C6-2"),
        ("CP", 1, "CP-1", "None"),
        ("C1", 8, "C1-1", "None"),
        ("QF", 4, "QF-1", "5th-1"),
    ]
    assert {again for *_, again in rows[6:]} == {"None"}


def test_a_round_robin_has_no_rematch() -> None:
    assert [shown(row)[1:] for row in rematches(bracket(3))] == [
        (1, "RR1-1", "None"),
        (1, "RR2-1", "None"),
        (1, "RR3-1", "None"),
    ]


def test_a_bout_that_is_not_there() -> None:
    with pytest.raises(NoSuchBout):
        earliest_rematch(bracket(8), BoutKey("R1", 1))


def test_the_latest_is_worked_out_once() -> None:
    assert latest(256) is latest(256)


def stories(built: Bracket, used: BracketRules, count: int) -> dict[BoutKey, BoutKey]:
    """The earliest later bout of the two of each bout, in so many weights wrestled by chance."""
    index = built.wiring.index
    seen: dict[BoutKey, BoutKey] = {}
    for seed in range(count):
        met: dict[frozenset[object], list[BoutKey]] = {}
        states = told(Story(built, used), seed).end.bouts.values()
        for state in states:
            if state.status is Status.DECIDED:
                met.setdefault(frozenset(state.sides), []).append(state.key)
        for keys in met.values():
            for first, then in combinations(sorted(keys, key=index.__getitem__), 2):
                seen[first] = min(then, seen.get(first, then), key=index.__getitem__)
    return seen


FORMATS = [
    *({"wrestleback": str(one), "always_lines": 8} for one in Wrestleback),
    {"wrestleback": "finalists", "thirds": "two"},
    {"true_places": [2, 4]},
    {"two_pools": [6, 7]},
    {"of_two": "best-of-three"},
]


@pytest.mark.parametrize("changes", FORMATS, ids=lambda one: " ".join(map(str, one.values())))
@pytest.mark.parametrize("entrants", [2, 6, 7, 8, 9])
def test_weights_by_chance_find_just_the_earliest(
    entrants: int, changes: dict[str, object]
) -> None:
    used = rules(**changes)
    built = drawn(entrants, 8, used)
    seen = stories(built, used, 250)
    assert {key: earliest_rematch(built, key) for key in built.bouts} == {
        key: seen.get(key) for key in built.bouts
    }


@pytest.mark.parametrize("wrestleback", [str(one) for one in Wrestleback])
def test_no_weight_by_chance_is_earlier(wrestleback: str) -> None:
    used = rules(wrestleback=wrestleback, pigtails_up_to=2)
    for entrants in (13, 18, 33):
        built = drawn(entrants, 8, used)
        for key, then in stories(built, used, 20).items():
            again = earliest_rematch(built, key)
            assert again is not None
            assert built.wiring.index[again] <= built.wiring.index[then]
