"""Groups after weigh-in: laws of the core, and the best groups by looking at every partition."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal
from itertools import combinations
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seeding.entries.core.errors import BadSetting, UnknownSetting
from seeding.entries.core.group_rules import ANY, Formed, GroupRules, SpreadIn
from seeding.entries.core.groups import (
    Cost,
    Grouping,
    Left,
    Limit,
    Measured,
    Why,
    broken,
    form,
    spread,
)
from seeding.entries.rulebooks import book, books

RULES = GroupRules(
    formed=Formed.AFTER_WEIGH_IN,
    unit="lb",
    size=4,
    least=2,
    most=5,
    largest_spread=Decimal(10),
    spread_in=SpreadIn.PERCENT,
    age_spread=ANY,
    experience_spread=ANY,
)
BANDED = replace(RULES, age_spread=1, experience_spread=2)


def weighed(*weights: str) -> list[Measured]:
    """Wrestlers a, b, c, ... of these weights."""
    return [Measured(chr(97 + at), Decimal(weight)) for at, weight in enumerate(weights)]


@st.composite
def rules(draw: st.DrawFn, base: GroupRules = RULES) -> GroupRules:
    least = draw(st.integers(2, 3))
    size = draw(st.integers(least, 4))
    return replace(
        base,
        least=least,
        size=size,
        most=draw(st.integers(size, 5)),
        largest_spread=Decimal(draw(st.integers(0, 15))),
        spread_in=draw(st.sampled_from(SpreadIn)),
    )


def fields(most: int, years: int = 4) -> st.SearchStrategy[list[Measured]]:
    year = st.integers(0, years)
    figures = st.tuples(st.integers(100, 140), year, year)
    return st.lists(figures, max_size=most).map(
        lambda rows: [
            Measured(f"w{at}", Decimal(weight) / 2, age, experience)
            for at, (weight, age, experience) in enumerate(rows)
        ]
    )


def partitions(people: Sequence[Measured], limits: GroupRules) -> Iterator[list[list[Measured]]]:
    """Every way to group some of the people within every limit."""
    if not people:
        yield []
        return
    first, *rest = people
    yield from partitions(rest, limits)
    for size in range(limits.least - 1, min(limits.most, len(people))):
        for others in combinations(rest, size):
            group = [first, *others]
            if not broken(group, limits):
                left = [one for one in rest if one not in others]
                yield from ([group, *more] for more in partitions(left, limits))


def cost(groups: Sequence[Sequence[Measured]], of: int, limits: GroupRules) -> Cost:
    """The objective, counted anew."""
    sizes = [len(group) for group in groups]
    return Cost(
        alone=of - sum(sizes),
        undersized=sum(size < limits.size for size in sizes),
        spread=sum((spread(group) for group in groups), Decimal(0)),
        off_size=sum(abs(size - limits.size) for size in sizes),
    )


def members(found: Grouping, people: Sequence[Measured]) -> list[list[Measured]]:
    known = {one.key: one for one in people}
    return [[known[key] for key in group] for group in found.groups]


@given(fields(8), rules())
def test_no_partition_is_better_where_only_weight_counts(
    people: list[Measured], limits: GroupRules
) -> None:
    found = members(form(people, limits), people)
    best = min(cost(ways, len(people), limits) for ways in partitions(people, limits))
    assert cost(found, len(people), limits) == best


def test_no_partition_of_nine_is_better() -> None:
    people = weighed("60", "60", "61", "62", "63.5", "64", "66", "66.5", "70")
    found = members(form(people, RULES), people)
    best = min(cost(ways, 9, RULES) for ways in partitions(people, RULES))
    assert cost(found, 9, RULES) == best


@given(fields(14), rules(BANDED), st.randoms(use_true_random=False))
def test_the_order_of_entry_changes_nothing(
    people: list[Measured], limits: GroupRules, chance: Random
) -> None:
    mixed = list(people)
    chance.shuffle(mixed)
    assert form(mixed, limits) == form(people, limits)


@given(fields(20), rules(BANDED))
def test_everybody_is_in_one_group_or_left_and_every_limit_holds(
    people: list[Measured], limits: GroupRules
) -> None:
    found = form(people, limits)
    keys = [key for group in found.groups for key in group] + [one.key for one in found.left]
    assert sorted(keys) == sorted(one.key for one in people)
    assert not [limit for group in members(found, people) for limit in broken(group, limits)]


@given(fields(16), rules(BANDED))
def test_nobody_who_is_left_could_join_a_group(people: list[Measured], limits: GroupRules) -> None:
    found = form(people, limits)
    known = {one.key: one for one in people}
    for left in found.left:
        for group in members(found, people):
            assert broken([*group, known[left.key]], limits)


def bands(people: Sequence[Measured], limits: GroupRules) -> Iterator[list[list[Measured]]]:
    """Every way to cut the ages into bands that are not too wide."""
    if not people:
        yield []
        return
    youngest = min(one.age or 0 for one in people)
    for width in range(limits.age_spread + 1):
        band = [one for one in people if (one.age or 0) <= youngest + width]
        rest = [one for one in people if one not in band]
        yield from ([band, *more] for more in bands(rest, limits))


@given(fields(9), rules(replace(RULES, age_spread=1)))
def test_no_division_into_bands_of_age_is_better(
    people: list[Measured], limits: GroupRules
) -> None:
    found = members(form(people, limits), people)
    free = replace(limits, age_spread=ANY)
    for cut in bands(people, limits):
        groups = [group for band in cut for group in members(form(band, free), band)]
        assert cost(found, len(people), limits) <= cost(groups, len(people), limits)


def test_groups_of_four_with_the_smallest_spread() -> None:
    found = form(weighed("50", "51", "50.5", "51.5", "60", "61", "60.5", "62"), RULES)
    assert found == Grouping((("a", "c", "b", "d"), ("e", "g", "f", "h")), ())


def test_nobody_is_left_alone_where_a_smaller_group_takes_him_in() -> None:
    limits = replace(RULES, most=4)
    found = form(weighed("50", "51", "52", "53", "54"), limits)
    assert sorted(len(group) for group in found.groups) == [2, 3]
    assert not found.left


def test_five_stay_together() -> None:
    assert len(form(weighed("50", "51", "52", "53", "54"), RULES).groups) == 1


@pytest.mark.parametrize(("heaviest", "together"), [("55", True), ("55.01", False)])
def test_the_spread_is_of_the_lightest_and_its_edge_is_within(
    heaviest: str, together: bool
) -> None:
    assert bool(form(weighed("50", heaviest), RULES).groups) == together


def test_who_is_left_is_told_why() -> None:
    people = [
        Measured("a", Decimal(50), 9, 1),
        Measured("b", None, 9, 1),
        Measured("c", Decimal(50), None, 1),
        Measured("d", Decimal(50), 9, None),
        Measured("e", Decimal(90), 9, 1),
    ]
    assert set(form(people, BANDED).left) == {
        Left("a", Why.NOBODY_NEAR),
        Left("b", Why.NOT_WEIGHED),
        Left("c", Why.NO_AGE),
        Left("d", Why.NO_EXPERIENCE),
        Left("e", Why.NOBODY_NEAR),
    }


def test_who_is_near_others_but_in_no_group_is_told_how_many() -> None:
    limits = replace(RULES, least=2, size=2, most=2)
    left = form(weighed("50", "50", "52"), limits).left
    assert left == (Left("c", Why.NO_ROOM, 2),)


def test_bands_of_age_come_before_weight() -> None:
    limits = replace(RULES, age_spread=1)
    people = [
        Measured(f"{age}{at}", Decimal(50 + at), age) for age in (8, 9, 12, 13) for at in range(2)
    ]
    assert form(people, limits).groups == (
        ("80", "90", "81", "91"),
        ("120", "130", "121", "131"),
    )


def test_a_group_says_which_limits_it_breaks() -> None:
    one = Measured("a", Decimal(50), 8, 0)
    group = [one, Measured("b", Decimal(60), 12, 5), Measured("c")]
    assert {(one.limit, int(one.found), int(one.allowed)) for one in broken(group, BANDED)} == {
        (Limit.UNKNOWN, 1, 0),
        (Limit.WEIGHT, 10, 5),
        (Limit.AGE, 4, 1),
        (Limit.EXPERIENCE, 5, 2),
    }
    assert [limit.limit for limit in broken([one], BANDED)] == [Limit.FEW]
    assert [limit.limit for limit in broken([one] * 6, BANDED)] == [Limit.MANY]
    assert not broken([], BANDED)


@pytest.mark.parametrize("name", books())
def test_every_rule_book_says_how_groups_are_formed(name: str) -> None:
    found = GroupRules.from_section(book(name)["weights"])
    assert not found.grouped
    assert (found.least, found.size, found.most, int(found.largest_spread)) == (2, 4, 5, 10)


@pytest.mark.parametrize(
    ("change", "refused"),
    [
        ({"size": 6}, BadSetting),
        ({"most": 9, "size": 9}, BadSetting),
        ({"largest_spread": "-1"}, BadSetting),
        ({"spread_in": "stone"}, BadSetting),
        ({"sise": 4}, UnknownSetting),
    ],
)
def test_what_cannot_be_meant_is_refused(
    change: dict[str, object], refused: type[Exception]
) -> None:
    weights = book("college-2025")["weights"]
    weights["groups"] |= change
    with pytest.raises(refused):
        GroupRules.from_section(weights)
