"""Worked numbers of published lists, from fixtures/seeding_worked.json."""

import json
from collections.abc import Mapping
from typing import Any

import pytest

from seeding.core.ladder import Ladder
from seeding.core.order import propose
from seeding.core.pairs import NONE
from seeding.core.points import Additive, Points, written
from seeding.core.season import PriorBout
from seeding.rulebooks import rules_of_list
from tests.seeding.core.seasons import ROOT, bout, met, season

Given = Mapping[str, Any]
CASES = json.loads((ROOT / "fixtures" / "seeding_worked.json").read_text("utf-8"))
BY_ID = {case["id"]: case for case in CASES}


def having(key: str) -> pytest.MarkDecorator:
    cases = [case for case in CASES if key in case["given"] and "list" in case["given"]]
    return pytest.mark.parametrize("case", cases, ids=[case["id"] for case in cases])


def record(wrestler: str, won: int, lost: int) -> tuple[PriorBout, ...]:
    return (
        *(bout(wrestler, f"{wrestler}-beaten-{at}", at) for at in range(won)),
        *(bout(f"{wrestler}-better-{at}", wrestler, at) for at in range(lost)),
    )


@having("record")
def test_points_of_one(case: Given) -> None:
    given = case["given"]
    places = {event: {"A": place} for event, place in given["places"].items()}
    known = season(*record("A", *given["record"]), places=places)
    rules = rules_of_list(given["list"])
    assert isinstance(rules.shape, Additive)
    ((total,),) = propose("A", known, rules, "1").totals.values()
    assert written(total.value) == case["expect"]["points"]
    terms = {term.name: term.measure("A", known).value or NONE for term in rules.shape.terms}
    assert {name: written(value) for name, value in terms.items()} == case["expect"]["terms"]


@having("bands")
def test_points_by_difference(case: Given) -> None:
    given = case["given"]
    shape = rules_of_list(given["list"]).shape
    assert isinstance(shape, Ladder)
    (points,) = (line for line in shape.criteria if isinstance(line, Points))
    known = season(
        *(one for name, played in given["bands"].items() for one in record(name, *played))
    )
    verdict = points.compare("A", "B", known)
    assert [number.text for number in verdict.numbers] == [case["expect"]["points"], "0"]
    assert verdict.better == "A"
    assert points.compare("B", "A", known).numbers == verdict.numbers[::-1]


def test_a_circle_moves_nobody() -> None:
    case = BY_ID["new-jersey-circle"]
    given, expect = case["given"], case["expect"]
    bouts = met(given["bouts"])
    rules = rules_of_list(given["list"])

    def order(*counted: PriorBout) -> list[str]:
        return [*propose("ABC", season(*counted, places=given["places"]), rules, "1").order]

    assert order(*bouts) == expect["order"]
    # Of the bouts between the three, C over B alone is left to move somebody.
    opened = [one for one in bouts if (one.winner, one.loser) not in (("A", "C"), ("B", "A"))]
    assert order(*opened, *met(["AV", "AW"])) == expect["without the last bout of the circle"]


def test_a_sectional_of_ohio_by_percentage_and_wins() -> None:
    """12-1 above 20-2; 24-2 above 12-1 at equal percentage; 11-0 has no record of twelve bouts."""
    rules = rules_of_list("ohio-sectional-2017")
    for one, other in (((12, 1), (20, 2)), ((24, 2), (12, 1)), ((8, 8), (11, 0))):
        known = season(*record("A", *one), *record("B", *other))
        assert propose("AB", known, rules, "1").order == ("A", "B")
