"""Every published figure of team points that can be built, wrestled from the draw to the ledger."""

import json
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from brackets.core.graph import BoutKey
from results.core.points import Item, Part, Scorer, ranked, table, total
from results.core.rules import TeamPointRules
from seeding.entries.core.rulebook import override
from seeding.entries.rulebooks import book
from tests.results.core.wrestled import FALL, Rules, Weight, better_seed, by, rules, star

CASES = json.loads(
    (Path(__file__).parents[3] / "fixtures" / "team_points_worked.json").read_text("utf-8")
)
PLACEMENT = rules().points.points_for(8)


def cases(kind: str) -> list[Any]:
    return [
        pytest.param(case["given"], case["expect"], id=case["id"])
        for case in CASES
        if case["given"]["case"] == kind
    ]


def with_settings(settings: dict[str, object]) -> Rules:
    found = rules()
    section = override(book("college-2025"), settings)["team_points"]
    points = TeamPointRules.from_section(section)
    return Rules(found.bracket, found.results, points, found.deductions)


def as_places(points: Decimal, most: int = 10) -> list[int] | None:
    """Places of at most ten wrestlers whose points add up to this; the fewest wrestlers."""
    found: dict[Decimal, list[int]] = {Decimal(0): []}
    for _ in range(most):
        longer = {
            sum_ + worth: [*places, place]
            for sum_, places in found.items()
            for place, worth in enumerate(PLACEMENT, start=1)
        }
        found = longer | found
    return found.get(points)


@pytest.mark.parametrize(("given", "expect"), cases("team sum"))
def test_published_team_sums(given: dict[str, Any], expect: dict[str, Any]) -> None:
    placement = Decimal(given["placement"])
    places = given.get("places") or as_places(placement)
    assert places is not None, "cannot be made of the placement table"
    parts = [
        Part(f"placer {at}", Item.PLACEMENT, PLACEMENT[place - 1], None, place, "place")
        for at, place in enumerate(places)
    ]
    assert total(parts) == placement
    for item in (Item.ADVANCEMENT, Item.BONUS):
        assert Decimal(given[str(item)]) % Decimal("0.5") == 0
        parts.append(Part("placer 0", item, Decimal(given[str(item)]), None, None, "sum"))
    scorers = {part.entry: Scorer("A", True) for part in parts}
    (line,) = table(parts, scorers, {}, ["A"])
    assert line.total == Decimal(expect["total"])
    assert line.total == line.placement + line.advancement + line.bonus


@pytest.mark.parametrize(("given", "expect"), cases("one bracket"))
def test_one_bracket_from_the_draw_to_the_ledger(
    given: dict[str, Any], expect: dict[str, Any]
) -> None:
    entry = given["star"]
    weight = Weight(given["entrants"], with_settings(given["settings"]))
    decide = star(entry, *given["loses"])
    if given["how"] == "fall":
        decide = by(FALL, decide)
    weight.wrestle(decide, until=given.get("until", ()))
    found = {
        "place": weight.place(entry),
        "total": weight.points(entry),
        "advancement": weight.points(entry, Item.ADVANCEMENT),
        "placement": weight.points(entry, Item.PLACEMENT),
        "bonus": weight.points(entry, Item.BONUS),
    }
    wanted = {key: value if key == "place" else Decimal(value) for key, value in expect.items()}
    assert {key: found[key] for key in wanted} == wanted


@pytest.mark.parametrize(("given", "expect"), cases("team places"))
def test_tied_teams_share_the_better_place(given: dict[str, Any], expect: dict[str, Any]) -> None:
    adjustments = {f"team {at}": Decimal(points) for at, points in enumerate(given["totals"])}
    lines = table([], {}, adjustments, list(adjustments))
    assert [(line.total, line.place) for line in lines] == [
        (Decimal(points), place) for points, place in expect["places"]
    ]
    assert [line.team for line in lines] == ["team 2", "team 1", "team 3", "team 0"]


@pytest.mark.parametrize(("given", "expect"), cases("final adds"))
@pytest.mark.parametrize("how", ["decision", "fall"])
def test_the_most_a_finalist_can_add(given: object, expect: dict[str, str], how: str) -> None:
    weight = Weight(33, rules()).wrestle(better_seed, until={"1st"})
    before = weight.points("1")
    weight.wrestle(by(FALL) if how == "fall" else better_seed)
    assert weight.points("1") - before == Decimal(expect[how])
    last = weight.parts("1", Item.PLACEMENT)[-1]
    assert last == Part("1", Item.PLACEMENT, Decimal(4), BoutKey("1st", 1), 1, "place")


def test_no_team() -> None:
    assert table([], {}, {}, []) == ()
    assert ranked({}) == {}
