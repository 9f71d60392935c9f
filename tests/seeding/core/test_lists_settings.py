"""Settings that published lists need: each test fails where its setting is not read.

Every case is a season in which the setting alone turns the order of A and B round.
"""

from collections.abc import Mapping
from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from seeding.core.order import Proposal, propose
from seeding.core.reasons import Step
from seeding.core.rules import SeedingRules
from seeding.core.season import PriorBout, Season
from tests.seeding.core.seasons import FIRST, WEIGHT, WEIGHTS, bout, list_section, met, season

Line = Mapping[str, Any]
MEETING: Line = {"name": "meeting", "criterion": "head-to-head", "rule": "majority"}
RECORD: Line = {
    **dict.fromkeys(("name", "criterion"), "win-percentage"),
    "minimum_bouts": 1,
    "equal": "nobody",
    "missing": "worse",
}
COMMON: Line = {
    **dict.fromkeys(("name", "criterion"), "common-opponents"),
    "rule": "percentage",
    "repeats": "every-bout",
    "minimum_opponents": 1,
    "own_bouts": "left-out",
}
KINDS = ("win", "loss", "head_to_head", "common_opponents")


def section(*lines: Line, bouts: object = "any-weight", **changed: object) -> dict[str, Any]:
    """A ladder of these criteria; what else is changed belongs to the section or its tables."""
    values = list_section("idaho-5a-2011")
    values["criteria"] = [{"bouts": bouts, **line} for line in lines]
    for key, value in changed.items():
        tables = [table for table in (values["counting"], values["committee"]) if key in table]
        (tables[0] if tables else values)[key] = value
    return values


def ordered(known: Season, *lines: Line, field: str = "AB", **changed: object) -> Proposal:
    return propose(field, known, SeedingRules.from_section(section(*lines, **changed)), "1912")


def first(proposal: Proposal) -> str:
    """Who is first by the list; "-" where it decides nothing."""
    return "-" if proposal.drawn or proposal.open else proposal.order[0]


def days_before(known: Season, days: int) -> Season:
    """The tournament begins so many days after the first day of the season."""
    return replace(known, starts=FIRST + timedelta(days))


# A beat B twice on the first days, B beat A on day 40; the tournament is on day 50.
SERIES = days_before(season(bout("A", "B"), bout("A", "B", 1), bout("B", "A", 40)), 50)


@pytest.mark.parametrize(("days", "best"), [(300, "A"), (50, "A"), (49, "-"), (48, "B"), (9, "-")])
def test_how_long_a_season_is(days: int, best: str) -> None:
    assert first(ordered(SERIES, MEETING, days=days)) == best


@pytest.mark.parametrize(("cut", "best"), [(0, "A"), (10, "A"), (11, "A"), (50, "A"), (51, "-")])
def test_the_cut_off(cut: int, best: str) -> None:
    assert first(ordered(SERIES, MEETING, cut_off_days=cut)) == best


def test_the_cut_off_leaves_late_bouts_out() -> None:
    known = days_before(season(bout("A", "B"), bout("B", "A", 40), bout("B", "A", 41)), 50)
    found = {cut: first(ordered(known, MEETING, cut_off_days=cut)) for cut in (0, 9, 10, 11)}
    assert found == {0: "B", 9: "B", 10: "-", 11: "A"}


@pytest.mark.parametrize(("days", "best"), [(300, "A"), (48, "B"), (9, "-")])
def test_the_window_of_one_criterion(days: int, best: str) -> None:
    found = ordered(SERIES, MEETING, bouts={"at": "any-weight", "days": days})
    assert first(found) == best


def test_the_window_of_one_criterion_is_its_own() -> None:
    """The record reads all three bouts where the meetings are those of the last days."""
    wide = {**RECORD, "bouts": "any-weight"}
    found = ordered(SERIES, MEETING, wide, bouts={"at": "any-weight", "days": 9})
    assert (first(found), found.reasons[0].criterion) == ("A", "win-percentage")


LEVELS = season(
    replace(bout("A", "B"), level="reserve"),
    replace(bout("A", "B", 1), level="reserve"),
    replace(bout("B", "A", 2), level="varsity"),
)


@pytest.mark.parametrize(("line_up", "best"), [("any", "A"), ("varsity", "B")])
def test_the_line_up(line_up: str, best: str) -> None:
    assert first(ordered(LEVELS, MEETING, line_up=line_up)) == best


def test_a_report_without_a_line_up_is_of_the_varsity() -> None:
    assert first(ordered(season(bout("A", "B")), MEETING, line_up="varsity")) == "A"


DIVISIONS = season(
    replace(bout("A", "B"), loser_division="II"),
    replace(bout("A", "B", 1), winner_division="II", loser_division="I"),
    replace(bout("B", "A", 2), winner_division="I", loser_division="I"),
)


@pytest.mark.parametrize(
    ("divisions", "best"), [([], "A"), (["I"], "B"), (["I", "II"], "A"), (["III"], "-")]
)
def test_divisions(divisions: list[str], best: str) -> None:
    assert first(ordered(DIVISIONS, MEETING, divisions=divisions)) == best


@pytest.mark.parametrize(("mates", "best"), [("count", "A"), ("left-out", "B")])
def test_bouts_of_team_mates(mates: str, best: str) -> None:
    """A's three wins are over X of his own team; over others he is 0-1, B 1-1."""
    bouts = met(["AX", "AX", "AX", "YA", "BY", "ZB"])
    known = replace(
        season(*bouts), homes={"A": "harbour", "X": "harbour", "B": "hill", "Y": "dale"}
    )
    assert first(ordered(known, RECORD, team_mates=mates)) == best


@pytest.mark.parametrize(
    ("at", "best"),
    [
        ("this-weight", "A"),
        ("adjacent-weights", "B"),
        ("other-weights", "C"),
        ("any-weight", "C"),
    ],
)
def test_at_which_weight(at: str, best: str) -> None:
    """A won here, B beside, C twice further away; 141 is beside 133, 149 is not."""
    wins = {"name": "wins", "criterion": "wins", "missing": "worse"}
    here = [bout("A", "X"), bout("B", "Y", weight="141"), bout("B", "Y", 1, weight="125")]
    far = [bout("C", "Z", day, weight="149") for day in range(3)]
    known = replace(season(*here, *far), weights=WEIGHTS)
    assert ordered(known, wins, field="ABC", bouts=at).order[0] == best


@pytest.mark.parametrize(("medical", "best"), [("every", "B"), ("first-of-an-event", "A")])
def test_medical_forfeits(medical: str, best: str) -> None:
    """A: two wins and two medical forfeits at one event; B: three wins, two losses."""
    bouts = [
        *met(["AX", "AY"]),
        *(bout(other, "A", 5, "medical forfeit", event="Lake Duals") for other in "UV"),
        *met(["BX", "BY", "BZ", "UB", "VB"]),
    ]
    kinds = list_section("idaho-5a-2011")["counting"]["loss"]
    found = ordered(
        season(*bouts), RECORD, medical_forfeits=medical, loss=[*kinds, "medical forfeit"]
    )
    assert first(found) == best


@pytest.mark.parametrize(("kinds", "best"), [("decision", "A"), ("fall", "B")])
@pytest.mark.parametrize("key", KINDS)
def test_which_kinds_count_for_what(key: str, kinds: str, best: str) -> None:
    """A's bouts are decisions, B's are falls; each kind counts for one purpose at a time."""
    lines = {"head_to_head": MEETING, "common_opponents": COMMON}
    bouts = {
        "win": [bout("A", "X"), bout("B", "Y", kind="fall"), *lost("AB")],
        "loss": [bout("X", "B"), bout("Y", "A", kind="fall"), *won("AB")],
        "head_to_head": [bout("A", "B"), bout("B", "A", 1, "fall")],
        "common_opponents": [
            *(bout("A", "X"), bout("X", "B", 1)),
            *(bout("B", "X", 2, "fall"), bout("X", "A", 3, "fall")),
        ],
    }
    counted: dict[str, Any] = {key: [kinds, "forfeit"]}
    assert first(ordered(season(*bouts[key]), lines.get(key, RECORD), **counted)) == best


def lost(who: str) -> list[PriorBout]:
    return [bout("Z", one, 9) for one in who]


def won(who: str) -> list[PriorBout]:
    return [bout(one, "Z", 9, "forfeit") for one in who]


def test_a_forfeit_may_be_a_win_and_no_loss() -> None:
    """High school: B's record is 1-0 and not hurt by the forfeit to Z; A is 1-1."""
    known = season(*met(["AX", "YA", "BX"]), bout("Z", "B", 9, "forfeit"))
    assert first(ordered(known, RECORD)) == "B"
    every = [*list_section("idaho-5a-2011")["counting"]["loss"], "forfeit"]
    assert first(ordered(known, RECORD, loss=every)) == "-"


@pytest.mark.parametrize(("own", "best"), [("left-out", "B"), ("counted", "A")])
def test_bouts_of_the_two_among_those_with_common_opponents(own: str, best: str) -> None:
    """Against X A is 0-1 and B 1-1; A beat B three times."""
    known = season(*met(["XA", "BX", "XB", "AB", "AB", "AB"]))
    assert first(ordered(known, {**COMMON, "own_bouts": own})) == best


def test_a_count_by_weight() -> None:
    field = "ABCD"
    for count, seeded in (({WEIGHT: 3, "other": 2}, 3), ({"141": 3, "other": 2}, 2), (0, 0)):
        found = ordered(season(*met(["AB", "BC", "CD"])), MEETING, field=field, count=count)
        assert found.count == seeded
        assert len(found.seeds) == seeded


@pytest.mark.parametrize(
    ("final", "step", "words"),
    [
        ("lot", Step.LOT, "so the lot did (seed 1912)."),
        ("coin", Step.LOT, "so the coin did (seed 1912)."),
        ("vote", Step.OPEN, "the vote decides. Until then they stand by lot (seed 1912)."),
        (
            "committee",
            Step.OPEN,
            "the committee decides. Until then they stand by lot (seed 1912).",
        ),
    ],
)
@pytest.mark.parametrize(
    "name", ["idaho-5a-2011", "iowa-2018", "pennsylvania-district", "coaches-panel", "south-dakota"]
)
def test_what_comes_last(name: str, final: str, step: Step, words: str) -> None:
    """In every shape, pipelines included: open groups are those that people decide."""
    values = list_section(name) | {"final": final}
    found = propose("ABC", season(), SeedingRules.from_section(values), "1912")
    everybody = (("A", "B", "C"),)
    assert (found.drawn, found.open) == ((everybody, ()) if step is Step.LOT else ((), everybody))
    for reason in found.reasons:
        assert (reason.step, reason.criterion) == (step, final)
        assert reason.say().endswith(words)


@pytest.mark.parametrize(
    ("undecided", "totals"), [("half", {"A": "1", "B": "1", "C": "1"}), ("nothing", {"A": "0"})]
)
def test_a_pair_that_nothing_decides(undecided: str, totals: dict[str, str]) -> None:
    rules = SeedingRules.from_section(list_section("iowa-2018") | {"undecided": undecided})
    found = propose("ABC", season(), rules, "1")
    assert {one: str(found.totals[one][0]) for one in totals} == totals


@pytest.mark.parametrize(
    ("undecided", "total"), [("dropped", ".15"), ("split", ".575"), ("renormalised", "1")]
)
def test_weight_that_nothing_decides(undecided: str, total: str) -> None:
    values = list_section("college-division-1-2024") | {"undecided": undecided}
    rules = SeedingRules.from_section(values | {"order_by": ["sum-of-weights"], "ties": []})
    found = propose("AB", season(rankings={"coaches": {"A": 1, "B": 2}}), rules, "1")
    assert str(found.totals["A"][0]) == total


@pytest.mark.parametrize(
    ("equal", "missing", "best"),
    [("nobody", "worse", "-"), ("more-wins", "worse", "A"), ("more-wins", "nobody", "A")],
)
def test_equal_percentages(equal: str, missing: str, best: str) -> None:
    known = season(*met(["AX", "AY", "BX"]))
    assert first(ordered(known, {**RECORD, "equal": equal, "missing": missing})) == best


@pytest.mark.parametrize(("missing", "best"), [("worse", "A"), ("nobody", "-")])
def test_who_has_no_number(missing: str, best: str) -> None:
    assert first(ordered(season(*met(["XA"])), {**RECORD, "missing": missing})) == best


@pytest.mark.parametrize(("minimum", "best"), [(1, "B"), (2, "A"), (3, "-")])
def test_a_minimum_of_bouts(minimum: int, best: str) -> None:
    known = season(*met(["AX", "YA", "BX"]))
    assert first(ordered(known, {**RECORD, "minimum_bouts": minimum})) == best


@pytest.mark.parametrize(("minimum", "best"), [(1, "A"), (2, "-")])
def test_a_minimum_of_common_opponents(minimum: int, best: str) -> None:
    known = season(*met(["AX", "XB"]))
    assert first(ordered(known, {**COMMON, "minimum_opponents": minimum})) == best


@pytest.mark.parametrize(
    ("rule", "best"),
    [("majority", "A"), ("most-recent", "B"), ("majority-then-recent", "A"), ("sweep", "-")],
)
def test_rules_of_meetings(rule: str, best: str) -> None:
    known = season(*met(["AB", "AB", "BA"]))
    assert first(ordered(known, {**MEETING, "rule": rule})) == best
