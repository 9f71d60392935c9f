"""The books that come with the program: complete, sourced, and different where bodies differ."""

import re
from decimal import Decimal
from re import escape

import pytest

from brackets.core.rules import BracketRules
from seeding.entries.core.errors import UnknownRuleBook
from seeding.entries.core.rulebook import SECTIONS, export, names, override, restore
from seeding.entries.rulebooks import FOLDER, book, books, exported

ALL = ("college-2013", "college-2025", "high-school-2025", "international-2025")


def test_the_books() -> None:
    assert books() == ALL
    with pytest.raises(
        UnknownRuleBook, match=escape("no rule book 'college-1928'. There are: college-2013")
    ):
        book("college-1928")


@pytest.mark.parametrize("name", ALL)
def test_every_number_has_its_source_beside_it(name: str) -> None:
    text = (FOLDER / f"{name}.toml").read_text(encoding="utf-8")
    for line in text.splitlines():
        value, _, source = re.sub(r'"[^"]*"', '""', line).partition("#")
        if "=" in value and re.search(r"\d", value.partition("=")[2]):
            assert len(source) > 10, f"{name}: no source beside {line}"


@pytest.mark.parametrize("name", ALL)
def test_a_book_is_exported_the_same_way_every_time(name: str) -> None:
    fresh = book(name)
    assert exported(name) == export(fresh) == export(restore(exported(name)))
    assert tuple(sorted(fresh)) == tuple(sorted(("schema", *SECTIONS)))
    fresh["team_points"].clear()
    assert book(name)["team_points"]


@pytest.mark.parametrize("name", ALL)
def test_a_books_year_is_that_in_its_name(name: str) -> None:
    assert name.endswith(str(book(name)["book"]["season_ends"]))


@pytest.mark.parametrize("name", [name for name in ALL if name != "international-2025"])
def test_brackets_read_their_section(name: str) -> None:
    rules = BracketRules.from_section(book(name)["bracket"])
    assert rules.round_robin_up_to == 5
    assert [str(way) for way in rules.size(32).crossings] == ["reversed", "within-half", "reversed"]


def test_the_published_order_of_33() -> None:
    # Read off 20 published brackets; 33 shares the line of 32 in the pigtail.
    published = (
        "1-32 16-17 9-24 8-25 5-28 12-21 13-20 4-29 3-30 14-19 11-22 6-27 7-26 10-23 15-18 2-31"
    )
    order = book("college-2025")["bracket"]["lines"]["32"]
    pairs = zip(order[::2], order[1::2], strict=True)
    assert " ".join(f"{better}-{worse}" for better, worse in pairs) == published
    assert sorted(order) == list(range(1, 33))


def test_2013_differs_from_2025_where_the_rules_changed() -> None:
    old, new = book("college-2013"), book("college-2025")
    differing = {name for name in names(new) if _value(old, name) != _value(new, name)}
    assert differing == {
        "seeding.count",
        "seeding.criteria.RPI.minimum_bouts",
        "results.riding_time_decides",
        "bout.takedown",
        "bout.near_fall",
        "bout.near_fall_seconds",
        "bout.overtime",
        "team_points.technical_fall_without_near_fall",
        "deductions.flagrant_misconduct",
    }
    assert old["bout"]["takedown"] == 2
    assert old["bout"]["near_fall"] == [2, 3]
    assert Decimal(old["team_points"]["technical_fall_without_near_fall"]) == Decimal("1.0")
    assert old["seeding"]["count"] == 12


def _value(snapshot: dict[str, object], name: str) -> object:
    at: object = snapshot
    for key in name.split("."):
        if isinstance(at, list):
            at = {item["name"]: item for item in at}
        assert isinstance(at, dict)
        at = at[key]
    return at


def test_one_value_of_a_book_is_overridden() -> None:
    book_without = override(book("college-2025"), {"team_points.byes": "none"})
    assert book_without["team_points"]["byes"] == "none"
    weights = {item["name"]: item["weight"] for item in book("college-2025")["seeding"]["criteria"]}
    assert sum(weights.values()) == 100  # association page, 2024
