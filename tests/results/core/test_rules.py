"""The sections of a rule book that results read."""

from collections.abc import Callable, Mapping
from dataclasses import FrozenInstanceError
from decimal import Decimal

import pytest

from results.core.bout_rules import BoutRules
from results.core.errors import PointsNotListed
from results.core.outcomes import Kind
from results.core.rules import Deductions, ResultRules, TeamPointRules
from seeding.entries.core.errors import BadSetting, MissingSetting, UnknownSetting
from seeding.entries.rulebooks import book, books

READERS: dict[str, Callable[[Mapping[str, object]], object]] = {
    "results": ResultRules.from_section,
    "team_points": TeamPointRules.from_section,
    "deductions": Deductions.from_section,
    "bout": BoutRules.from_section,
}


@pytest.mark.parametrize("name", books())
@pytest.mark.parametrize("section", READERS)
def test_every_book_is_read(name: str, section: str) -> None:
    assert READERS[section](book(name)[section]) == READERS[section](book(name)[section])


@pytest.mark.parametrize("section", READERS)
def test_unknown_and_missing_keys_are_refused_by_name(section: str) -> None:
    values = book("college-2025")[section]
    with pytest.raises(UnknownSetting, match=rf"There is no setting {section}\.mascot\. There are"):
        READERS[section](values | {"mascot": 1})
    for key in values:
        less = {other: value for other, value in values.items() if other != key}
        with pytest.raises(
            MissingSetting, match=rf"The rule book has no {section}\.{key}\. Add it"
        ):
            READERS[section](less)
        with pytest.raises(BadSetting, match=rf"The setting {section}\.{key}.* must be"):
            READERS[section](values | {key: None})


@pytest.mark.parametrize(
    ("section", "table", "key"),
    [
        ("team_points", "bonus", "fall"),
        ("results", "activity_points", "forfeit"),
    ],
)
def test_the_same_inside_a_table(section: str, table: str, key: str) -> None:
    values = book("college-2025")[section]
    with pytest.raises(UnknownSetting, match=rf"{section}\.{table}\.tickle"):
        READERS[section](values | {table: values[table] | {"tickle": 1}})
    less = {other: value for other, value in values[table].items() if other != key}
    with pytest.raises(MissingSetting, match=rf"{section}\.{table}\.{key}"):
        READERS[section](values | {table: less})


def test_a_choice_names_what_is_offered() -> None:
    values = book("college-2025")["team_points"]
    with pytest.raises(BadSetting) as refused:
        TeamPointRules.from_section(values | {"byes": "always"})
    assert str(refused.value) == (
        "The setting team_points.byes must be one of none, wins-next, championship-only, "
        "fall-bonus; it is 'always'."
    )


def test_kinds_named_in_a_book_exist() -> None:
    for name in books():
        rules = ResultRules.from_section(book(name)["results"])
        assert set(rules.out_after) <= {str(kind) for kind in Kind}


@pytest.mark.parametrize("name", books())
def test_overtime_has_periods_for_every_label(name: str) -> None:
    bout = BoutRules.from_section(book(name)["bout"])
    results = ResultRules.from_section(book(name)["results"])
    assert len(bout.overtime) == len(results.overtime)
    assert len(bout.near_fall) == len(bout.near_fall_seconds)


def test_rules_stay_as_they_are() -> None:
    rules = Deductions.from_section(book("college-2025")["deductions"])
    with pytest.raises(FrozenInstanceError):
        rules.flagrant_misconduct = Decimal(0)  # type: ignore[misc]


def test_placement_tables() -> None:
    # Published: NCAA Wrestling Rules Book, Rule 4, tournament scoring chart (p. WR-40).
    college = TeamPointRules.from_section(book("college-2025")["team_points"])
    assert [int(points) for points in college.points_for(4)] == [10, 7, 4, 2]
    assert [int(points) for points in college.points_for(6)] == [12, 10, 9, 7, 6, 4]
    assert [int(points) for points in college.points_for(8)] == [16, 12, 10, 9, 7, 6, 4, 3]
    # Association page: a state private-schools association; NFHS.
    school = TeamPointRules.from_section(book("high-school-2025")["team_points"])
    assert [int(points) for points in school.points_for(8)] == [16, 12, 9, 7, 5, 3, 2, 1]
    # From memory, unconfirmed: NFHS.
    assert [int(points) for points in school.points_for(6)] == [16, 12, 9, 7, 5, 3]
    assert [int(points) for points in school.points_for(4)] == [14, 10, 7, 4]


@pytest.mark.parametrize("name", ["college-2013", "college-2025", "high-school-2025"])
def test_places_that_no_published_table_has(name: str) -> None:
    # No source found: the first of four places; as eight places, and nothing behind them.
    points = TeamPointRules.from_section(book(name)["team_points"]).points_for
    assert points(2) == points(4)[:2]
    assert points(3) == points(4)[:3]
    assert points(12) == points(8) + 4 * (Decimal(0),)
    assert points(16) == points(8) + 8 * (Decimal(0),)


def test_a_number_of_places_without_points_is_refused() -> None:
    college = TeamPointRules.from_section(book("college-2025")["team_points"])
    with pytest.raises(PointsNotListed) as refused:
        college.points_for(5)
    assert str(refused.value) == (
        "The rule book has no team points for 5 places, only for 2, 3, 4, 6, 8, 12, 16. "
        "Add team_points.placement.5, or give another number of places."
    )


def test_the_free_table_of_a_local_event() -> None:
    # Association page: a local event of pools, 16 12 10 7 5 3 1.
    values = book("college-2025")["team_points"]
    values["placement"]["7"] = [16, 12, 10, 7, 5, 3, 1]
    rules = TeamPointRules.from_section(values)
    assert [int(points) for points in rules.points_for(7)] == [16, 12, 10, 7, 5, 3, 1]
