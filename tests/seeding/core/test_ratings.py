"""The worked examples of fixtures/ratings.json; each names its source."""

import json
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
import pytest
from scipy import sparse

from seeding.core.matrices import BoutArrays, Floats, Matrix
from seeding.core.ratings.bradley_terry import (
    NoFiniteStrengths,
    bradley_terry,
    bradley_terry_plain,
    elo_probability,
    win_probability,
)
from seeding.core.ratings.colley import colley
from seeding.core.ratings.glicko import Glicko, GlickoSettings, after, glicko, weeks
from seeding.core.ratings.massey import margins_of, massey
from seeding.core.ratings.pagerank import pagerank
from seeding.core.ratings.percentages import percentages
from seeding.core.rpi import Reading
from tests.seeding.core.seasons import ROOT, bout, met

Given = Mapping[str, Any]
BY_ID: dict[str, Given] = {
    case["id"]: case for case in json.loads((ROOT / "fixtures" / "ratings.json").read_text("utf-8"))
}


def arrays(bouts: Sequence[str]) -> BoutArrays:
    return BoutArrays.of(met([text.split()[:2] for text in bouts]))


def close(found: Floats, wrestlers: Sequence[str], expected: Mapping[str, float]) -> bool:
    """Equal to the digits that are printed."""
    assert set(wrestlers) == set(expected)
    return bool(np.allclose(found, [expected[one] for one in wrestlers], rtol=0, atol=5.1e-5))


@pytest.mark.parametrize("part", ["own", "opponents", "theirs", "rpi"])
def test_rpi(part: str) -> None:
    case = BY_ID["rpi-six-games"]
    bouts = arrays(case["given"]["bouts"])
    found = percentages(bouts, Reading.WITHOUT_THE_WRESTLER)
    values = found.rpi(tuple(case["given"]["parts"])) if part == "rpi" else getattr(found, part)
    assert close(values, bouts.wrestlers, case["expect"][part])


def test_rpi_with_all_bouts() -> None:
    case = BY_ID["rpi-six-games-all-bouts"]
    bouts = arrays(case["given"]["bouts"])
    found = percentages(bouts, Reading.ALL_BOUTS)
    assert close(found.opponents, bouts.wrestlers, case["expect"]["opponents"])


@pytest.mark.parametrize("rating", ["colley", "massey", "pagerank"])
def test_five_teams(rating: str) -> None:
    case = BY_ID["five-teams"]
    games = case["given"]["games"]
    bouts = arrays(games)
    margins = np.array([float(game.split()[2]) for game in games])
    found = {
        "colley": colley(bouts.wins()),
        "massey": massey(bouts, margins),
        "pagerank": pagerank(bouts.wins()),
    }
    assert close(found[rating], bouts.wrestlers, case["expect"][rating])


def wins(table: Mapping[str, Sequence[int]]) -> Matrix:
    return sparse.csr_array(np.array(list(table.values()), dtype=np.int16))


def test_bradley_terry_of_the_seven_clubs() -> None:
    case = BY_ID["seven-clubs"]
    table = case["given"]["wins"]
    found = bradley_terry_plain(wins(table))
    assert close(found - found[0], list(table), case["expect"]["strengths"])


def test_bradley_terry_of_the_unbeaten() -> None:
    case = BY_ID["unbeaten"]
    bouts = arrays(case["given"]["bouts"])
    assert close(bradley_terry(bouts.wins()), bouts.wrestlers, case["expect"]["strengths"])


def test_without_its_rule_the_unbeaten_has_no_finite_strength() -> None:
    with pytest.raises(NoFiniteStrengths):
        bradley_terry_plain(arrays(["A B", "B C", "C B"]).wins())


def test_glicko_2() -> None:
    case = BY_ID["glicko-2-example"]
    given, expect = case["given"], case["expect"]
    volatility = np.full(4, GlickoSettings().volatility)
    before = Glicko(np.array(given["rating"]), np.array(given["deviation"]), volatility)
    winner = np.array([0] * len(given["won_over"]) + given["lost_to"], dtype=np.int32)
    loser = np.array(given["won_over"] + [0] * len(given["lost_to"]), dtype=np.int32)
    found = after(before, winner, loser, given["tau"])
    assert found.rating[0] == pytest.approx(expect["rating"], abs=0.005)
    assert found.deviation[0] == pytest.approx(expect["deviation"], abs=0.005)
    assert found.volatility[0] == pytest.approx(expect["volatility"], abs=1e-5)


def test_a_period_without_bouts_only_widens() -> None:
    """Published: step 6 alone, the square root of deviation and volatility squared."""
    before = Glicko.start(1, GlickoSettings())
    nobody = np.array([], dtype=np.int32)
    found = after(before, nobody, nobody, 0.5)
    assert found.rating[0] == 1500
    assert found.deviation[0] == pytest.approx((350**2 + (0.06 * 173.7178) ** 2) ** 0.5)


def test_weeks_begin_on_monday() -> None:
    """1 November 2024 was a Friday."""
    periods = weeks([bout("A", "B", day) for day in (0, 2, 3, 9, 10)])
    assert (periods - periods[0]).tolist() == [0, 0, 1, 1, 2]


def test_bouts_of_one_week_count_as_wrestled_at_once() -> None:
    one = [bout("A", "B", 0), bout("B", "C", 1), bout("C", "D", 5)]
    other = [bout("A", "B", 1), bout("B", "C", 0), bout("C", "D", 4)]
    first, second = (
        glicko(BoutArrays.of(bouts), weeks(bouts), GlickoSettings()).rating
        for bouts in (one, other)
    )
    assert np.array_equal(first, second)


@pytest.mark.parametrize(
    ("kind", "score", "margin"),
    [
        ("decision", "5-3", 2),
        ("decision", "", 1),
        ("decision", "14-2", 7),
        ("major decision", "3-12", 9),
        ("technical fall", "17-1", 15),
        ("fall", "2-0", 15),
        ("forfeit", "", 1),
        ("decision", "in overtime", 1),
    ],
)
def test_margins(kind: str, score: str, margin: int) -> None:
    made = bout("A", "B", kind=kind)
    assert margins_of([type(made)(made.date, made.weight, "A", "B", kind, score)]) == [margin]


def test_chances() -> None:
    """Calculated: e to the difference, and ten for every 400 points, are the odds."""
    zero, three = np.array([0.0]), np.array([np.log(3)])
    assert win_probability(three, zero) == pytest.approx(0.75)
    assert elo_probability(np.array([1900.0]), np.array([1500.0])) == pytest.approx(10 / 11)
