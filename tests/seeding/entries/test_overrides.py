"""Single settings as people write them, one a line."""

from typing import Any

import pytest

from brackets.core.rules import BracketRules, Crossing, Searched
from seeding.entries.core.overrides import read_settings, written
from seeding.entries.core.rulebook import override
from seeding.entries.rulebooks import book

BASE = book("college-2025")


@pytest.mark.parametrize(
    ("line", "value"),
    [
        ("bracket.crossings.16 = latest", "latest"),
        ("bracket.crossings.16 = straight, reversed", ["straight", "reversed"]),
        ('bracket.crossings.16 = ["straight", "reversed"]', ["straight", "reversed"]),
        ('bracket.crossings.256 = ["straight"]', ["straight"]),
        ("bracket.crossings.256 = straight, reversed", ["straight", "reversed"]),
        ("bracket.crossings.8 = straight", ["straight"]),
        ("bracket.keep_apart = region", ["region"]),
        ("bracket.two_pools = 6, 7", [6, 7]),
        ("bracket.two_pools = 6", [6]),
        ("bracket.two_pools = []", []),
        ("bracket.places = 6", 6),
        ("team_points.byes = none", "none"),
        ("team_points.byes_from_double_loss = yes", True),
        ("team_points.pool_win = 1.5", "1.5"),
        ("team_points.placement.7 = 5, 4, 2.5", [5, 4, "2.5"]),
    ],
)
def test_a_line_is_a_value_of_its_kind(line: str, value: Any) -> None:
    found, problems = read_settings(line, BASE)
    assert not problems
    assert found == {line.partition(" = ")[0]: value}
    assert read_settings(written(found), BASE) == (found, ())


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("bracket.places = six", "bracket.places must be a number; it is “six”"),
        ("bracket.keep_apart = team,", "bracket.keep_apart must be a list such as team; it is"),
        ("bracket.keep_apart = [team", "bracket.keep_apart must be a list such as team; it is"),
        ("bracket.places", "write it as: name = value"),
    ],
)
def test_what_is_none_is_refused_by_line(line: str, said: str) -> None:
    found, (problem,) = read_settings(f"\n{line}", BASE)
    assert (found, problem.where) == ({}, "line 2")
    assert said in problem.message


def test_a_bracket_takes_the_crossings_that_were_written() -> None:
    found, _ = read_settings(
        "bracket.crossings.16 = latest\nbracket.crossings.32 = straight, reversed, straight", BASE
    )
    rules = BracketRules.from_section(override(BASE, found)["bracket"])
    assert rules.size(16).crossings is Searched.LATEST
    straight, reverse = Crossing.STRAIGHT, Crossing.REVERSED
    assert rules.size(32).crossings == (straight, reverse, straight)
