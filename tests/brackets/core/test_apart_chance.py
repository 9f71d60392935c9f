"""Every draw of least cost is counted, in the order that is described, and equally likely."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import permutations

import pytest

from brackets.core.apart.criteria import KeepApart
from brackets.core.apart.pattern import by_lot, pattern
from brackets.core.apart.separated import separated_draw
from brackets.core.draw import Entrant
from brackets.core.graph import LineUp
from brackets.core.rules import Apart
from brackets.core.slots import Slot
from seeding.core.lot import Lot
from tests.brackets.core.books import rules
from tests.brackets.core.fields import TEAM, Setting, cost, entrants, evenly, setting, team_pairs

USED = rules(round_robin_up_to=0, pigtails_up_to=4)

SMALL = [
    entrants("AABBCC--"),
    entrants("AAABBB--"),
    entrants("AAAABBBB"),
    entrants("AAAAABB-"),
    entrants("AAAAAA--"),
    entrants("AABBCCDD", [0, 2, 4, 6]),
    entrants("AAABBBCC", [0, 1, 3]),
    entrants("AAABBBC-", [0, 3]),
    entrants("AABBA", [0]),
    entrants("AAABB-", [2, 3]),
    entrants("AAABBC-", [4]),
    entrants("AAAABBBBC", [0, 1, 2, 4, 5]),
    entrants("AABBCCDDEE", [0, 2, 4, 6]),
    entrants("AAABBBCCDDDD", [0, 1, 3, 6, 8, 9, 10, 2]),
    entrants("-AAAAABBBBCC", [0, 1, 2, 3, 11, 4, 5, 6]),
    entrants("AAABBBCCCDDDEEE-", [0, 3, 6, 9, 12, 1, 4, 7, 10, 13]),
    entrants("AAAAAABBBBBBCC", [0, 6, 1, 7, 2, 8, 3]),
]
"""At most eight free slots each; seven of them in a way that gets teams into each other's way."""


def every_draw(ready: Setting) -> Iterator[dict[Slot, str]]:
    held = {slot.held for slot in ready.slots.slots}
    others = sorted(one.id for one in ready.field.entrants if one.id not in held)
    for order in permutations(others):
        yield dict(zip(ready.slots.free, order, strict=True))


def as_pattern(drawn: dict[Slot, str], team_of: dict[str, int]) -> tuple[int, ...]:
    return tuple(team_of[one] for one in drawn.values())


def described(slots: Sequence[Slot], lines: int, teams: int, found: tuple[int, ...]) -> list[int]:
    """The list by which patterns are ordered, written down from its description."""
    halves = [(2 * slot.line + slot.half, team) for slot, team in zip(slots, found, strict=True)]

    def written(low: int, high: int) -> Iterator[int]:
        middle = (low + high) // 2
        up = Counter(team for at, team in halves if low <= at < middle)
        yield from (up[team] for team in range(teams))
        if high - low > 2:
            yield from written(low, middle)
            yield from written(middle, high)

    return list(written(0, 2 * lines))


@pytest.mark.parametrize("field", SMALL, ids=lambda field: "".join(e.team or "-" for e in field))
def test_the_patterns_are_those_of_least_cost_in_their_order(field: list[Entrant]) -> None:
    ready = setting(field, USED)
    least, team_of = ready.field.least, {}
    for number, team in enumerate(ready.field.teams):
        team_of.update(dict.fromkeys(team, number))
    costs = {}
    for drawn in every_draw(ready):
        key = as_pattern(drawn, team_of)
        if key not in costs:
            costs[key] = cost(ready.slots.line_up(drawn), USED, team_pairs(field))
    best = min(costs.values())
    wanted = sorted(
        (key for key, cost_of in costs.items() if cost_of == best),
        key=lambda key: described(ready.slots.free, ready.slots.lines, len(least.teams), key),
    )
    assert least.bound == best
    assert least.patterns == len(wanted)
    tree = ready.field.tree
    for number, key in enumerate(wanted):
        found = pattern(least.count, least.teams, number)
        assert tuple(found[tree.node(slot)] for slot in ready.slots.free) == key


def best_draws(field: list[Entrant], keep: KeepApart) -> set[LineUp]:
    ready = setting(field, USED, keep)
    costs = {
        ready.slots.line_up(drawn): tuple(
            cost(ready.slots.line_up(drawn), USED, set(sought))
            for sought in ready.field.sought.values()
        )
        for drawn in every_draw(ready)
    }
    best = min(costs.values())
    return {lines for lines, found in costs.items() if found == best}


DRAWN = [
    (entrants("AABBC", [0]), TEAM, 100_000),
    (entrants("AAABBC", [0, 3]), TEAM, 100_000),
    (entrants("AABBC", [0]), TEAM, 0),
    (entrants("AAABBC", [0, 3]), TEAM, 0),
    (
        [
            Entrant("a", 1, "A", "north"),
            Entrant("b", None, "A", "north"),
            Entrant("c", 2, "B", "north"),
            Entrant("d", None, "B", "south"),
            Entrant("e", None, "C", "south", frozenset("a")),
            Entrant("f", None, "", "south"),
        ],
        KeepApart((Apart.TEAM, Apart.REGION, Apart.MET)),
        100_000,
    ),
]


@pytest.mark.parametrize(("field", "keep", "limit"), DRAWN)
def test_every_best_draw_is_equally_likely(
    field: list[Entrant], keep: KeepApart, limit: int
) -> None:
    best = best_draws(field, keep)
    assert len(best) >= 4
    times = 25 * len(best)
    found = Counter(
        separated_draw(field, USED, Lot(str(seed), "draw"), keep, limit=limit).lines
        for seed in range(times)
    )
    assert evenly(found, best)


def test_a_lot_among_more_than_a_word_holds() -> None:
    lot = Lot("1912", "large")
    large = 3 * 2**70
    found = Counter(by_lot(lot, large) * 3 // large for _ in range(3000))
    assert sorted(found) == [0, 1, 2]
    assert all(abs(n - 1000) < 100 for n in found.values())
    assert by_lot(lot, 1) == 0


def test_some_of_the_small_fields_need_prices_for_their_proof() -> None:
    priced = {setting(field, USED).field.least.priced for field in SMALL}
    assert priced == {False, True}
