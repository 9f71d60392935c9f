"""The worked examples of fixtures/seeding_worked.json; each names its source."""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

import pytest

from seeding.core.criteria import Criterion, Input, Measured, Missing
from seeding.core.meetings import HeadToHead, HeadToHeadRule
from seeding.core.order import propose
from seeding.core.pairs import NONE, ONE
from seeding.core.records import Equal, WinPercentage
from seeding.core.rpi import Percentages, Rpi
from seeding.core.season import PriorBout, Season
from seeding.core.shapes import Arrangement
from seeding.core.ties import Final, Seconds
from seeding.core.verdict import Number, Sentence, Verdict, decimal
from seeding.core.weighted_pairs import PairsOrder, Undecided, Weighted, WeightedPairs
from tests.seeding.core.seasons import EVERY, LEDGER, ROOT, bout, met, rules, season

Given = Mapping[str, Any]
CASES = json.loads((ROOT / "fixtures" / "seeding_worked.json").read_text("utf-8"))
BY_ID = {case["id"]: case for case in CASES}


@dataclass(frozen=True, slots=True)
class Told:
    """A criterion whose verdicts are given."""

    name: str
    better: frozenset[tuple[str, str]]

    @property
    def inputs(self) -> tuple[Input, ...]:
        return ()

    def compare(self, a: str, b: str, season: Season) -> Verdict:
        better = a if (a, b) in self.better else b if (b, a) in self.better else None
        none = Number(None, "none")
        return Verdict(self.name, (a, b), better, (none, none), Sentence("as told"))


@dataclass(frozen=True, slots=True)
class High(Measured):
    """A criterion whose numbers are given, high is good."""

    numbers: tuple[tuple[str, Fraction], ...]

    def measure(self, wrestler: str, season: Season) -> Number:
        value = dict(self.numbers)[wrestler]
        return Number(value, str(value))


@dataclass(frozen=True, slots=True)
class Low(High):
    """The same, low is good."""

    low_is_good: ClassVar[bool] = True


def numbers(made: type[High], given: Given, name: str) -> High:
    values = tuple((wrestler, Fraction(value)) for wrestler, value in given[name].items())
    return made(name, Missing.NOBODY, values)


def college(given: Given) -> tuple[Weighted, ...]:
    told = frozenset((better, worse) for better, worse in given["common opponents"])
    lines: list[tuple[Criterion, int]] = [
        (HeadToHead("head-to-head", EVERY, HeadToHeadRule.MAJORITY), 25),
        (numbers(High, given, "quality wins"), 20),
        (numbers(Low, given, "coaches' ranking"), 15),
        (Told("common opponents", told), 10),
        (numbers(Low, given, "RPI rank"), 10),
        (numbers(Low, given, "qualifying place"), 10),
        (numbers(High, given, "win percentage"), 10),
    ]
    return tuple(Weighted(criterion, Fraction(weight)) for criterion, weight in lines)


def weighted(undecided: Undecided, order_by: PairsOrder) -> Arrangement:
    given = BY_ID["weighted-pairs-four"]["given"]
    shape = WeightedPairs(college(given), undecided, (order_by,))
    known = season(*met(given["head-to-head"]))
    return shape.arrange("DBCA", known, Seconds((), Final.LOT, known, "1"))


@pytest.mark.parametrize("undecided", list(Undecided))
@pytest.mark.parametrize("order_by", list(PairsOrder))
def test_weighted_pairs_order(undecided: Undecided, order_by: PairsOrder) -> None:
    arrangement = weighted(undecided, order_by)
    assert arrangement.order == ("A", "B", "D", "C")
    assert not arrangement.drawn


def test_weighted_pairs_shares() -> None:
    arrangement = weighted(Undecided.DROPPED, PairsOrder.SUM_OF_WEIGHTS)
    found = {
        f"{a} {b}": [decimal(share, 2) for share in pair.shares]
        for (a, b), pair in arrangement.pairs.items()
    }
    assert found == BY_ID["weighted-pairs-four"]["expect"]["shares"]


@pytest.mark.parametrize(
    ("two", "deciding"),
    [("AB", "head-to-head"), ("BD", "quality wins"), ("CD", "common opponents")],
)
def test_the_heaviest_of_the_better_one_is_named(two: str, deciding: str) -> None:
    """D is better than C, though C has the heavier quality wins and ranking."""
    pair = weighted(Undecided.DROPPED, PairsOrder.PAIRS_WON).pair(two[0], two[1])
    assert pair.deciding is not None
    assert pair.deciding.criterion == deciding


@pytest.mark.parametrize(
    ("undecided", "order_by", "expected"),
    [
        (Undecided.DROPPED, PairsOrder.PAIRS_WON, "pairs won"),
        (Undecided.DROPPED, PairsOrder.SUM_OF_WEIGHTS, "dropped"),
        (Undecided.SPLIT, PairsOrder.SUM_OF_WEIGHTS, "split"),
    ],
)
def test_weighted_pairs_totals(undecided: Undecided, order_by: PairsOrder, expected: str) -> None:
    totals = weighted(undecided, order_by).totals
    found = {name: total.value for name, (total,) in totals.items()}
    figures = BY_ID["weighted-pairs-four"]["expect"][expected]
    assert found == {name: Fraction(figure) for name, figure in figures.items()}


def test_weighted_pairs_renormalised() -> None:
    """Calculated: each pair of the same case brought up to a whole, such as .75/.15 to 5/6."""
    arrangement = weighted(Undecided.RENORMALISED, PairsOrder.SUM_OF_WEIGHTS)
    assert arrangement.pair("A", "B").shares == (Fraction(5, 6), Fraction(1, 6))
    assert arrangement.pair("B", "C").shares == (ONE, NONE)
    assert arrangement.totals["D"][0].value == (
        Fraction(20, 80) + Fraction(20, 55) + Fraction(40, 75)
    )


@pytest.mark.parametrize("name", ["own", "opponents", "theirs"])
def test_rpi_parts(name: str) -> None:
    case = BY_ID["rpi-six-games"]
    known = season(*met(case["given"]["bouts"]))
    part: Callable[[str], Fraction | None] = getattr(Percentages(LEDGER.records(known)), name)
    found = {wrestler: decimal(part(wrestler) or Fraction(0), 4) for wrestler in "MNDW"}
    assert found == case["expect"][name]


def test_rpi_sum() -> None:
    case = BY_ID["rpi-six-games"]
    parts = (Fraction(1, 4), Fraction(1, 2), Fraction(1, 4))
    rpi = Rpi("RPI", Missing.WORSE, LEDGER, parts, 1)
    known = season(*met(case["given"]["bouts"]))
    assert {name: rpi.measure(name, known).text for name in "MNDW"} == case["expect"]["rpi"]


def record(wrestler: str, won: int, lost: int) -> tuple[PriorBout, ...]:
    return (
        *(bout(wrestler, f"beaten-{at}", at) for at in range(won)),
        *(bout(f"better-{at}", wrestler, at) for at in range(lost)),
    )


@pytest.mark.parametrize(
    "case", [case for case in CASES if "records" in case["given"]], ids=lambda case: case["id"]
)
def test_win_percentage(case: Given) -> None:
    given, expect = case["given"], case["expect"]
    played = [
        one for name, (won, lost) in given["records"].items() for one in record(name, won, lost)
    ]
    criterion = WinPercentage(
        "win percentage", Missing.WORSE, LEDGER, given["minimum_bouts"], Equal(given["equal"])
    )
    verdict = criterion.compare("A", "B", season(*played))
    assert verdict.better == expect["better"]
    if "none" in expect:
        assert verdict.number(expect["none"]).value is None


@pytest.mark.parametrize(
    "case", [BY_ID["iowa-four"], BY_ID["circle-of-three"]], ids=lambda c: c["id"]
)
def test_pair_points(case: Given) -> None:
    given, expect = case["given"], case["expect"]
    known = season(*met(given["bouts"]), places=given["places"])
    proposal = propose(sorted(expect["points"]), known, rules(given["book"]), "1")
    points = {name: str(total) for name, (total,) in proposal.totals.items()}
    assert points == expect["points"]
    assert list(proposal.order) == expect.get("order", list(proposal.order))
    for two, criterion in expect.get("deciding", {}).items():
        assert proposal.reason(*two.split()).criterion == criterion
