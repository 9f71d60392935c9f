"""Every list in the tree: each criterion alone decides, a circle, a final tie.

The cases are fixtures/seeding_lists.json; each names its source. Bouts are "winner loser" in one
letter each, perhaps with the weight; places a number, perhaps with the weight; ballots the voter,
his order and, perhaps, his own wrestlers. Records are bouts with wrestlers whom nobody else met.
"""

import json
from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from seeding.core.ballots import ByBallot
from seeding.core.mends import Floor
from seeding.core.order import Proposal, propose
from seeding.core.pipeline import Pipeline
from seeding.core.points import Additive
from seeding.core.rules import SeedingRules
from seeding.core.season import Placing, PriorBout, Season
from seeding.core.shapes import Shape
from seeding.core.stages import Filter, Groups, Ordered, Swaps
from seeding.core.ties import Final
from seeding.core.weighted_pairs import WeightedPairs
from seeding.rulebooks import lists, rules_of_list
from tests.seeding.core.seasons import ROOT, WEIGHT, ballot, bout

Given = Mapping[str, Any]
CASES = json.loads((ROOT / "fixtures" / "seeding_lists.json").read_text("utf-8"))


def played(given: Given) -> Iterator[PriorBout]:
    for day, text in enumerate(given.get("bouts", [])):
        two, _, weight = text.partition(" ")
        yield bout(two[0], two[1], day, weight=weight or WEIGHT)
    for one, (won, lost) in given.get("records", {}).items():
        yield from (bout(one, f"{one.lower()}{at}", at) for at in range(won))
        yield from (bout(f"over {one.lower()}{at}", one, at) for at in range(lost))
    yield from (bout(winner, loser) for winner, loser in given.get("extra", []))


def placed(given: Given) -> Iterator[Placing]:
    for event, table in given.get("places", {}).items():
        for one, text in table.items():
            place, _, weight = str(text).partition(" ")
            yield Placing(event, one, int(place), weight or WEIGHT)


def known(given: Given) -> Season:
    cast = [ballot(*text.split()) for text in given.get("ballots", [])]
    tables = given.get("rankings", {})
    return Season(
        WEIGHT, tuple(played(given)), rankings=tables, placings=(*placed(given),), ballots=(*cast,)
    )


def proposed(case: Given) -> Proposal:
    given = case["given"]
    return propose(given["field"], known(given), rules_of_list(given["list"]), "1912")


def two_of(case: Given) -> str:
    pair: str = case["expect"].get("pair", case["given"]["field"][:2])
    return pair


every_case = pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])


@every_case
def test_the_list_does_what_is_published(case: Given) -> None:
    expect, proposal = case["expect"], proposed(case)
    assert "".join(proposal.order).startswith(expect.get("order", ""))
    assert ["".join(group) for group in proposal.drawn] == expect.get("drawn", [])
    assert ["".join(group) for group in proposal.open] == expect.get("open", [])
    if "criterion" in expect:
        reason = proposal.reason(*two_of(case))
        assert (reason.above, reason.criterion) == (two_of(case)[0], expect["criterion"])
    if "seeds" in expect:
        assert "".join(proposal.seeds) == expect["seeds"]


@every_case
def test_the_list_says_why(case: Given) -> None:
    expect, proposal = case["expect"], proposed(case)
    said = proposal.reason(*two_of(case)).say()
    for words in expect.get("says", []):
        assert words in said
    if "circles" in expect:
        around = ["".join(sorted(one.circle.wrestlers)) for one in proposal.arrangement.circles]
        assert around == expect["circles"]
    if "settled" in expect:
        assert {one.settled.say() for one in proposal.arrangement.circles} == {expect["settled"]}


ALONE = [
    case for case in CASES if "criterion" in case["expect"] and "circles" not in case["expect"]
]


@pytest.mark.parametrize("case", ALONE, ids=[case["id"] for case in ALONE])
def test_the_criterion_decides_alone(case: Given) -> None:
    """No other criterion that was asked speaks for either."""
    reason = proposed(case).reason(*two_of(case))
    decided = {verdict.criterion for verdict in reason.verdicts if verdict.better is not None}
    assert decided == {case["expect"]["criterion"]}


def names(shape: Shape) -> set[str]:
    """Everything in a list that may put one above another."""
    if isinstance(shape, WeightedPairs):
        return {line.criterion.name for line in shape.criteria}
    if isinstance(shape, Additive):
        return {term.name for term in shape.terms}
    if isinstance(shape, ByBallot):
        return {shape.ranks.name}
    if isinstance(shape, Pipeline):
        return {name for stage in shape.stages for name in of_stage(stage)}
    criteria = getattr(shape, "criteria")  # noqa: B009
    return {criterion.name for criterion in criteria}


def of_stage(stage: object) -> set[str]:
    if isinstance(stage, Ordered):
        return names(stage.shape) | {criterion.name for criterion in stage.ties}
    assert isinstance(stage, Filter | Groups | Swaps | Floor)
    return {stage.criterion.name}


@pytest.mark.parametrize("name", lists())
def test_every_criterion_has_its_case(name: str) -> None:
    rules = rules_of_list(name)
    wanted = names(rules.shape)
    if name != "college-division-1-2024":  # Its second list is of criteria that have theirs.
        wanted |= {criterion.name for criterion in rules.ties}
    expected = [case["expect"] for case in CASES if case["given"]["list"] == name]
    assert {expect["criterion"] for expect in expected if "criterion" in expect} == wanted
    assert any("circles" in expect for expect in expected)
    by_lot = rules.final in (Final.LOT, Final.COIN)
    assert any(expect.get("drawn" if by_lot else "open") == ["AB"] for expect in expected)


def test_every_list_names_its_source() -> None:
    for name in lists():
        rules = rules_of_list(name)
        assert isinstance(rules, SeedingRules)
        assert rules.name
        assert rules.source.startswith(("published: ", "association page", "common practice"))


def test_a_challenge_in_ohio_needs_both() -> None:
    """Published: head-to-head only together with a higher place at common tournaments."""
    rules = rules_of_list("ohio-sectional-2017")
    given = {"bouts": ["AB"], "places": {"holiday tournament": {"A": 2, "B": 3}}}
    asked = rules.committee.challenge_needs
    assert [one.compare("A", "B", known(given)).better for one in asked] == ["A", "A"]
    assert [one.compare("A", "B", known({"bouts": ["AB"]})).better for one in asked] == ["A", None]
    assert {need.name for need in rules.inputs} >= {"holiday tournament", "conference tournament"}
