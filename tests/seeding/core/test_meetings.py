"""Head-to-head and common opponents: every rule on the smallest season in which it matters."""

import pytest

from seeding.core.criteria import Repeats
from seeding.core.meetings import CommonOpponents, CommonRule, HeadToHead, HeadToHeadRule
from seeding.core.season import At, Counted, PriorBout, ResultKind
from tests.seeding.core.seasons import EVERY, HERE, bout, met, season

MAJORITY, RECENT, BOTH, SWEEP = (
    HeadToHeadRule.MAJORITY,
    HeadToHeadRule.MOST_RECENT,
    HeadToHeadRule.MAJORITY_THEN_RECENT,
    HeadToHeadRule.SWEEP,
)


@pytest.mark.parametrize(
    ("days", "rule", "better"),
    [
        ([], MAJORITY, None),
        (["AB"], MAJORITY, "A"),
        (["AB", "AB", "BA"], MAJORITY, "A"),
        (["AB", "BA"], MAJORITY, None),
        (["AB", "AB", "BA"], RECENT, "B"),
        (["AB", "AB", "BA"], BOTH, "A"),
        (["AB", "BA"], BOTH, "B"),
        (["AB", "AB"], SWEEP, "A"),
        (["AB", "AB", "BA"], SWEEP, None),
        ([], SWEEP, None),
    ],
)
def test_head_to_head(days: list[str], rule: HeadToHeadRule, better: str | None) -> None:
    verdict = HeadToHead("head-to-head", EVERY, rule).compare("A", "B", season(*met(days)))
    assert verdict.better == better
    assert [number.value for number in verdict.numbers] == [days.count("AB"), days.count("BA")]
    assert len(verdict.bouts) == len(days)


def test_the_last_day_counts_as_a_whole() -> None:
    """Two met twice on one day and each won once: most recent decides nothing."""
    known = season(bout("A", "B", 1), bout("A", "B", 5), bout("B", "A", 5))
    assert HeadToHead("h", EVERY, RECENT).compare("A", "B", known).better is None
    assert HeadToHead("h", EVERY, BOTH).compare("A", "B", known).better == "A"


def test_only_counted_kinds_and_weights_are_meetings() -> None:
    known = season(bout("A", "B", kind="forfeit"), bout("B", "A", weight="141"))
    falls = Counted(frozenset({ResultKind.FALL}), At.ANY_WEIGHT)
    assert HeadToHead("h", falls, MAJORITY).compare("A", "B", known).better is None
    assert HeadToHead("h", HERE, MAJORITY).compare("A", "B", known).better == "A"
    assert HeadToHead("h", EVERY, MAJORITY).compare("A", "B", known).better is None


@pytest.mark.parametrize(
    ("days", "text"),
    [
        ([], "Ann and Bea have not met."),
        (["BA"], "Bea beat Ann (decision 5-3, Harbour Open, 2024-11-01)."),
        (
            ["AB", "BA"],
            (
                "Ann and Bea have met and neither has the better of it (won by the first: decision "
                "5-3, Harbour Open, 2024-11-01; won by the second: decision 5-3, Harbour Open, "
                "2024-11-02)."
            ),
        ),
        (
            ["AB", "AB"],
            (
                "Ann has the better of 2 bouts with Bea (won: decision 5-3, Harbour Open, "
                "2024-11-01; won: decision 5-3, Harbour Open, 2024-11-02)."
            ),
        ),
    ],
)
def test_head_to_head_in_words(days: list[str], text: str) -> None:
    verdict = HeadToHead("head-to-head", EVERY, MAJORITY).compare("B", "A", season(*met(days)))
    assert verdict.sentence.say({"A": "Ann", "B": "Bea"}) == text


MORE, SHARE, CHAIN = CommonRule.MORE_WINS, CommonRule.PERCENTAGE, CommonRule.BEAT_ONE_WHO_BEAT
ALL, ONCE = Repeats.EVERY_BOUT, Repeats.ONCE


def common(rule: CommonRule, repeats: Repeats = ALL, minimum: int = 1) -> CommonOpponents:
    return CommonOpponents("common opponents", EVERY, rule, repeats, minimum)


@pytest.mark.parametrize(
    ("days", "criterion", "better"),
    [
        ("AX XB", common(MORE), "A"),
        ("AX XB", common(SHARE), "A"),
        ("AX XB", common(CHAIN), "A"),
        ("AX BX", common(CHAIN), None),
        ("AX AX XA BX", common(MORE), "A"),
        ("AX AX XA BX", common(SHARE), "B"),
        ("AX AX XA BX", common(MORE, ONCE), None),
        ("AX AX XA BX", common(SHARE, ONCE), None),
        ("AX XA BX XB", common(SHARE, ONCE), None),
        ("AX XB BY YA", common(CHAIN), None),
        ("AX XB BY YA AZ ZB", common(CHAIN), "A"),
        ("AX XA XB", common(CHAIN), "A"),
        ("AX XA XB", common(CHAIN, ONCE), None),
        ("AX XB", common(MORE, ALL, 2), None),
        ("AX XB AY BY", common(MORE, ALL, 2), "A"),
        ("AB BA", common(MORE), None),
        ("AX YB", common(MORE), None),
    ],
)
def test_common_opponents(days: str, criterion: CommonOpponents, better: str | None) -> None:
    known = season(*met(days.split()))
    assert criterion.compare("A", "B", known).better == better
    assert criterion.compare("B", "A", known).better == better


def test_bouts_between_the_two_are_left_out() -> None:
    known = season(*met(["AB", "AX", "XB"]))
    bouts = common(SHARE).compare("A", "B", known).bouts
    assert [(one.winner, one.loser) for one in bouts] == [("A", "X"), ("X", "B")]


def shared(bouts: tuple[PriorBout, ...]) -> list[str]:
    return [one.winner + one.loser for one in bouts]


def test_a_chain_shows_its_links_only() -> None:
    known = season(*met(["AX", "XB", "AY", "BY"]))
    verdict = common(CHAIN).compare("A", "B", known)
    assert shared(verdict.bouts) == ["AX", "XB"]


@pytest.mark.parametrize(
    ("days", "criterion", "text"),
    [
        ("", common(SHARE), "A and B have no common opponents."),
        (
            "AX XB",
            common(SHARE, ALL, 3),
            "A and B share 1 of the 3 opponents that are asked.",
        ),
        (
            "AX XB XB",
            common(SHARE),
            "A did better than B against common opponents: 1-0 against 0-2.",
        ),
        ("AX BX", common(SHARE), "A and B did equally well against common opponents: 1-0, 1-0."),
        ("AX XB", common(CHAIN), "A beat X, who beat B."),
        (
            "AX XB BY YA AZ ZB",
            common(CHAIN),
            "A beat X, who beat B; such wins: 2 against 1.",
        ),
        ("AX BX", common(CHAIN), "Neither A nor B beat anyone who beat the other."),
        ("AX XB BY YA", common(CHAIN), "A and B each beat 1 who beat the other."),
    ],
)
def test_common_opponents_in_words(days: str, criterion: CommonOpponents, text: str) -> None:
    assert criterion.compare("B", "A", season(*met(days.split()))).sentence.say() == text
