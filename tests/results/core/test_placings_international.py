"""How a round robin of the international style is ranked."""

import pytest

from results.core.outcomes import Kind, Outcome
from results.core.placings import Groups
from tests.results.core.test_placings import CIRCLE, INTERNATIONAL, Bouts, pool, rank, won
from tests.results.core.wrestled import Weight, rules


# Association page, classification points winner:loser: fall, injury, forfeit, disqualification 5:0,
# superiority 4:0 or 4:1 when the loser scored, points 3:0 or 3:1, both disqualified 0:0.
@pytest.mark.parametrize(
    ("bouts", "wanted"),
    [
        pytest.param(
            # 1 and 2 scored in the bout that they lost, 3 did not: 4, 4, 3.
            {"1-2": won(0), "1-3": won(1), "2-3": won(0, score=(9, 0))},
            (("1",), ("2",), ("3",)),
            id="points: 3:1 and 3:0",
        ),
        pytest.param(
            # 1: 4 and 0. 2: 3 and 1. 3: 3 and 1.
            {
                "1-2": won(0, Kind.TECHNICAL_FALL, score=(11, 1), time=90),
                "1-3": won(1, score=(2, 0)),
                "2-3": won(0, score=(9, 8)),
            },
            (("1",), ("2",), ("3",)),
            id="superiority: 4:1; all level, then most technical superiorities",
        ),
        pytest.param(
            # 1: 3 and 0. 2: 5 and 1. 3: 3 and 0: in a fall the loser's points count for nothing.
            {
                "1-2": won(0),
                "1-3": won(1, score=(3, 0)),
                "2-3": won(0, Kind.FALL, time=99, score=(4, 8)),
            },
            (("2",), ("3",), ("1",)),
            id="fall: 5:0, whatever the loser scored",
        ),
        pytest.param(
            # 1: 5 and 0. 2: 3 and 0. 3: 3 and 1.
            {
                "1-2": won(0, Kind.INJURY, time=99),
                "1-3": won(1, score=(4, 0)),
                "2-3": won(0, score=(7, 2)),
            },
            (("1",), ("3",), ("2",)),
            id="injury: 5:0",
        ),
        pytest.param(
            # All 4, and 7 scored; given: 1 7, 2 9, 3 5.
            {"1-2": won(0, score=(6, 2)), "1-3": won(1, score=(5, 1)), "2-3": won(0, score=(5, 2))},
            (("3",), ("1",), ("2",)),
            id="fewest given, when classification points and points scored are level",
        ),
    ],
)
def test_three_in_a_circle_of_the_international_style(bouts: Bouts, wanted: Groups) -> None:
    used = rules("international-2025")
    weight = Weight(3, used, places=4).wrestle(lambda _, top, bottom: bouts[f"{top}-{bottom}"])
    assert list(used.results.pool_order) == INTERNATIONAL
    assert rank(weight.standing(), weight.outcomes, used) == wanted


def test_nobody_has_classification_points_of_a_bout_that_nobody_won() -> None:
    """All of 1, 2 and 4 won once. 1 and 2: 3:1, 1:3 and 0:0. 4: 3:1, 1:3 and 1:3."""
    bouts = {
        "1-2": Outcome(Kind.DOUBLE_DISQUALIFICATION, None),
        "1-3": won(1),
        "2-4": won(1),
        "3-4": won(0),
    }
    assert pool(4, ["classification-points"], bouts) == (("3",), ("4",), ("1", "2"))


def test_a_loser_whose_score_was_not_recorded_leaves_classification_points_out() -> None:
    """Whether it was 4:0 or 4:1 is not known, so the next criterion decides."""
    unknown = {"1-2": won(0, Kind.TECHNICAL_FALL, score=None, time=70)}
    assert len(pool(3, ["classification-points"], CIRCLE | unknown)) == 1
    assert pool(3, INTERNATIONAL, CIRCLE | unknown)[0] == ("1",)
