"""The ladder: one place after the other, levels, restart, and the five circle policies."""

from typing import Any

import pytest
from hypothesis import given, settings

from seeding.core.circle_policies import Policy
from seeding.core.ladder import Ladder
from seeding.core.order import Proposal, propose
from seeding.core.reasons import Step
from seeding.core.rules import SeedingRules
from seeding.core.season import Season
from seeding.core.walks import walk
from tests.seeding.core.seasons import (
    WRESTLERS,
    bout,
    list_rules,
    list_section,
    met,
    season,
    seasons,
)

NAMES = {"A": "Ann", "B": "Bea", "C": "Cat", "D": "Dot"}
MEETING = {
    "name": "meeting",
    "criterion": "head-to-head",
    "rule": "majority",
    "bouts": "any-weight",
}
RANK = {"name": "rank", "criterion": "ranking", "ranking": "coaches", "missing": "nobody"}
WINS = {"name": "wins", "criterion": "wins", "bouts": "any-weight", "missing": "worse"}
OFF = {"restart": False, "circles": "next-criterion", "circle_criteria": [], "ties": []}


def climb(known: Season, field: str = "ABC", *lines: dict[str, Any], **changed: object) -> Proposal:
    section = list_section("idaho-5a-2011") | {"criteria": [*(lines or (MEETING, RANK))]}
    return propose(field, known, SeedingRules.from_section(section | OFF | changed), "1912")


def ranked(order: str, *bouts: str) -> Season:
    table = {one: at for at, one in enumerate(order, 1)}
    return season(*met(bouts), rankings={"coaches": table})


def order(proposal: Proposal) -> str:
    return "".join(proposal.order)


def test_the_one_over_whom_nobody_stands_comes_next() -> None:
    """C is ranked first, but B beat her, and A beat B: an insertion by pairs would not see it."""
    proposal = climb(ranked("CAB", "AB", "BC"))
    # C stands over A by rank, so the three run in a circle; by rank alone C, A, B.
    assert order(proposal) == "CAB"
    assert order(climb(ranked("BCA", "CB", "AC"))) == "BCA"
    assert order(climb(ranked("ACB", "CB", "AC"))) == "ACB"


def test_a_reason_is_what_the_list_says_of_the_two() -> None:
    proposal = climb(ranked("ABC", "AB"))
    reason = proposal.reason("A", "B")
    assert (reason.step, reason.criterion) == (Step.CRITERIA, "meeting")
    assert reason.say(NAMES) == "Ann beat Bea (decision 5-3, Harbour Open, 2024-11-01)."
    assert [one.winner for one in reason.bouts] == ["A"]
    assert proposal.reason("B", "C").criterion == "rank"


def test_who_has_nothing_over_the_next_one() -> None:
    """A and B never met and are not ranked; C is over B alone, D over nobody."""
    proposal = climb(season(*met(["CB"])), "ABC", MEETING, ties=[WINS])
    assert order(proposal) == "CAB"
    reason = proposal.reason("A", "B")
    assert (reason.step, reason.criterion) == (Step.CRITERIA, "ladder")
    assert reason.say(NAMES) == (
        "Between Ann and Bea the list decides nothing. "
        "Nobody who was left stood over Ann, who was placed; Cat still stood over Bea."
    )


def test_level_wrestlers_go_by_the_second_list_and_the_lot() -> None:
    proposal = climb(season(*met(["AX"])), "ABC", MEETING, ties=[WINS])
    assert order(proposal)[0] == "A"
    assert proposal.drawn == (("B", "C"),)
    reason = proposal.reason("A", "B")
    assert (reason.step, reason.criterion) == (Step.TIES, "wins")
    assert reason.say(NAMES) == (
        "Between Ann and Bea the list decides nothing. "
        "Among those level, wins puts Ann above Bea: pairs won 2 against .5. "
        "Ann is ahead in wins: 1 against 0."
    )


def test_restart_asks_again_after_each_place() -> None:
    """A and C are level at the top; C is better by wins, but then B, whom C alone held down,
    is in the race with A, over whom she stands by nothing: the second list puts B first."""
    bouts = ["CB", "CX", "CY", "BX", "BY", "BZ", "AX"]
    proposal = climb(season(*met(bouts)), "ABC", MEETING, ties=[WINS])
    assert order(proposal) == "CAB"
    again = climb(season(*met(bouts)), "ABC", MEETING, ties=[WINS], restart=True)
    assert order(again) == "CBA"


CIRCLE = ("AB", "BC", "CA")


def settled(proposal: Proposal) -> str:
    (found,) = proposal.circles
    assert set(found.circle.wrestlers) == set("ABC")
    return found.settled.say(NAMES)


def test_the_next_criterion_settles_a_circle() -> None:
    proposal = climb(ranked("BAC", *CIRCLE))
    assert order(proposal) == "BAC"
    assert settled(proposal) == (
        "The list throws out what made the circle; each pair goes on to its next criterion."
    )
    assert proposal.reason("A", "C").say(NAMES) == (
        "Head-to-head runs in a circle: Cat beat Ann (decision 5-3, Harbour Open, 2024-11-03), "
        "Ann beat Bea (decision 5-3, Harbour Open, 2024-11-01), "
        "Bea beat Cat (decision 5-3, Harbour Open, 2024-11-02). "
        "The list throws out what made the circle; each pair goes on to its next criterion. "
        "Ann is ahead in rank: 2 against 3."
    )


def test_restart_brings_the_thrown_out_bouts_back() -> None:
    """B is placed by rank; then A and C go back to their meeting, which C won."""
    assert order(climb(ranked("BAC", *CIRCLE), restart=True)) == "BCA"


def test_the_weakest_link_is_thrown_out() -> None:
    """A twice beat B, B twice beat C, C beat A once: that one is the smallest difference."""
    known = season(*met(["AB", "AB", "BC", "BC", "CA"]))
    proposal = climb(known, "ABC", MEETING, circles="weakest-link")
    assert order(proposal) == "ABC"
    assert settled(proposal) == "The list throws out the weakest link of the circle."
    said = proposal.reason("A", "C").say(NAMES)
    assert "Cat beat Ann (decision 5-3, Harbour Open, 2024-11-05)" in said
    assert "The list throws out its weakest link, what stood between Ann and Cat." in said


def test_the_weakest_link_is_of_the_latest_criterion_or_else_the_oldest() -> None:
    """C stands over A by rank alone; without it, A beat B on the first day: the oldest."""
    known = season(*met(["AB", "BC"]), rankings={"coaches": {"C": 1, "A": 2}})
    assert order(climb(known, circles="weakest-link")) == "ABC"
    assert order(climb(season(*met(CIRCLE)), circles="weakest-link")) == "BCA"


def test_a_group_is_ordered_by_its_own_criteria() -> None:
    known = ranked("CAB", *CIRCLE)
    proposal = climb(known, circles="group", circle_criteria=["rank"])
    assert order(proposal) == "CAB"
    assert settled(proposal) == "The list settles the circle by rank."
    reason = proposal.reason("C", "B")
    assert (reason.step, reason.criterion) == (Step.CIRCLE, "rank")
    assert reason.say(NAMES) == (
        "Head-to-head runs in a circle: Bea beat Cat (decision 5-3, Harbour Open, 2024-11-02), "
        "Cat beat Ann (decision 5-3, Harbour Open, 2024-11-03), "
        "Ann beat Bea (decision 5-3, Harbour Open, 2024-11-01). "
        "The list settles the circle by rank. "
        "Among those level, rank puts Cat above Bea: pairs won 2 against 0. "
        "Cat is ahead in rank: 1 against 3."
    )


def test_a_group_restarts() -> None:
    """C is first by rank; A and B are back at their meeting, which A won, though B is ranked."""
    known = ranked("CBA", *CIRCLE)
    assert order(climb(known, circles="group", circle_criteria=["rank"])) == "CBA"
    again = climb(known, circles="group", circle_criteria=["rank"], restart=True)
    assert order(again) == "CAB"


def test_of_a_group_with_two_best_the_rest_is_separated_first() -> None:
    """A and B have two wins, C one: with C out, A and B go back to their meeting."""
    known = season(*met([*CIRCLE, "AX", "BX"]))
    own = {"circles": "group", "circle_criteria": [WINS]}
    proposal = climb(known, "ABC", MEETING, restart=True, **own)
    assert order(proposal) == "ABC"
    reason = proposal.reason("A", "B")
    assert reason.criterion == "meeting"
    assert reason.say(NAMES) == (
        "The list settles the circle by wins. "
        "Ann and Bea are level in this, and go back to the first criterion. "
        "Ann beat Bea (decision 5-3, Harbour Open, 2024-11-01)."
    )
    assert not proposal.drawn
    assert climb(known, "ABC", MEETING, **own).drawn == (("A", "B"),)


def test_fewest_violations_settle_a_circle() -> None:
    """A beat B, C and D, B beat C and D, C beat D, D beat A: only D over A goes against."""
    known = season(*met(["AB", "AC", "BC", "BD", "CD", "DA"]))
    proposal = climb(known, "ABCD", MEETING, circles="fewest-violations")
    assert order(proposal) == "ABCD"
    (found,) = proposal.circles
    assert found.settled.say() == (
        "The list settles the circle by the order that goes against fewest: 1 of 6; "
        "no other order is as good."
    )
    reason = proposal.reason("A", "D")
    assert (reason.step, reason.criterion) == (Step.CIRCLE, "circle")
    assert "Dot beat Ann (decision 5-3, Harbour Open, 2024-11-06)" in reason.say(NAMES)


def test_orders_that_are_as_good_are_counted() -> None:
    proposal = climb(season(*met(CIRCLE)), circles="fewest-violations")
    assert settled(proposal).endswith(
        "goes against fewest: 1 of 3; 3 orders are as good, and of these the "
        "second list or else the lot chose."
    )
    assert proposal.drawn == (("A", "B", "C"),)


@pytest.mark.parametrize("restart", [False, True])
def test_the_committee_settles_a_circle(restart: bool) -> None:
    proposal = climb(ranked("BAC", *CIRCLE), circles="committee", restart=restart)
    assert proposal.open == (("A", "B", "C"),)
    assert settled(proposal) == "The list leaves a circle to the committee."
    for reason in proposal.reasons:
        assert (reason.step, reason.criterion) == (Step.OPEN, "committee")
        assert "runs in a circle" in reason.say()
        assert reason.say().endswith("Until then they stand by lot (seed 1912).")


def test_what_the_list_decides_beside_an_open_circle_stands() -> None:
    proposal = climb(season(*met([*CIRCLE, "AD", "BD", "CD"])), "ABCD", circles="committee")
    assert proposal.order[3] == "D"
    assert proposal.reasons[-1].criterion == "meeting"


def test_a_circle_below_the_top() -> None:
    proposal = climb(ranked("DCAB", *CIRCLE, "DA"), "ABCD")
    assert order(proposal) == "DCAB"
    assert len(proposal.circles) == 1


def test_two_circles_are_told_apart() -> None:
    """A B C and D E F run in circles of their own."""
    bouts = met([*CIRCLE, "DE", "EF", "FD"])
    proposal = climb(season(*bouts), "ABCDEF", MEETING, circles="committee")
    assert [one.circle.wrestlers for one in proposal.circles] == [tuple("ABC"), tuple("DEF")]
    assert "D beat E" not in proposal.reason(*proposal.order[:2]).say()


def test_the_same_circle_with_another_bout() -> None:
    known = season(*met(CIRCLE), bout("B", "A", 9), bout("B", "A", 10))
    assert not climb(known).circles


OWN = {"group": ["record against common opponents", "overall record"]}


@pytest.mark.parametrize("restart", [False, True])
@pytest.mark.parametrize("policy", list(Policy))
@settings(max_examples=15, deadline=None)
@given(known=seasons())
def test_nobody_stands_below_whom_he_holds_the_criteria_over(
    policy: Policy, restart: bool, known: Season
) -> None:
    """Unless a circle of which both are was settled."""
    own = OWN.get(policy, [])
    lines = list_rules("idaho-5a-2011", circles=policy, circle_criteria=own, restart=restart)
    proposal = propose(WRESTLERS, known, lines, "7")
    around = [set(one.circle.wrestlers) for one in proposal.circles]
    place = {one: at for at, one in enumerate(proposal.order)}
    for two in proposal.arrangement.pairs:
        better = walk(two, climbed(lines).criteria, proposal.season).better
        if better is not None:
            (worse,) = {*two} - {better}
            both = {better, worse}
            assert place[better] < place[worse] or any(both <= part for part in around)


def climbed(lines: SeedingRules) -> Ladder:
    assert isinstance(lines.shape, Ladder)
    return lines.shape
