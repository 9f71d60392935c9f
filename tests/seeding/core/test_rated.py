"""Ratings as a criterion."""

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from seeding.core.criteria import Missing
from seeding.core.ledger import Ledger, MedicalForfeits
from seeding.core.rated import Rated, rated_bouts
from seeding.core.ratings.names import Rating
from seeding.core.ratings.values import levels
from seeding.core.rpi import Percentages, Reading, Rpi
from seeding.core.season import At, Counted, ResultKind, Season
from tests.seeding.core.seasons import EVERY, LEDGER, WRESTLERS, bout, met, season, seasons


def rated(rating: Rating, ledger: Ledger = LEDGER, minimum: int = 1) -> Rated:
    return Rated("rating", Missing.WORSE, ledger, rating, minimum)


@pytest.mark.parametrize("rating", list(Rating))
def test_the_better_record_against_the_same_is_ahead(rating: Rating) -> None:
    known = season(*met(["AX", "AY", "XB", "BY", "XY"]))
    verdict = rated(rating).compare("B", "A", known)
    assert verdict.better == "A"
    assert len(verdict.bouts) == 4


@pytest.mark.parametrize("rating", list(Rating))
def test_mirror_images_are_equal(rating: Rating) -> None:
    """Ten who each beat the next two round a circle: adding in another order is no difference."""
    names = "ABCDEFGHIJ"
    pairs = [(names[at], names[(at + step) % 10]) for at in range(10) for step in (1, 2)]
    known = season(*(bout(winner, loser) for winner, loser in pairs))
    criterion = rated(rating)
    assert len({criterion.measure(name, known).value for name in names}) == 1


def test_too_few_bouts_give_no_rating() -> None:
    known = season(*met(["AB", "AC", "AD", "BC"]))
    criterion = rated(Rating.COLLEY, minimum=3)
    verdict = criterion.compare("A", "B", known)
    assert verdict.better == "A"
    assert verdict.number("B").text == "none, 2 of 3 bouts"
    assert criterion.measure("Z", known).text == "none, no bouts"


def test_the_numbers_as_written() -> None:
    """Calculated: half a win and half a loss against a fixed 0."""
    known = season(*met(["AB", "BC", "AC"]))
    texts = [rated(Rating.BRADLEY_TERRY).measure(name, known).text for name in "ABC"]
    assert texts == ["1.2946", ".0000", "-1.2946"]


def test_a_bout_counts_that_is_a_win_and_a_loss() -> None:
    wrestled = Counted(frozenset(ResultKind) - {ResultKind.FORFEIT}, At.ANY_WEIGHT)
    bouts = [bout("A", "B", 0, ResultKind.FORFEIT), bout("A", "B", 1)]
    known = season(*bouts)
    assert rated_bouts(Ledger(EVERY, wrestled), known) == (bouts[1],)
    assert rated_bouts(LEDGER, known) == tuple(bouts)


def test_a_medical_forfeit_counts_where_it_is_a_loss() -> None:
    bouts = [bout("A", "C", 0, ResultKind.MEDICAL), bout("B", "C", 0, ResultKind.MEDICAL)]
    first = Ledger(EVERY, EVERY, MedicalForfeits.FIRST)
    assert len(rated_bouts(first, season(*bouts))) == 1


@given(seasons(), st.permutations(range(40)), st.sampled_from(list(Rating)))
def test_the_order_of_input_is_nothing(known: Season, order: list[int], rating: Rating) -> None:
    bouts = known.bouts
    shuffled = season(*(bouts[at] for at in order if at < len(bouts)))
    criterion = rated(rating)
    for wrestler in WRESTLERS:
        assert criterion.measure(wrestler, season(*bouts)) == criterion.measure(wrestler, shuffled)


@given(seasons(), st.permutations("ABCDEFGUVWXYZ"), st.sampled_from(list(Rating)))
def test_names_are_nothing(known: Season, names: list[str], rating: Rating) -> None:
    """Other ids put everybody at another place of the arrays; who is equal stays equal."""
    other = dict(zip("ABCDEFGUVWXYZ", names, strict=True))
    renamed = season(
        *(bout(other[one.winner], other[one.loser], 0, one.kind) for one in known.bouts)
    )
    plain = season(*(bout(one.winner, one.loser, 0, one.kind) for one in known.bouts))
    criterion = rated(rating)
    values = [criterion.measure(wrestler, plain).value for wrestler in WRESTLERS]
    others = [criterion.measure(other[wrestler], renamed).value for wrestler in WRESTLERS]
    for at in range(len(values)):
        for to in range(at):
            assert (values[at] == values[to]) is (others[at] == others[to])


def test_noise_at_the_edge_of_rounding_parts_nobody() -> None:
    edge = 0.5 + 5e-10
    one, other, far = levels(np.array([edge - 1e-14, edge + 1e-14, edge + 1e-6]))
    assert one == other < far


def test_numbers_are_rounded_to_nine_digits() -> None:
    assert levels(np.array([1 / 3, 2.0])) == [Fraction(333333333, 10**9), Fraction(2)]
    assert levels(np.array([])) == []


def test_rpi_by_either_reading() -> None:
    """Calculated: without A, B has 0-1 and C 1-0; with A, 0-2 and 1-1."""
    known = season(*met(["AB", "AC", "CB"]))
    parts = (Fraction(0), Fraction(1), Fraction(0))
    without = Rpi("RPI", Missing.WORSE, LEDGER, parts, 1)
    whole = Rpi("RPI", Missing.WORSE, LEDGER, parts, 1, Reading.ALL_BOUTS)
    assert without.measure("A", known).text == ".5000"
    assert whole.measure("A", known).text == ".2500"
    assert Percentages(LEDGER.records(known), Reading.ALL_BOUTS).theirs("A") == Fraction(5, 8)
