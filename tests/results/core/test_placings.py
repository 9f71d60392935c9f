"""How a round robin is ranked: four published lists."""

from collections.abc import Mapping
from decimal import Decimal
from functools import partial

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brackets.core.graph import BoutKey
from brackets.core.standing import Standing
from results.core.outcomes import Kind, Outcome
from results.core.placings import Groups, rank_pool
from results.core.points import bonus
from tests.results.core.wrestled import Rules, Weight, better_seed, rules

# Published, in use side by side.
ACTIVITY = [
    "head-to-head-of-two",
    "activity-points",
    "falls",
    "technical-falls",
    "fall-time",
    "technical-fall-time",
    "bout-points",
    "weight",
]
FALLS = ["head-to-head-of-two", "falls", "times-pinned", "bout-points"]
TEAM = ["head-to-head", "team-points", "falls", "technical-falls", "majors", "quickest-fall"]
# Published: UWW; the order from memory, unconfirmed.
INTERNATIONAL = [
    "head-to-head-of-two",
    "classification-points",
    "falls",
    "technical-falls",
    "bout-points",
    "points-given",
]
LISTS = [ACTIVITY, FALLS, TEAM, INTERNATIONAL]

Bouts = dict[str, Outcome]


def won(winner: int, kind: Kind = Kind.DECISION, **rest: object) -> Outcome:
    """A win of the top (0) or bottom (1) side, 5-2 where points count."""
    score = {Kind.DECISION: (5, 2), Kind.MAJOR: (10, 1), Kind.TECHNICAL_FALL: (17, 2)}
    given_ = {"score": score.get(kind)} | rest
    return Outcome(kind, 1 if winner else 0, **given_)  # type: ignore[arg-type]


def by_list(order: list[str]) -> Rules:
    return rules(results__pool_order=order)


def pool(entrants: int, order: list[str], bouts: Bouts, **weights: str) -> Groups:
    """Rank a pool in which `bouts` ("1-2": outcome, better seed on top) and else seeds decide."""
    return ranked(entrants, by_list(order), bouts, **weights)


def ranked(entrants: int, used: Rules, bouts: Bouts, **weights: str) -> Groups:
    weight = Weight(entrants, used).wrestle(
        lambda key, top, bottom: bouts.get(f"{top}-{bottom}", better_seed(key, top, bottom))
    )
    weighed = {entry.removeprefix("w"): Decimal(pounds) for entry, pounds in weights.items()}
    return rank(weight.standing(), weight.outcomes, used, weights=weighed)


def rank(
    standing: Standing,
    outcomes: Mapping[BoutKey, Outcome],
    used: Rules,
    weights: Mapping[str, Decimal] | None = None,
) -> Groups:
    points = partial(bonus, rules=used.points)
    return rank_pool(standing, outcomes, used.results, bonus=points, weights=weights)


def test_team_points_know_a_technical_fall_without_near_fall() -> None:
    """1 beat 2 and 2 beat 3 by technical fall, 3 beat 1 by major: 1, 1.5 and 1 of bonus."""
    used = rules(results__pool_order=TEAM, points__technical_fall_without_near_fall=1)
    bouts = {
        "1-2": won(0, Kind.TECHNICAL_FALL, time=90, near_fall=False),
        "2-3": won(0, Kind.TECHNICAL_FALL, time=60, near_fall=True),
        "1-3": won(1, Kind.MAJOR),
    }
    assert ranked(3, used, bouts) == (("2",), ("3",), ("1",))


@pytest.mark.parametrize("order", LISTS)
@pytest.mark.parametrize("entrants", [2, 3, 4, 5])
def test_without_ties_the_wins_decide(order: list[str], entrants: int) -> None:
    wanted = tuple((str(seed),) for seed in range(1, entrants + 1))
    assert pool(entrants, order, {}) == wanted


@pytest.mark.parametrize("order", LISTS)
def test_two_with_equal_wins_are_ranked_by_their_own_bout(order: list[str]) -> None:
    # 1 and 4 have two wins each, 2 and 3 one each; 4 beat 1, 2 beat 3.
    bouts = {"1-4": won(1), "2-4": won(1), "3-4": won(0)}
    assert pool(4, order, bouts) == (("4",), ("1",), ("2",), ("3",))


CIRCLE = {"1-2": won(0), "1-3": won(1), "2-3": won(0)}  # 1 beat 2 beat 3 beat 1


@pytest.mark.parametrize("order", LISTS)
def test_a_circle_that_nothing_separates_stays_tied(order: list[str]) -> None:
    ((first, *others),) = pool(3, order, CIRCLE)
    assert {first, *others} == {"1", "2", "3"}


@pytest.mark.parametrize(
    ("order", "bouts", "weights", "wanted"),
    [
        pytest.param(
            ACTIVITY,
            {"2-3": won(0, Kind.FALL, time=60)},
            {},
            # 2 has two activity points; 3 beat 1, so the last two by their own bout.
            (("2",), ("3",), ("1",)),
            id="activity: a fall, then the last two by their bout",
        ),
        pytest.param(
            ACTIVITY,
            {"1-2": won(0, Kind.TECHNICAL_FALL, time=99), "2-3": won(0, Kind.MAJOR)},
            {},
            (("1",), ("2",), ("3",)),
            id="activity: technical fall 1.5 above major 1",
        ),
        pytest.param(
            ACTIVITY,
            {
                "1-2": won(0, Kind.FALL, time=60),
                "2-3": won(0, Kind.FORFEIT),
                "1-3": won(1, Kind.INJURY, time=80),
            },
            {},
            (("1",), ("2",), ("3",)),
            id="activity: fall, forfeit and injury default 2 each, then most falls",
        ),
        pytest.param(
            ACTIVITY,
            {
                "1-2": won(0, Kind.FALL, time=90),
                "2-3": won(0, Kind.FALL, time=60),
                "1-3": won(1, Kind.FALL, time=120),
            },
            {},
            (("2",), ("1",), ("3",)),
            id="activity: fastest falls",
        ),
        pytest.param(
            ACTIVITY,
            {
                "1-2": won(0, Kind.TECHNICAL_FALL, time=200),
                "2-3": won(0, Kind.TECHNICAL_FALL, time=210),
                "1-3": won(1, Kind.TECHNICAL_FALL, time=190),
            },
            {},
            (("3",), ("1",), ("2",)),
            id="activity: fastest technical falls",
        ),
        pytest.param(
            ACTIVITY,
            {"1-2": won(0, score=(7, 1)), "2-3": won(0), "1-3": won(1)},
            {},
            (("1",), ("3",), ("2",)),
            id="activity: most bout points",
        ),
        pytest.param(
            ACTIVITY,
            {"1-2": won(0), "2-3": won(0), "1-3": won(1)},
            {"w1": "124.6", "w2": "124.8", "w3": "123.9"},
            (("3",), ("1",), ("2",)),
            id="activity: lowest weight",
        ),
        pytest.param(
            FALLS,
            {"1-2": won(0, Kind.MAJOR), "2-3": won(0, Kind.FALL, time=60)},
            {},
            (("2",), ("3",), ("1",)),
            id="falls: most falls, then the two left by their bout",
        ),
        pytest.param(
            FALLS,
            {
                "1-2": won(0, Kind.FALL, time=90),
                "2-3": won(0, Kind.FALL, time=60),
                "1-3": won(1, Kind.FALL, time=120, score=(3, 4)),
            },
            {},
            (("1",), ("3",), ("2",)),
            id="falls: level in falls and times pinned, most points",
        ),
        pytest.param(
            TEAM,
            {"1-2": won(0, Kind.FALL, time=90), "2-3": won(0, Kind.DISQUALIFICATION)},
            {},
            (("1",), ("2",), ("3",)),
            id="team points: a fall and a disqualification 2 each, then their bout",
        ),
        pytest.param(
            TEAM,
            {
                "1-2": won(0, Kind.FALL, time=90),
                "2-3": won(0, Kind.FALL, time=60),
                "1-3": won(1, Kind.FALL, time=120),
            },
            {},
            (("2",), ("1",), ("3",)),
            id="team points: quickest fall",
        ),
    ],
)
def test_three_in_a_circle(
    order: list[str], bouts: Bouts, weights: dict[str, str], wanted: Groups
) -> None:
    assert pool(3, order, CIRCLE | bouts, **weights) == wanted


def test_a_time_that_was_not_recorded_decides_nothing() -> None:
    bouts = {
        "1-2": won(0, Kind.FALL, time=90),
        "2-3": won(0, Kind.FALL),
        "1-3": won(1, Kind.FALL, time=120),
    }
    assert len(pool(3, ["falls", "fall-time"], bouts)) == 1


def test_weights_decide_only_when_all_are_known() -> None:
    assert len(pool(3, ACTIVITY, CIRCLE, w1="124.6", w2="124.8")) == 1


def test_nobody_wins_a_double_forfeit() -> None:
    bouts = {"1-2": Outcome(Kind.DOUBLE_FORFEIT, None)}
    first, last = pool(3, ACTIVITY, bouts)
    assert sorted(first) == ["1", "2"]
    assert last == ("3",)


def test_who_is_out_loses_the_bouts_that_were_left() -> None:
    used = by_list(FALLS)
    weight = Weight(4, used, out=frozenset({"1"})).wrestle(better_seed)
    assert rank(weight.standing(), weight.outcomes, used)[-1] == ("1",)


def test_an_unfinished_pool_is_ranked_as_it_stands() -> None:
    used = by_list(FALLS)
    weight = Weight(4, used)
    assert rank(weight.standing(), {}, used) == (("1", "4", "2", "3"),)


ENDS = st.sampled_from(
    [
        won(0),
        won(1),
        won(0, Kind.FALL, time=60),
        won(1, Kind.FALL, time=60),
        won(1, Kind.MAJOR),
        won(0, Kind.FORFEIT),
        Outcome(Kind.DOUBLE_FORFEIT, None),
    ]
)


@given(
    st.integers(2, 5),
    st.sampled_from(LISTS),
    st.lists(ENDS, min_size=10, max_size=10),
)
def test_everyone_is_ranked_once_and_never_against_the_wins(
    entrants: int, order: list[str], ends: list[Outcome]
) -> None:
    used = by_list(order)
    weight = Weight(entrants, used)
    weight.outcomes = dict(zip(sorted(weight.ready()), ends, strict=False))
    standing = weight.standing()
    groups = rank(standing, weight.outcomes, used)
    ranked = [entry for group in groups for entry in group]
    assert sorted(ranked) == [str(seed) for seed in weight.seeds]
    wins = [sum(state.winner == one for state in standing.bouts.values()) for one in ranked]
    assert wins == sorted(wins, reverse=True)
    mirrored = dict(reversed(weight.outcomes.items()))
    assert rank(standing, mirrored, used) == groups
