"""The section of a rule book: what it says, and what it refuses in which words."""

from collections.abc import Mapping
from typing import Any

import pytest

from seeding.core.rules import SeedingRules
from seeding.core.weighted_pairs import WeightedPairs
from seeding.entries.core.errors import RuleBookRefusal
from tests.seeding.core.seasons import BOOKS, section

COLLEGE, HIGH_SCHOOL = section("college-2025"), section("high-school-2025")


@pytest.mark.parametrize("book", sorted(path.stem for path in BOOKS.glob("*.toml")))
def test_every_rule_book_is_read(book: str) -> None:
    assert SeedingRules.from_section(section(book)).count_at("133") > 0


def test_college_weights() -> None:
    """Association page, 2024: 25, 20, 15 and four times 10."""
    shape = SeedingRules.from_section(COLLEGE).shape
    assert isinstance(shape, WeightedPairs)
    assert sorted(line.weight for line in shape.criteria) == [10, 10, 10, 10, 15, 20, 25]


def line(book: Mapping[str, Any], which: str, /, **changed: object) -> Mapping[str, Any]:
    """The section with one criterion changed; None takes a key away."""
    lines = [
        {key: value for key, value in (one | changed).items() if value is not None}
        if one["name"] == which
        else one
        for one in book["criteria"]
    ]
    return {**book, "criteria": lines}


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        (
            COLLEGE | {"shape": "stairs"},
            "The setting seeding.shape must be one of pair-points, ladder, additive, ",
        ),
        (COLLEGE | {"circles": "half"}, "There is no setting seeding.circles. There are: "),
        (
            {key: value for key, value in COLLEGE.items() if key != "undecided"},
            "The rule book has no seeding.undecided. Add it.",
        ),
        (
            HIGH_SCHOOL | {"undecided": "split"},
            "The setting seeding.undecided must be one of half, nothing; it is 'split'.",
        ),
        (
            COLLEGE | {"order_by": ["points"]},
            "The setting seeding.order_by must be a list of pairs-won, sum-of-weights",
        ),
        (
            COLLEGE | {"order_by": ["pairs-won", "pairs-won"]},
            "The setting seeding.order_by must be a list of pairs-won, sum-of-weights, each at",
        ),
        (
            HIGH_SCHOOL | {"order_by": []},
            "The setting seeding.order_by must be the list of points; it is [].",
        ),
        (
            COLLEGE | {"ties": ["height"]},
            "The setting seeding.ties must be a list of tables or of head-to-head, quality wins, ",
        ),
        (
            COLLEGE | {"ties": ["RPI", "RPI"]},
            "The setting seeding.ties must be a list in which RPI stands once; ",
        ),
        (
            COLLEGE | {"ties": "RPI"},
            "The setting seeding.ties must be a list; it is 'RPI'.",
        ),
        (
            COLLEGE | {"criteria": []},
            "The setting seeding.criteria must be a list of at least one table; it is [].",
        ),
        (
            COLLEGE | {"counting": COLLEGE["counting"] | {"win": ["superiority"]}},
            "The setting seeding.counting.win must be a list of decision, major decision, ",
        ),
        (
            line(COLLEGE, "RPI", criterion="height"),
            (
                "The setting seeding.criteria.4.criterion must be one of head-to-head, "
                "common-opponents, returning-placer, common-events, points, win-percentage, "
            ),
        ),
        (
            line(COLLEGE, "RPI", name="head-to-head"),
            "The setting seeding.criteria must be a list in which head-to-head stands once; ",
        ),
        (
            line(COLLEGE, "RPI", weight="0"),
            "The setting seeding.criteria.4.weight must be a number above 0; it is '0'.",
        ),
        (
            line(COLLEGE, "RPI", weight="NaN"),
            "The setting seeding.criteria.4.weight must be a number; it is 'NaN'.",
        ),
        (
            line(COLLEGE, "RPI", weight=None),
            "The rule book has no seeding.criteria.4.weight. Add it.",
        ),
        (
            line(HIGH_SCHOOL, "head-to-head", weight=1),
            "There is no setting seeding.criteria.0.weight. There are: ",
        ),
        (
            line(COLLEGE, "RPI", parts=[1, 2]),
            "The setting seeding.criteria.4.parts must be a list of three numbers from 0; ",
        ),
        (
            line(COLLEGE, "quality wins", over={"of": "winning", "percentage": "1.5"}),
            "The setting seeding.criteria.1.over.percentage must be a number from 0 to 1; ",
        ),
        (
            line(COLLEGE, "quality wins", over={"of": "ranked", "ranking": "coaches"}),
            "The rule book has no seeding.criteria.1.over.top. Add it.",
        ),
        (
            line(HIGH_SCHOOL, "returning champion", groups=[[1], [1]]),
            "The setting seeding.criteria.2.groups must be a list of lists of places from 0, each ",
        ),
        (
            line(HIGH_SCHOOL, "returning champion", groups=[1]),
            "The setting seeding.criteria.2.groups must be a list of lists of places from 0, each ",
        ),
    ],
)
def test_refused(changed: Mapping[str, Any], message: str) -> None:
    with pytest.raises(RuleBookRefusal) as refusal:
        SeedingRules.from_section(changed)
    assert str(refusal.value).startswith(message)


def test_a_second_list_may_bring_its_own_criteria() -> None:
    table = {
        "name": "sweep",
        "criterion": "head-to-head",
        "bouts": "any-weight",
        "rule": "sweep",
    }
    rules = SeedingRules.from_section(COLLEGE | {"ties": ["RPI", table]})
    assert [one.name for one in rules.ties] == ["RPI", "sweep"]
