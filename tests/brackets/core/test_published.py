"""Published facts about brackets, each with its source in `fixtures/`."""

import doctest
from types import ModuleType
from typing import Any

import pytest

from brackets.core import lines, plan, sources
from brackets.core.formats import POOL_ORDER
from brackets.core.graph import BoutKey, Bracket, Exit, From, Line, Source
from brackets.core.lines import GENERAL, international, line_order, mirrored, recurrence
from brackets.core.numbering import number
from brackets.core.rematch import earliest_rematch
from brackets.core.rules import LineOrder
from tests.brackets.core.books import SECTION, book, bracket, line_up, published, rules

Case = dict[str, Any]


def facts(name: str) -> pytest.MarkDecorator:
    cases = published(f"brackets_{name}.json")
    assert all(case["source"] for case in cases)
    return pytest.mark.parametrize("case", cases, ids=[case["id"] for case in cases])


def named(built: Bracket, source: Source) -> str:
    if isinstance(source, Line):
        held = built.lines[source.number - 1]
        return f"seed {held[source.half or 0] if isinstance(held, tuple) else held}"
    assert isinstance(source, From)
    return f"{source.exit} {source.bout}"


@facts("edges")
def test_edges(case: Case) -> None:
    given = case["given"]
    built = bracket(given["entrants"], given["places"], book())
    key = BoutKey.parse(given["bout"])
    assert [named(built, source) for source in built.sources[key]] == case["expect"]
    assert key in built.bouts


def test_the_published_bracket_has_no_other_bout() -> None:
    built = bracket(33, 8, book())
    listed = {case["given"]["bout"] for case in published("brackets_edges.json")}
    assert {str(key) for key in built.sources} == listed


@facts("numbers")
def test_numbers(case: Case) -> None:
    given = case["given"]
    weights = [(str(i), bracket(given["entrants"], given["places"], book())) for i in range(10)]
    numbers = number(weights)
    ordered = sorted(bout for bout in numbers if bout[1].round == given["round"])
    found = [numbers[bout] for bout in ordered]
    first, last = case["expect"]
    assert found == list(range(first, last + 1))


@facts("counts")
def test_counts(case: Case) -> None:
    given = case["given"]
    built = bracket(given["entrants"], given["places"], book())
    weights = [(str(i), built) for i in range(given["weights"])]
    assert len(number(weights)) == given["weights"] * len(built.bouts) == case["expect"]


@facts("lines")
def test_line_orders(case: Case) -> None:
    order = GENERAL[LineOrder(case["given"]["order"])]
    assert list(order(case["given"]["lines"])) == case["expect"]


@facts("rematches")
def test_earliest_rematches(case: Case) -> None:
    given = case["given"]
    crossings = {**SECTION["crossings"], str(given["lines"]): given["crossings"]}
    built = bracket(given["lines"], given["places"], rules(crossings=crossings))
    order = [one.code for one in built.rounds]
    again = [earliest_rematch(built, key) for key in built.bouts if key.round == given["round"]]
    assert min((key.round for key in again if key), key=order.index) == case["expect"]


@facts("round_robins")
def test_round_robins(case: Case) -> None:
    built = bracket(case["given"]["entrants"])
    found: dict[str, list[str]] = {}
    for key, sides in built.sources.items():
        top, bottom = (side.number for side in sides if isinstance(side, Line))
        found.setdefault(key.round, []).append(f"{top}-{bottom}")
    assert list(found.values()) == case["expect"]


@pytest.mark.parametrize("entrants", POOL_ORDER)
def test_in_a_round_robin_everyone_meets_everyone_once_and_rests_evenly(entrants: int) -> None:
    rounds = POOL_ORDER[entrants]
    met = sorted(tuple(sorted(pair)) for one in rounds for pair in one)
    everyone = range(1, entrants + 1)
    assert met == [(a, b) for a in everyone for b in everyone if a < b]
    for one in rounds:
        busy = [entry for pair in one for entry in pair]
        assert len(set(busy)) == len(busy) == entrants - entrants % 2


@pytest.mark.parametrize("size", [2, 4, 8, 16, 32, 64, 128])
def test_the_recurrence_holds_and_first_round_pairs_add_up(size: int) -> None:
    # published: OEIS A131271: T(n,2k-1) = T(n-1,k), T(n,2k) = 2^(n-1) + 1 - T(n-1,k)
    above, row = recurrence(size // 2), recurrence(size)
    for k, best in enumerate(above):
        assert (row[2 * k], row[2 * k + 1]) == (best, size + 1 - best)
    for order in (row, mirrored(size)):
        assert sorted(order) == list(range(1, size + 1))
        assert {order[i] + order[i + 1] for i in range(0, size, 2)} == {size + 1}


@pytest.mark.parametrize("size", [8, 16, 32, 64, 128])
def test_both_orders_are_one_bracket(size: int) -> None:
    # calculated: as sets of pairs of pairs of pairs ... the two are equal
    def folded(order: tuple[int, ...]) -> object:
        ranks: list[object] = list(order)
        while len(ranks) > 1:
            ranks = [frozenset(ranks[i : i + 2]) for i in range(0, len(ranks), 2)]
        return ranks[0]

    assert folded(recurrence(size)) == folded(mirrored(size))


@pytest.mark.parametrize("entrants", range(9, 17))
def test_international_qualification_bouts_stand_at_the_bottom(entrants: int) -> None:
    # published: UWW 2017
    used = book("international-2025")
    lines = line_up(entrants, used)
    assert sorted(international(16)) == list(range(1, 17))
    bouts = [None not in pair for pair in zip(lines[::2], lines[1::2], strict=True)]
    assert bouts == [False] * (16 - entrants) + [True] * (entrants - 8)


def test_the_published_order_of_33_is_that_bracket_too() -> None:
    # read off 20 published brackets; the first-round pairs add up to 33
    order = line_order(32, book())
    assert {order[i] + order[i + 1] for i in range(0, 32, 2)} == {33}
    assert line_up(33, book())[:2] == ("1", ("32", "33"))


def test_every_way_out_of_the_published_bracket() -> None:
    # read off 20 published brackets: two ways out of every bout before the placing bouts, but a
    # consolation loser before the quarterfinals is out
    built = bracket(33, 8, book())
    ends = {key.round for key in built.bouts if built.onward(key, Exit.LOSER) is None}
    assert ends == {"CP", "C1", "C2", "C3", "C4", "7th", "5th", "3rd", "1st"}


@pytest.mark.parametrize("module", [sources, lines, plan])
def test_examples_in_the_text(module: ModuleType) -> None:
    found = doctest.testmod(module)
    assert found.attempted
    assert not found.failed
