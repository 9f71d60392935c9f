"""Criteria that give each wrestler a number or a place."""

from fractions import Fraction

import pytest

from seeding.core.criteria import Criterion, InputKind, Measured, Missing, Repeats
from seeding.core.ledger import Ledger
from seeding.core.records import (
    Equal,
    OverField,
    OverRanked,
    OverWinning,
    Quality,
    QualityWins,
    WinPercentage,
)
from seeding.core.rpi import Percentages, Rpi
from seeding.core.season import At, Counted, Placing, ResultKind, Season
from seeding.core.tables import EarlierPlace, Ranked, ReturningPlacer
from tests.seeding.core.seasons import EVERY, LEDGER, WEIGHT, bout, met, season

WORSE, NOBODY = Missing.WORSE, Missing.NOBODY


@pytest.mark.parametrize(
    ("ranks", "missing", "better"),
    [
        ({"A": 3, "B": 2}, WORSE, "B"),
        ({"A": 3}, WORSE, "A"),
        ({"A": 3}, NOBODY, None),
        ({}, WORSE, None),
        ({"A": 4, "B": 4}, WORSE, None),
    ],
)
def test_ranking(ranks: dict[str, int], missing: Missing, better: str | None) -> None:
    criterion = Ranked("coaches' ranking", missing, ranking="coaches")
    known = season(rankings={"coaches": ranks})
    assert criterion.compare("A", "B", known).better == better
    assert criterion.compare("B", "A", known).better == better


def test_a_forfeit_may_be_a_win_without_being_a_loss() -> None:
    """High school: a forfeit is a win but no loss (association page)."""
    no_forfeits = Counted(frozenset(ResultKind) - {ResultKind.FORFEIT}, At.ANY_WEIGHT)
    ledger = Ledger(EVERY, no_forfeits)
    known = season(bout("A", "B", kind="forfeit"), bout("B", "C", 1), bout("C", "B", 2))
    criterion = WinPercentage("win percentage", WORSE, ledger, 1, Equal.NOBODY)
    assert criterion.measure("A", known).text == "1.000 (1-0)"
    assert criterion.measure("B", known).text == ".500 (1-1)"
    assert [one.loser for one in criterion.compare("A", "B", known).bouts] == ["B", "C", "B"]


def test_more_wins_at_equal_percentage_in_words() -> None:
    criterion = WinPercentage("win percentage", WORSE, LEDGER, 1, Equal.MORE_WINS)
    assert criterion.compare("B", "A", season(*met(["AX", "AY", "BX"]))).sentence.say() == (
        "A and B are level in win percentage, and A has more wins: 1.000 (2-0) against 1.000 (1-0)."
    )


def test_win_percentage_in_words() -> None:
    criterion = WinPercentage("win percentage", WORSE, LEDGER, 2, Equal.NOBODY)
    known = season(*met(["AX", "AY", "ZA", "BX"]))
    assert criterion.compare("B", "A", known).sentence.say() == (
        "A is ahead in win percentage: .667 (2-1) against none, 1 of 2 bouts."
    )
    assert criterion.compare("B", "C", known).sentence.say() == (
        "win percentage decides nothing between B and C: none, 1 of 2 bouts against none, no bouts."
    )


@pytest.mark.parametrize(
    ("quality", "repeats", "count"),
    [
        (OverField(), Repeats.EVERY_BOUT, 2),
        (OverField(), Repeats.ONCE, 1),
        (OverRanked("coaches", 3), Repeats.EVERY_BOUT, 1),
        (OverRanked("coaches", 4), Repeats.EVERY_BOUT, 2),
        (OverWinning(LEDGER, Fraction(1, 2), 1), Repeats.EVERY_BOUT, 1),
        (OverWinning(LEDGER, Fraction(1, 2), 3), Repeats.EVERY_BOUT, 0),
        (OverWinning(LEDGER, Fraction(0), 1), Repeats.EVERY_BOUT, 4),
    ],
)
def test_quality_wins(quality: Quality, repeats: Repeats, count: int) -> None:
    """A beat B twice (B is entered, 0-2), X (ranked 3rd, 1-1) and Y (ranked 4th, 0-1)."""
    known = season(
        *met(["AB", "AB", "AX", "XZ", "AY"]),
        entrants="AB",
        rankings={"coaches": {"X": 3, "Y": 4}},
    )
    criterion = QualityWins("quality wins", NOBODY, LEDGER, quality, repeats)
    assert criterion.compare("A", "B", known).number("A").value == count


def test_earlier_place_takes_the_best_at_the_weight_asked() -> None:
    placings = (
        Placing("qualifying event", "A", 4, WEIGHT),
        Placing("qualifying event", "A", 2, "141"),
        Placing("qualifying event", "B", 3, WEIGHT),
        Placing("qualifying event", "C", 0, WEIGHT),
        Placing("qualifying event", "C", 5, "141"),
        Placing("another", "B", 1, WEIGHT),
    )
    known = Season(WEIGHT, (), placings=placings)
    here = EarlierPlace("place", WORSE, event="qualifying event", places_at=At.THIS_WEIGHT)
    anywhere = EarlierPlace("place", WORSE, event="qualifying event", places_at=At.ANY_WEIGHT)
    assert here.compare("A", "B", known).better == "B"
    assert anywhere.compare("A", "B", known).better == "A"
    assert here.compare("C", "A", known).better == "A"
    assert here.compare("C", "D", known).better is None
    assert anywhere.compare("C", "D", known).number("C").value == 5


@pytest.mark.parametrize(
    ("a", "b", "better"),
    [(1, 2, "A"), (2, 3, None), (3, 4, "A"), (4, None, None), (None, 1, "B"), (0, None, None)],
)
def test_returning_placers(a: int | None, b: int | None, better: str | None) -> None:
    """Champion before an equal second and third (Iowa 2018, published); others: not asked."""
    table = {name: place for name, place in (("A", a), ("B", b)) if place is not None}
    criterion = ReturningPlacer("returning placer", "state", At.ANY_WEIGHT, ((1,), (2, 3)))
    known = season(places={"state": table})
    assert criterion.compare("A", "B", known).better == better
    assert criterion.compare("B", "A", known).better == better


def test_a_returning_qualifier_took_part() -> None:
    criterion = ReturningPlacer("returning qualifier", "state", At.ANY_WEIGHT, ((1, 2, 0),))
    known = season(places={"state": {"A": 0, "C": 1}})
    verdict = criterion.compare("B", "A", known)
    assert verdict.better == "A"
    assert verdict.sentence.say({"A": "Ann"}) == (
        "Ann is ahead in returning qualifier (state): took part against no place."
    )
    assert criterion.compare("A", "C", known).better is None


def test_rpi_of_one_whose_opponents_met_nobody_else() -> None:
    asked = Percentages(LEDGER.records(season(bout("A", "B"))))
    assert (asked.own("A"), asked.opponents("A"), asked.theirs("A")) == (Fraction(1), None, None)
    assert asked.own("nobody") is None


def test_rpi_needs_its_bouts() -> None:
    """Published: RPI needs 15 Division I bouts at the weight."""
    parts = (Fraction(1, 4), Fraction(1, 2), Fraction(1, 4))
    rpi = Rpi("RPI", WORSE, LEDGER, parts, 15)
    known = season(*(bout("A", f"x{at}", at) for at in range(15)), *met(["BC"] * 14))
    verdict = rpi.compare("A", "B", known)
    assert verdict.better == "A"
    assert [number.text for number in verdict.numbers] == [".5000", "none, 14 of 15 bouts"]


def test_criteria_say_which_tables_they_read() -> None:
    ranked = OverRanked("coaches", 3)
    lines: list[Criterion] = [
        Ranked("r", WORSE, ranking="coaches"),
        EarlierPlace("p", WORSE, event="district", places_at=At.ANY_WEIGHT),
        ReturningPlacer("q", "state", At.ANY_WEIGHT, ((1,),)),
        QualityWins("w", NOBODY, LEDGER, ranked, Repeats.ONCE),
        WinPercentage("%", WORSE, LEDGER, 1, Equal.NOBODY),
    ]
    assert [[(one.kind, one.name) for one in line.inputs] for line in lines] == [
        [(InputKind.RANKING, "coaches")],
        [(InputKind.PLACES, "district")],
        [(InputKind.PLACES, "state")],
        [(InputKind.RANKING, "coaches")],
        [],
    ]


def test_measured_is_worked_out_once() -> None:
    asked: list[str] = []

    class Counting(Measured):
        def measure(self, wrestler, season):  # type: ignore[no-untyped-def]
            asked.append(wrestler)
            return Ranked("r", WORSE, ranking="none").measure(wrestler, season)

    criterion, known = Counting("counting", WORSE), season()
    criterion.compare("A", "B", known)
    criterion.compare("B", "A", known)
    assert asked == ["A", "B"]
