"""Two pools: team-mates in different ones, every best draw counted and equally likely."""

from collections import Counter
from itertools import permutations
from random import Random

import pytest
from hypothesis import given

from brackets.core.apart.criteria import KeepApart, groups, pairs
from brackets.core.apart.result import Draw
from brackets.core.apart.separated import separated_draw
from brackets.core.draw import Entrant, in_order, ranked
from brackets.core.formats import build
from brackets.core.graph import LineUp
from brackets.core.rules import Apart
from seeding.core.lot import Lot
from tests.brackets.core.books import rules
from tests.brackets.core.fields import TEAM, chances, entrants, evenly, random_field

USED = rules(two_pools=[6, 7])
ALL = KeepApart((Apart.TEAM, Apart.REGION, Apart.MET))


def drawn(field: list[Entrant], keep: KeepApart = TEAM, seed: str = "1912") -> Draw:
    return separated_draw(field, USED, Lot(seed, "draw"), keep)


def every_draw(field: list[Entrant]) -> list[LineUp]:
    order = ranked(field)
    seeds = tuple(one for one in order.seeded if one)
    return [seeds + rest for rest in permutations(order.others)]


def cost(lines: LineUp, field: list[Entrant], criterion: Apart) -> int:
    """The pairs in one pool, by the pools of the bracket."""
    built = build(lines, USED, 8)
    pools = [set(built.members(pool)) for pool in built.pools]
    return sum({one, other} <= pool for one, other in pairs(field, criterion) for pool in pools)


def costs(field: list[Entrant], keep: KeepApart) -> dict[LineUp, tuple[int, ...]]:
    return {
        lines: tuple(cost(lines, field, one) for one in keep.criteria)
        for lines in every_draw(field)
    }


def patterns(field: list[Entrant], keep: KeepApart, found: dict[LineUp, tuple[int, ...]]) -> int:
    """In how many ways the lines go to the groups of the first criterion at its best."""
    of = {one: i for i, group in enumerate(groups(field, keep.criteria[0])) for one in group}
    least = min(cost[0] for cost in found.values())
    best = [lines for lines, cost in found.items() if cost[0] == least]
    return len({tuple(of[str(one)] for one in lines) for lines in best})


FIELDS = [
    (entrants("AABBC-", [4]), TEAM),
    (entrants("AAABBC", [0, 3, 5]), TEAM),
    (entrants("AABBCC-", [0, 6, 2, 3]), TEAM),
    (entrants("AAAAB--", [4, 5]), TEAM),
    (
        [
            Entrant("a", 1, "A", "north"),
            Entrant("b", None, "A", "south"),
            Entrant("c", 2, "B", "north"),
            Entrant("d", None, "B", "south"),
            Entrant("e", None, "C", "south", frozenset("a")),
            Entrant("f", None, "", "north"),
        ],
        ALL,
    ),
]


@pytest.mark.parametrize(("field", "keep"), FIELDS)
def test_every_best_draw_is_counted_and_equally_likely(
    field: list[Entrant], keep: KeepApart
) -> None:
    found = costs(field, keep)
    least = min(found.values())
    best = {lines for lines, cost in found.items() if cost == least}
    assert 1 < len(best) < len(found)
    told = drawn(field, keep)
    assert tuple(one.pairs[0] for one in told.kept) == least
    assert told.patterns == patterns(field, keep, found)
    times = 25 * len(best)
    assert evenly(Counter(drawn(field, keep, str(seed)).lines for seed in range(times)), best)


@given(chances())
def test_no_draw_of_pools_is_better_and_no_seed_moves(chance: Random) -> None:
    field = random_field(chance, most=7, fewest=6)
    found = drawn(field, ALL)
    seeds = [one for one in ranked(field).seeded if one]
    assert list(found.lines[: len(seeds)]) == seeds
    assert sorted(map(str, found.lines)) == sorted(one.id for one in field)
    told = tuple(one.pairs[0] for one in found.kept)
    assert told == tuple(cost(found.lines, field, one.criterion) for one in found.kept)
    if len(seeds) > 2:
        assert told == min(costs(field, ALL).values())
    assert [sum(one.pairs) for one in found.kept] == [
        len(pairs(field, one.criterion)) for one in found.kept
    ]
    assert found.certified
    chance.shuffle(field)
    assert drawn(field, ALL) == found


def test_two_of_a_team_meet_in_a_semifinal_at_the_earliest() -> None:
    """Seed 1 stands in pool A, so his unseeded team-mate stands in B, whatever the lot."""
    field = entrants("ABCDEA-", [0, 1])
    for seed in range(10):
        found = drawn(field, seed=str(seed))
        built = build(found.lines, USED, 8)
        assert "e005" in built.members(built.pools[1])
        assert found.kept[0].pairs == found.kept[0].bound == (0, 1)


def test_a_draw_of_pools_is_the_recorded_one() -> None:
    """Fixed for good: a change here is another version of the draw.

    e001 goes to B and e003 to A, each away from his seed; one of C goes to A, the other to B. So
    there are 2 choices, each in 2! * 3! orders, in which the two of C are one pattern.
    """
    found = drawn(entrants("AABBCC-", [0, 2]))
    assert found.lines == ("e000", "e002", "e006", "e003", "e005", "e001", "e004")
    assert found.patterns == 12
    assert found.record["kept"] == [{"criterion": "team", "pairs": [0, 3], "bound": [0, 3]}]


def test_where_nothing_is_kept_apart_every_order_is_possible() -> None:
    field = entrants("AABBCC")
    found = drawn(field, KeepApart(()))
    assert (found.kept, found.patterns) == ((), 720)


def test_version_1_drew_pools_as_a_round_robin() -> None:
    field = entrants("AABBCC", [0])
    old = separated_draw(field, USED, Lot("1912", "draw"), TEAM, version=1)
    assert (old.lines, old.kept, old.patterns) == (in_order(field, Lot("1912", "draw")), (), 0)
    assert old.version == 1
