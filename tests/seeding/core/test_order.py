"""The proposed order: circles, ties, the lot, reasons and flags."""

import pytest

from seeding.core.errors import EnteredTwice, NotInTheField
from seeding.core.lot import Lot
from seeding.core.order import Proposal, flags, propose
from seeding.core.reasons import Step
from tests.seeding.core.seasons import EVERY, WEIGHT, bout, met, rules, season, section

HIGH_SCHOOL, COLLEGE = "high-school-2025", "college-2025"
NAMES = {"A": "Ann", "B": "Bea", "C": "Cat", "D": "Dot"}


def ordered(field: str, days: str, book: str = HIGH_SCHOOL, **changed: object) -> Proposal:
    return propose(field, season(*met(days.split())), rules(book, **changed), "1912")


def points(proposal: Proposal) -> list[str]:
    return [str(proposal.totals[name][0]) for name in sorted(proposal.order)]


@pytest.mark.parametrize(
    ("circles", "expected"),
    [
        # D is beaten by all; after the circle the percentage decides: A 2-1, B 2-1, C 2-2.
        ("stand", ["2", "2", "2", "0"]),
        ("half", ["2", "2", "2", "0"]),
        ("next-criterion", ["2.5", "2.5", "1", "0"]),
    ],
)
def test_circles(circles: str, expected: list[str]) -> None:
    lines = section(HIGH_SCHOOL)["criteria"]
    two = [line for line in lines if line["name"] in ("head-to-head", "win percentage")]
    days = "AB BC CA AD BD CD XC"
    assert points(ordered("ABCD", days, circles=circles, criteria=two)) == expected


def test_half_a_point_each_is_not_the_win_of_a_pair() -> None:
    half = ordered("ABCD", "AB BC CA DA BD CD", circles="half")
    assert half.arrangement.pair("A", "B").better is None
    assert (
        "Head-to-head runs in a circle: A beat B (decision 5-3, Harbour Open, 2024-11-01), "
        "B beat C (decision 5-3, Harbour Open, 2024-11-02), "
        "C beat A (decision 5-3, Harbour Open, 2024-11-03)."
    ) in half.reason("A", "B").say()
    stands = ordered("ABCD", "AB BC CA DA BD CD", circles="stand")
    assert stands.arrangement.pair("A", "B").better == "A"


def test_a_circle_of_four_is_a_circle() -> None:
    proposal = ordered("ABCD", "AB BC CD DA", circles="half")
    assert proposal.arrangement.pair("A", "B").better is None
    (found,) = proposal.circles
    assert [beat.better for beat in found.circle.round] == ["A", "B", "C", "D"]
    assert "each pair of the circle gives half a point" in found.settled.say()


def test_nobody_may_get_nothing() -> None:
    assert points(ordered("AB", "")) == [".5", ".5"]
    assert points(ordered("AB", "", undecided="nothing")) == ["0", "0"]


def test_the_second_list_goes_on_where_the_first_ends() -> None:
    """A, B, C are level in points; of the second list only the win percentage separates C."""
    lines = rules(HIGH_SCHOOL, ties=["head-to-head", "win percentage"])
    known = season(*met(["AB", "BC", "CA", "CX", "XA", "XB", "AY", "BY"]))
    proposal = propose("ABC", known, lines, "1912")
    assert proposal.order[0] == "C"
    reason = proposal.reason("C", "A")
    assert (reason.step, reason.criterion) == (Step.TIES, "win percentage")
    assert reason.say(NAMES) == (
        "Cat and Ann are level (points 1). "
        "Head-to-head runs in a circle: Cat beat Ann (decision 5-3, Harbour Open, 2024-11-03), "
        "Ann beat Bea (decision 5-3, Harbour Open, 2024-11-01), "
        "Bea beat Cat (decision 5-3, Harbour Open, 2024-11-02). "
        "By the list each pair of the circle gives half a point to both. "
        "Among those level, win percentage puts Cat above Ann: pairs won 2 against .5. "
        "Cat is ahead in win percentage: .667 (2-1) against .500 (2-2)."
    )
    assert proposal.drawn == (("A", "B"),)
    lot = Lot("1912", f"seeding/{WEIGHT}/2-3")
    assert list(proposal.order[1:]) == lot.shuffled("AB")


def test_the_lot_can_be_drawn_again() -> None:
    proposal = ordered("DBCA", "")
    assert list(proposal.order) == Lot("1912", f"seeding/{WEIGHT}/1-4").shuffled("ABCD")
    assert proposal.drawn == (("A", "B", "C", "D"),)
    reason = proposal.reasons[0]
    assert (reason.step, reason.criterion) == (Step.LOT, "lot")
    assert "so the lot did (seed 1912)" in reason.say()
    others = {propose("ABCD", season(), rules(HIGH_SCHOOL), str(seed)).order for seed in range(99)}
    assert len(others) > 20


def test_reasons_of_pair_points() -> None:
    proposal = ordered("ABC", "AB BC AC")
    assert proposal.order == ("A", "B", "C")
    first, second = proposal.reasons
    assert (first.above, first.below, first.step) == ("A", "B", Step.TOTALS)
    assert first.criterion == "head-to-head"
    assert first.say(NAMES) == (
        "Ann stands above Bea with points 2 against 1. "
        "Ann beat Bea (decision 5-3, Harbour Open, 2024-11-01)."
    )
    assert [one.winner for one in second.bouts] == ["B"]
    assert proposal.reason("C", "A") == proposal.reason("A", "C")


def test_a_pair_may_speak_against_the_order() -> None:
    """D beat A, but A beat all others and D lost to them: the totals name the reason."""
    proposal = ordered("ABCDE", "DA AB AC AE BC BD CD CE EB ED", circles="stand")
    assert (proposal.order[0], proposal.order[-1]) == ("A", "D")
    reason = proposal.reason("A", "D")
    assert reason.criterion == "points"
    assert "D beat A (" in reason.say()
    flag = next(flag for flag in proposal.flags if flag.below == "D")
    assert flag.sentence.say(NAMES) == (
        "Dot (5) has beaten Ann (1): decision 5-3, Harbour Open, 2024-11-01."
    )


def test_reasons_of_weighted_pairs() -> None:
    known = season(*met(["AB"]), rankings={"coaches": {"B": 1, "A": 2}})
    proposal = propose("AB", known, rules(COLLEGE), "1")
    assert proposal.reasons[0].criterion == "head-to-head"
    assert proposal.reasons[0].say(NAMES) == (
        "Ann stands above Bea with pairs won 1 against 0. "
        "Between the two Ann has .55 against .15; for: head-to-head, quality wins, win percentage; "
        "against: coaches' ranking. Ann beat Bea (decision 5-3, Harbour Open, 2024-11-01)."
    )


def test_level_totals_are_named_before_the_one_that_decides() -> None:
    """A, B, C win one pair each by rank and place; the sum of the weights separates them."""
    known = season(
        *met(["AB"]),
        rankings={"coaches": {"B": 1, "C": 2, "A": 3}},
        places={"qualifying event": {"C": 1, "A": 2, "B": 3}},
    )
    lines = rules(COLLEGE, order_by=["pairs-won", "sum-of-weights"], ties=[])
    proposal = propose("ABC", known, lines, "1")
    totals = {name: tuple(map(str, sums)) for name, sums in proposal.totals.items()}
    for reason in proposal.reasons:
        high, low = totals[reason.above], totals[reason.below]
        assert (f"are level (pairs won {high[0]})" in reason.say()) == (high[0] == low[0])


def test_flags_name_both_directions() -> None:
    known = season(*met(["AB", "BA", "AB"]), bout("B", "A", 9, weight="141"))
    (flag,) = flags("AB", known, EVERY)
    assert len(flag.bouts) == len(flag.others) == 2
    assert "; lost to: " in flag.sentence.say()
    assert len(flags("BA", known, EVERY)[0].others) == 2


def test_seeds_are_the_first_of_the_order() -> None:
    proposal = ordered("ABCD", "AB BC CD AC BD AD", count=2)
    assert proposal.seeds == {"A": 1, "B": 2}
    assert proposal.order == ("A", "B", "C", "D")


@pytest.mark.parametrize("field", ["", "A"])
def test_few_entrants(field: str) -> None:
    proposal = ordered(field, "")
    assert proposal.order == tuple(field)
    assert not proposal.reasons
    assert not proposal.flags
    assert not proposal.drawn


def test_nobody_is_entered_twice() -> None:
    with pytest.raises(EnteredTwice, match="A is entered twice at 133"):
        ordered("ABA", "")


def test_a_stranger_has_no_reason() -> None:
    with pytest.raises(NotInTheField, match="Z is not entered at 133"):
        ordered("AB", "").reason("A", "Z")


def test_a_level_pair_is_half_a_pair_for_both() -> None:
    assert points(ordered("ABCD", "AB", COLLEGE)) == ["3", "2", ".5", ".5"]


def test_a_list_that_settles_no_circles_still_shows_them() -> None:
    proposal = ordered("ABCD", "AB BC CA AD", book=COLLEGE)
    (found,) = proposal.circles
    assert [beat.better for beat in found.circle.round] == ["A", "B", "C"]
    assert "does not settle circles" in found.settled.say()
    assert not proposal.arrangement.circles


def test_a_reason_says_where_the_two_alone_stand_otherwise() -> None:
    proposal = ordered("ABCDE", "DA AB AC AE BC BD CD CE EB ED", circles="stand")
    words = [sentence.say(NAMES) for sentence in proposal.reason("A", "D").short]
    assert words[1] == "Between the two alone it is the other way round:"
    assert words[2].startswith("Dot beat Ann (")
