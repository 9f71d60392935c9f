"""Ballots: ranks, own wrestlers, what is dropped, and the second list of a vote."""

from typing import Any

import pytest
from hypothesis import given, settings

from seeding.core.ballots import Ranks, RanksOfOthers, Sum
from seeding.core.criteria import Missing
from seeding.core.order import Proposal, propose
from seeding.core.reasons import Step
from seeding.core.season import Ballot, Season
from tests.seeding.core.seasons import WRESTLERS, ballot, list_rules, met, season, seasons

NAMES = {"A": "Ann", "B": "Bea", "C": "Cat"}
VOTE = "minnesota-section-vote"


def cast(*texts: str) -> Season:
    """Ballots as "voter order own"."""
    return Season("133", (), ballots=tuple(ballot(*text.split()) for text in texts))


def voted(*texts: str, field: str = "ABC", bouts: str = "", **changed: Any) -> Proposal:
    known = Season("133", met(bouts.split()), ballots=cast(*texts).ballots)
    return propose(field, known, list_rules(VOTE, **changed), "1912")


def ranks(take: Sum = Sum.SUM, best: int = 0, worst: int = 0) -> Ranks:
    return Ranks("ballots", Missing.WORSE, take, best, worst)


FIVE = cast("p ABC", "q ABC", "r BAC", "s CBA", "t BCA")


@pytest.mark.parametrize(
    ("asked", "expected"),
    [
        (ranks(), "10 (ranks 1, 1, 2, 3, 3)"),
        (ranks(Sum.MEAN), "2 (ranks 1, 1, 2, 3, 3)"),
        (ranks(best=1), "9 (ranks 1, 1, 2, 3, 3)"),
        (ranks(worst=2), "4 (ranks 1, 1, 2, 3, 3)"),
        (ranks(Sum.MEAN, best=2), "2.6667 (ranks 1, 1, 2, 3, 3)"),
        (ranks(best=1, worst=1), "6 (ranks 1, 1, 2, 3, 3)"),
        (ranks(best=3, worst=3), "10 (ranks 1, 1, 2, 3, 3)"),
    ],
)
def test_what_is_made_of_ranks(asked: Ranks, expected: str) -> None:
    assert asked.measure("A", FIVE).text == expected


def test_a_ballot_says_nothing_of_own_wrestlers() -> None:
    known = cast("p ABC A", "q BAC")
    assert ranks().measure("A", known).text == "2 (ranks 2)"
    assert ranks().measure("B", known).text == "3 (ranks 1, 2)"


def test_the_lowest_sum_is_first() -> None:
    proposal = voted("p ABC", "q ABC", "r BAC")
    assert proposal.order == ("A", "B", "C")
    assert proposal.reasons[0].step is Step.TOTALS
    assert proposal.reasons[0].say(NAMES) == (
        "Ann stands above Bea with sum of ranks 1 against 2. "
        "Ann is ahead in ballots: 1 (ranks 1, 1, 2) against 2 (ranks 1, 2, 2)."
    )


def test_a_mean_is_called_so() -> None:
    proposal = voted("p AB", "q AB", field="AB", take="mean")
    assert "with mean of ranks 1 against 2." in proposal.reasons[0].say()


def test_who_is_on_no_ballot_comes_last() -> None:
    proposal = voted("p AB", "q AB")
    assert proposal.order == ("A", "B", "C")
    assert proposal.reasons[1].say(NAMES) == (
        "Bea stands above Cat with sum of ranks 4 against none. "
        "Bea is ahead in ballots: 4 (ranks 2, 2) against none, on no ballot."
    )
    assert dict(proposal.totals)["C"][0].name == "sum of ranks"


def test_two_on_no_ballot_are_level() -> None:
    proposal = voted("p A")
    assert proposal.drawn == (("B", "C"),)
    reason = proposal.reasons[-1]
    assert reason.step is Step.LOT
    above, below = (NAMES[one] for one in (reason.above, reason.below))
    assert reason.say(NAMES).startswith(f"{above} and {below} are level (sum of ranks none). ")


def test_of_those_level_who_beat_the_other() -> None:
    proposal = voted("p ABC", "q BAC", bouts="BA")
    assert proposal.order == ("B", "A", "C")
    assert proposal.reasons[0].criterion == "head-to-head"


OWN = ("p CBA A", "q CBA B", "r ABC C", "s CAB")


def test_of_those_level_the_ranks_that_they_gave_each_other_are_dropped() -> None:
    """Calculated: A and B have 2 each; without the ballots of their coaches 1 + 2 against 2 + 3.
    The reason says the numbers that decided, not those of all ballots."""
    proposal = voted(*OWN)
    assert proposal.order == ("C", "A", "B")
    reason = proposal.reason("A", "B")
    assert (reason.step, reason.criterion) == (Step.TIES, "ranks of others")
    assert reason.say(NAMES) == (
        "Ann and Bea are level (sum of ranks 2). "
        "Between Ann and Bea the list decides nothing. "
        "Among those level, ranks of others puts Ann above Bea: pairs won 1 against 0. "
        "Ann is ahead in ranks of others: 3 (ranks 1, 2) against 5 (ranks 2, 3)."
    )


def test_ranks_of_others_depend_on_who_is_level() -> None:
    alone = RanksOfOthers("others", Missing.WORSE, Sum.SUM, 0, 0)
    assert alone.measure("A", cast(*OWN)).text == "6 (ranks 1, 2, 3)"
    assert alone.among("AB").measure("A", cast(*OWN)).text == "3 (ranks 1, 2)"
    assert alone.among("ABC").measure("A", cast(*OWN)).text == "2 (ranks 2)"
    assert alone.among("ABC").measure("A", cast(*OWN[:3])).text == "none, on no ballot"


def test_a_coin_at_last() -> None:
    proposal = voted("p AB", "q BA", field="AB")
    assert proposal.drawn == (("A", "B"),)
    assert "so the coin did (seed 1912)" in proposal.reasons[0].say()
    assert voted("p AB", "q BA", field="AB", final="vote").open == (("A", "B"),)


def test_no_ballots() -> None:
    assert propose("ABC", season(), list_rules(VOTE), "1").drawn == (("A", "B", "C"),)


@settings(max_examples=40, deadline=None)
@given(seasons())
def test_the_sum_is_of_what_others_gave(known: Season) -> None:
    """The same over again, with every rank written down and the extremes struck out."""
    proposal = propose(WRESTLERS, known, list_rules(VOTE), "1")

    def given_to(one: str) -> list[int]:
        asked: list[Ballot] = [own for own in known.ballots if one not in own.own]
        return sorted(own.ranks[one] for own in asked if one in own.ranks)

    for one in WRESTLERS:
        found = given_to(one)
        kept = found[1:-1] or found
        if kept:
            assert proposal.totals[one][0].value == sum(kept)
    on_some = [bool(given_to(one)) for one in proposal.order]
    assert on_some == sorted(on_some, reverse=True)
