"""Kinds, margins, overtime, notation: what is right, what is refused and in which words."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from results.core.errors import BadScore, BadTime, ResultRefusal
from results.core.outcomes import (
    MANNERS,
    Kind,
    Outcome,
    check,
    kind_of,
    notation,
    read_score,
    read_time,
    thrown_out,
    verdict,
    write_time,
)
from tests.results.core.wrestled import rules

COLLEGE = rules().results
OLD = rules("college-2013").results
SCHOOL = rules("high-school-2025").results
K = Kind

# Published: NCAA Wrestling Rules Book, Rule 4.2 note 1 (overtime and riding time); the rest is the
# college book's notation as association pages print it.
NOTATIONS = [
    (Outcome(K.DECISION, 0, (5, 3)), "Dec 5-3"),
    (Outcome(K.MAJOR, 1, (11, 1)), "MD 11-1"),
    (Outcome(K.TECHNICAL_FALL, 0, (19, 4), 265), "TF 19-4 4:25"),
    (Outcome(K.FALL, 0, time=148), "Fall 2:28"),
    (Outcome(K.INJURY, 1, time=197), "Def. (inj.) 3:17"),
    (Outcome(K.FORFEIT, 0), "For."),
    (Outcome(K.MEDICAL, 0), "M. For."),
    (Outcome(K.DISQUALIFICATION, 0), "DQ"),
    (Outcome(K.DOUBLE_FORFEIT, None), "DFF"),
    (Outcome(K.DOUBLE_DISQUALIFICATION, None), "DDQ"),
    (Outcome(K.NO_CONTEST, None), "NC"),
    (Outcome(K.DECISION, 0, (5, 3), overtime="SV-1"), "5-3 (SV-1)"),
    (Outcome(K.DECISION, 0, (3, 1), overtime="SV-2"), "3-1 (SV-2)"),
    (Outcome(K.DECISION, 1, (7, 6), overtime="TB-1"), "7-6 (TB-1)"),
    (Outcome(K.DECISION, 0, (4, 2), overtime="TB-2"), "4-2 (TB-2)"),
    (
        Outcome(K.DECISION, 0, (6, 6), overtime="TB-2", decided_by="riding time"),
        "6-6 RT (TB-2)",
    ),
    (Outcome(K.FALL, 0, time=446, overtime="SV-1"), "Fall 7:26 (SV-1)"),
]


@pytest.mark.parametrize(("outcome", "text"), NOTATIONS, ids=lambda value: str(value)[:40])
def test_notation(outcome: Outcome, text: str) -> None:
    check(outcome, COLLEGE, complete=True)
    assert notation(outcome) == text


def test_notation_of_what_is_not_known_yet() -> None:
    assert notation(Outcome(K.DECISION, 0)) == "Dec"
    assert notation(Outcome(K.DECISION, 0, overtime="SV-1")) == "Dec (SV-1)"
    assert notation(Outcome(K.TECHNICAL_FALL, 0, (16, 0))) == "TF 16-0"
    assert notation(Outcome(K.FALL, 0, (2, 9))) == "Fall"
    assert notation(Outcome(K.DISQUALIFICATION, 0, (2, 9), 120, "SV-1")) == "DQ (SV-1)"


@pytest.mark.parametrize("label", ["SV", "TB", "UTB"])
def test_high_school_writes_its_own_overtime(label: str) -> None:
    outcome = Outcome(K.DECISION, 0, (3, 2), overtime=label)
    check(outcome, SCHOOL, complete=True)
    assert notation(outcome) == f"3-2 ({label})"


@pytest.mark.parametrize(
    "outcome",
    [
        Outcome(K.FALL, 0, (2, 9), 148),  # the loser may have been ahead
        Outcome(K.INJURY, 0, (0, 14), 10),
        Outcome(K.DISQUALIFICATION, 1, (1, 3), 418, misconduct=True),
        Outcome(K.DOUBLE_DISQUALIFICATION, None, time=418, misconduct=True),
        Outcome(K.DECISION, 0, (1, 0)),
        Outcome(K.DECISION, 0, (7, 0), time=420),
        Outcome(K.MAJOR, 0, (8, 0)),
        Outcome(K.MAJOR, 0, (16, 2)),
        Outcome(K.TECHNICAL_FALL, 0, (15, 0), 60, near_fall=False),
        Outcome(K.TECHNICAL_FALL, 0, (24, 2), 60),  # a takedown straight to the back is finished
        Outcome(K.DECISION, 0, (1, 1), overtime="TB-1", decided_by="riding time"),
    ],
)
def test_right_ones(outcome: Outcome) -> None:
    check(outcome, COLLEGE, complete=True)


@pytest.mark.parametrize(
    "outcome",
    [
        Outcome(K.DECISION, 0),
        Outcome(K.MAJOR, 0),
        Outcome(K.TECHNICAL_FALL, 0),
        Outcome(K.FALL, 0),
        Outcome(K.INJURY, 0),
    ],
)
def test_a_file_may_leave_out_score_and_time_a_mat_may_not(outcome: Outcome) -> None:
    check(outcome, COLLEGE, complete=False)
    with pytest.raises(ResultRefusal, match=f"A {outcome.kind} is written with its"):
        check(outcome, COLLEGE, complete=True)


REFUSED: list[tuple[Outcome, str]] = [
    (
        Outcome(K.DECISION, 0, (11, 2)),
        (
            "11-2 is no decision: a decision is won by 1 to 7 points; "
            "9 points apart is a major decision."
        ),
    ),
    (
        Outcome(K.MAJOR, 0, (5, 3)),
        (
            "5-3 is no major decision: a major decision is won by 8 to 14 points; "
            "2 points apart is a decision."
        ),
    ),
    (
        Outcome(K.MAJOR, 0, (18, 3)),
        (
            "18-3 is no major decision: a major decision is won by 8 to 14 points; "
            "15 points apart is a technical fall."
        ),
    ),
    (
        Outcome(K.TECHNICAL_FALL, 0, (14, 0), 60),
        (
            "14-0 is no technical fall: a technical fall is won by 15 points or more; "
            "14 points apart is a major decision."
        ),
    ),
    (
        Outcome(K.DECISION, 0, (3, 5)),
        (
            "A decision 3-5: the winner's score goes first and is the higher one. "
            "Name the other wrestler the winner, or change the points."
        ),
    ),
    (
        Outcome(K.DECISION, 0, (3, 3)),
        (
            "A decision 3-3 is level. Somebody is ahead at the end; only riding time decides a "
            "level score, after TB-1, TB-2, TB-3."
        ),
    ),
    (
        Outcome(K.DECISION, 0, (4, 3), overtime="TB-2", decided_by="riding time"),
        "Riding time decides only a level tie-breaker; 4-3 is decided by its points.",
    ),
    (
        Outcome(K.DECISION, 0, (3, 3), overtime="SV-1", decided_by="riding time"),
        "Riding time cannot decide a decision in SV-1. It decides a decision in TB-1, TB-2, TB-3.",
    ),
    (
        Outcome(K.DECISION, 0, (3, 3), decided_by="riding time"),
        (
            "Riding time cannot decide a decision in regulation. "
            "It decides a decision in TB-1, TB-2, TB-3."
        ),
    ),
    (
        Outcome(K.DECISION, 0, (3, 3), overtime="TB-1", decided_by="a coin"),
        "“a coin” decides no bout. Leave it out, or write “riding time”.",
    ),
    (
        Outcome(K.FALL, 0, time=60, overtime="TB-2", decided_by="riding time"),
        "Riding time cannot decide a fall in TB-2. It decides a decision in TB-1, TB-2, TB-3.",
    ),
    (
        Outcome(K.DECISION, 0, (3, 1), overtime="SV"),
        (
            "There is no overtime “SV” in this rule book. "
            "It writes SV-1, TB-1, SV-2, TB-2, SV-3, TB-3."
        ),
    ),
    (Outcome(K.FALL, None, time=60), "A fall has a winner. Say who won."),
    (
        Outcome(K.DOUBLE_FORFEIT, 0),
        "Nobody wins a double forfeit. Name no winner, or choose another kind.",
    ),
    (
        Outcome(K.FORFEIT, 0, (1, 0)),
        "A forfeit has no score; 1-0 was given. Leave it out, or choose another kind.",
    ),
    (
        Outcome(K.MEDICAL, 0, time=60),
        "A medical forfeit has no time; 1:00 was given. Leave it out, or choose another kind.",
    ),
    (
        Outcome(K.FORFEIT, 0, overtime="SV-1"),
        "A forfeit has no overtime; SV-1 was given. Leave it out, or choose another kind.",
    ),
    (
        Outcome(K.DECISION, 0, (3, -1)),
        "“3--1” is no score. Write two whole numbers, winner first, such as 7-3.",
    ),
    (
        Outcome(K.FALL, 0, time=-1),
        "“-1 s” is no time of a bout. Write minutes and seconds, such as 2:28.",
    ),
    (
        Outcome(K.DECISION, 0, (3, 1), misconduct=True),
        (
            "Flagrant misconduct ends a bout by disqualification, not by decision. "
            "Choose disqualification, or take the wrestler out of the tournament by himself."
        ),
    ),
]


@pytest.mark.parametrize(("outcome", "message"), REFUSED)
@pytest.mark.parametrize("complete", [True, False])
def test_refused_with_what_would_be_right(outcome: Outcome, message: str, complete: bool) -> None:
    with pytest.raises(ResultRefusal) as refused:
        check(outcome, COLLEGE, complete=complete, where="bout 381")
    assert str(refused.value) == message
    assert refused.value.where == "bout 381"


def test_riding_time_by_rule_book() -> None:
    # Published: NCAA, before 2021-22 only after the last tie-breaker; high school has none.
    first = Outcome(K.DECISION, 0, (1, 1), overtime="TB-1", decided_by="riding time")
    check(first, COLLEGE, complete=True)
    with pytest.raises(ResultRefusal, match="cannot decide a decision in TB-1"):
        check(first, OLD, complete=True)
    school = Outcome(K.DECISION, 0, (1, 1), overtime="UTB", decided_by="riding time")
    with pytest.raises(ResultRefusal, match="It decides a decision in none"):
        check(school, SCHOOL, complete=True)


@given(
    st.integers(0, 40), st.integers(0, 40), st.sampled_from([K.DECISION, K.MAJOR, K.TECHNICAL_FALL])
)
def test_of_the_kinds_by_points_exactly_one_fits_a_score(
    ours: int, theirs: int, kind: Kind
) -> None:
    outcome = Outcome(kind, 0, (ours, theirs), time=60)
    fits = ours > theirs and kind_of(ours - theirs, COLLEGE) is kind
    try:
        check(outcome, COLLEGE, complete=True)
    except ResultRefusal:
        assert not fits
    else:
        assert fits


def test_what_the_bracket_hears() -> None:
    assert verdict(Outcome(K.FALL, 1, time=60)).winner == 1
    assert verdict(Outcome(K.DOUBLE_FORFEIT, None)).winner is None
    assert set(MANNERS) == set(Kind)


def test_who_is_thrown_out() -> None:
    assert thrown_out(Outcome(K.DISQUALIFICATION, 0)) == ()
    assert thrown_out(Outcome(K.DISQUALIFICATION, 0, misconduct=True)) == (1,)
    assert thrown_out(Outcome(K.DISQUALIFICATION, 1, misconduct=True)) == (0,)
    assert thrown_out(Outcome(K.DOUBLE_DISQUALIFICATION, None, misconduct=True)) == (0, 1)


@given(st.integers(0, 99 * 60 + 59))
def test_a_time_is_read_as_it_is_written(seconds: int) -> None:
    assert read_time(write_time(seconds)) == seconds


@pytest.mark.parametrize(
    "text", ["", "2", "2:7", "2:60", "2.28", "-1:00", "2:28:00", "\uff11:00", "a:bc"]
)
def test_what_is_no_time(text: str) -> None:
    with pytest.raises(BadTime, match="Write minutes and seconds, such as 2:28"):
        read_time(text)


@pytest.mark.parametrize(
    ("text", "score"), [("7-3", (7, 3)), (" 12 - 0 ", (12, 0)), ("6:6", (6, 6))]
)
def test_a_score_is_read(text: str, score: tuple[int, int]) -> None:
    assert read_score(text) == score


@pytest.mark.parametrize("text", ["", "7", "7-", "-7-3", "7-3-1", "seven", "7--3"])
def test_what_is_no_score(text: str) -> None:
    with pytest.raises(BadScore, match="winner first, such as 7-3"):
        read_score(text)


def test_every_refusal_has_its_own_code() -> None:
    found: list[Any] = ResultRefusal.__subclasses__()
    assert len({refusal.code for refusal in found}) == len(found) > 10
