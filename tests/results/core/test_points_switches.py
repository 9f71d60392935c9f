"""What bodies do differently about team points, each a setting."""

from collections.abc import Callable
from decimal import Decimal

import pytest

from brackets.core.graph import BoutKey
from results.core.outcomes import Kind, Outcome
from results.core.points import Item, Part, Scorer
from tests.results.core.wrestled import (
    FALL,
    Decide,
    Weight,
    better_seed,
    by,
    decision,
    rules,
    star,
)

HALF = Decimal("0.5")


def bye_points(weight: Weight, entry: str) -> Decimal:
    return weight.points(entry, Item.BYE)


# Six entrants on eight lines: 1 and 2 have byes; who loses the first bout has one behind it.
@pytest.mark.parametrize(
    ("byes", "champion", "consolation"),
    [
        ("wins-next", Decimal(1), HALF),  # association page: college since 1985, high school
        ("none", Decimal(0), Decimal(0)),  # association page: Division I championships
        ("championship-only", Decimal(1), Decimal(0)),  # association page: junior colleges 2020-21
        ("fall-bonus", Decimal(1), HALF),  # association page: one state's regional meets
    ],
)
def test_byes(byes: str, champion: Decimal, consolation: Decimal) -> None:
    weight = Weight(6, rules(points__byes=byes)).wrestle(star("5", "QF"))
    assert weight.place("5") == 3
    assert bye_points(weight, "1") == champion
    assert bye_points(weight, "5") == consolation
    extra = [part.points for part in weight.parts("1", Item.BONUS) if part.reason == "bye"]
    assert extra == ([Decimal(2)] if byes == "fall-bonus" else [])


def test_a_bye_followed_by_a_loss_scores_nothing() -> None:
    weight = Weight(6, rules()).wrestle(star("1", "SF"))
    assert bye_points(weight, "1") == 0
    assert bye_points(weight, "2") == 1


def test_a_bye_is_credited_only_after_the_next_bout() -> None:
    weight = Weight(6, rules()).wrestle(better_seed, until={"SF"})
    assert bye_points(weight, "1") == 0
    (bye,) = weight.wrestle(better_seed).parts("1", Item.BYE)
    assert bye == Part("1", Item.BYE, Decimal(1), BoutKey("QF", 1), None, "bye")


def double_forfeit(*seeds: str, then: Decide = better_seed) -> Decide:
    def decide(key: BoutKey, top: str, bottom: str) -> Outcome:
        if {top, bottom} == set(seeds):
            return Outcome(Kind.DOUBLE_FORFEIT, None)
        return then(key, top, bottom)

    return decide


@pytest.mark.parametrize(
    ("in_a_row", "from_double_loss", "points"),
    [
        ("all", True, 2),
        ("last", True, 1),
        ("none", True, 0),
        ("all", False, 1),
        ("none", False, 0),
    ],
)
def test_byes_in_a_row_and_from_a_double_forfeit(
    in_a_row: str, from_double_loss: bool, points: int
) -> None:
    # Fourteen on sixteen lines: 1 has a bye, then 8 and 9 do not report, then he wins.
    used = rules(points__byes_in_a_row=in_a_row, points__byes_from_double_loss=from_double_loss)
    weight = Weight(14, used).wrestle(double_forfeit("8", "9"))
    assert weight.place("1") == 1
    assert bye_points(weight, "1") == points
    assert weight.points("8") == weight.points("9") == 0


@pytest.mark.parametrize(
    ("book", "near_fall", "points"),
    [
        ("college-2025", True, "1.5"),  # read off published results: 2023-24, 2024-25 always 1.5
        ("college-2025", False, "1.5"),
        ("college-2013", True, "1.5"),  # association page
        ("college-2013", False, "1.0"),  # association page: rule years to 2022-23
    ],
)
def test_a_technical_fall(book: str, near_fall: bool, points: str) -> None:
    technical = Outcome(Kind.TECHNICAL_FALL, 0, (19, 4), 265, near_fall=near_fall)
    weight = Weight(33, rules(book)).wrestle(by(technical), until={"R2"})
    bonus = {part.points for part in weight.ledger() if part.item is Item.BONUS}
    assert bonus == {Decimal(points)}


@pytest.mark.parametrize(
    ("kind", "points"),
    [
        # Association page; medical forfeit and decisions read off published results.
        (Kind.FALL, "2"),
        (Kind.INJURY, "2"),
        (Kind.FORFEIT, "2"),
        (Kind.MEDICAL, "2"),
        (Kind.DISQUALIFICATION, "2"),
        (Kind.TECHNICAL_FALL, "1.5"),
        (Kind.MAJOR, "1"),
        (Kind.DECISION, "0"),
    ],
)
@pytest.mark.parametrize("last", ["1st", "3rd", "5th", "7th"])
def test_bonus_also_in_placing_bouts(kind: Kind, points: str, last: str) -> None:
    weight = Weight(33, rules()).wrestle(better_seed, until={last})
    weight.wrestle(by(Outcome(kind, 0)))
    found = [part for part in weight.ledger() if part.bout and part.bout.round == last]
    assert sum(part.points for part in found if part.item is Item.BONUS) == Decimal(points)
    assert not [part for part in found if part.item is Item.ADVANCEMENT]


@pytest.mark.parametrize(
    ("book", "championship", "consolation"),
    [("college-2025", "1", "0.5"), ("high-school-2025", "2", "1")],  # association pages
)
def test_advancement_in_pigtails_as_on_their_side(
    book: str, championship: str, consolation: str
) -> None:
    weight = Weight(33, rules(book)).wrestle(better_seed)
    found = {str(part.bout): part.points for part in weight.ledger() if part.reason == "win"}
    assert found["P-1"] == found["R1-1"] == found["SF-2"] == Decimal(championship)
    assert found["CP-1"] == found["C1-1"] == found["C6-2"] == Decimal(consolation)


def test_a_round_robin_scores_pool_wins_and_places() -> None:
    # Association page: one event gives 2 for each win in a pool.
    weight = Weight(4, rules(points__pool_win=2), places=8).wrestle(better_seed)
    weight.pool_order = [["1"], ["2"], ["3"], ["4"]]
    assert [weight.points(entry) for entry in "1234"] == [16 + 6, 12 + 4, 10 + 2, 9]
    assert {part.reason for part in weight.ledger()} == {"win", "place"}


@pytest.mark.parametrize(("shared", "each"), [("mean", "12.667"), ("each", "16")])
def test_three_share_the_first_place_of_a_pool(shared: str, each: str) -> None:
    # (16 + 12 + 10) / 3: common practice, no source.
    weight = Weight(3, rules(points__shared_places=shared))
    weight.wrestle(lambda key, *_: decision(1 if key.round == "RR2" else 0))
    weight.pool_order = [["1", "2", "3"]]
    assert {weight.points(entry, Item.PLACEMENT) for entry in "123"} == {Decimal(each)}


@pytest.mark.parametrize(
    ("mates", "wanted"), [("12", "25.333"), ("13", "25.333"), ("123", "38"), ("2", "12.667")]
)
def test_thirds_of_one_team_add_up_to_its_share(mates: str, wanted: str) -> None:
    """3 x 12.667 would be 38.001, more than there is to share."""
    ours = {entry: Scorer("ours", scoring=True) for entry in mates}
    weight = Weight(3, rules(points__shared_places="mean"), scorers=ours)
    weight.wrestle(lambda key, *_: decision(1 if key.round == "RR2" else 0))
    weight.pool_order = [["1", "2", "3"]]
    assert sum(weight.points(entry, Item.PLACEMENT) for entry in mates) == Decimal(wanted)


@pytest.mark.parametrize(
    ("open_place", "shared", "each"),
    [("open", "mean", 12), ("open", "each", 12), ("shared", "mean", 14), ("shared", "each", 16)],
)
def test_a_final_that_nobody_wins(open_place: str, shared: str, each: int) -> None:
    used = rules(bracket__open_place=open_place, points__shared_places=shared)
    weight = Weight(33, used).wrestle(better_seed, until={"1st"})
    weight.outcomes[BoutKey("1st", 1)] = Outcome(Kind.DOUBLE_DISQUALIFICATION, None)
    assert [weight.points(entry, Item.PLACEMENT) for entry in "12"] == [each, each]
    assert weight.points("3", Item.PLACEMENT) == 10


def test_two_whom_a_semifinal_without_a_winner_leaves_level_share_two_places() -> None:
    """Everybody else is placed, and the next place stays empty: common practice, no source."""
    used = rules(bracket__open_place="moved-up", points__shared_places="mean")
    weight = Weight(8, used).wrestle(better_seed, until={"SF"})
    weight.outcomes[BoutKey("SF", 1)] = Outcome(Kind.DOUBLE_DISQUALIFICATION, None)
    weight.wrestle(better_seed)
    level = [entry for entry in weight.seeds if weight.place(str(entry)) == weight.place("1")]
    assert len(level) == 2
    place = weight.place("1") or 0
    worth = (16, 12, 10, 9, 7, 6, 4, 3)[place - 1 : place + 1]
    each = Decimal(sum(worth)) / 2
    assert [weight.points(str(entry), Item.PLACEMENT) for entry in level] == [each, each]


def test_who_is_out_in_a_bout_that_nobody_won_has_his_place_in_full() -> None:
    """What was certain to both is not taken back though they have the same place."""
    weight = Weight(16, rules()).wrestle(better_seed, until={"C3"})
    sides = weight.standing().bouts[BoutKey("C3", 1)].sides
    assert [weight.points(str(one), Item.PLACEMENT) for one in sides] == [3, 3]
    weight.outcomes[BoutKey("C3", 1)] = Outcome(Kind.DOUBLE_FORFEIT, None)
    weight.wrestle(better_seed)
    assert set(weight.standing().places[8]) == set(sides)
    assert [weight.points(str(one), Item.PLACEMENT) for one in sides] == [3, 3]


@pytest.mark.parametrize(("open_place", "each"), [("moved-up", 14), ("open", 12)])
def test_both_of_a_final_that_nobody_won_share_the_first_place_only_when_moved_up(
    open_place: str, each: int
) -> None:
    weight = Weight(8, rules(bracket__open_place=open_place))
    weight.wrestle(better_seed, until={"1st"})
    weight.outcomes[BoutKey("1st", 1)] = Outcome(Kind.DOUBLE_DISQUALIFICATION, None)
    assert [weight.points(entry, Item.PLACEMENT) for entry in "12"] == [each, each]


def test_passed_places_never_take_back_running_points() -> None:
    used = rules(points__non_scorers="pass")
    weight = Weight(33, used, scorers={"1": Scorer("team 1", False)})
    before = dict.fromkeys(map(str, weight.seeds), Decimal(0))
    for code in [found.code for found in weight.bracket.rounds]:
        for key in [key for key in weight.ready() if key.round == code]:
            top, bottom = (str(side) for side in weight.standing().bouts[key].sides)
            weight.outcomes[key] = better_seed(key, top, bottom)
        after = {entry: weight.points(entry, Item.PLACEMENT) for entry in before}
        assert all(after[entry] >= before[entry] for entry in before)
        before = after


@pytest.mark.parametrize(
    ("decide", "scorer"), [(better_seed, "1"), (star("4"), "4"), (star("1", "R1", "C1"), "4")]
)
def test_of_team_mates_the_best_finisher_scores(
    decide: Callable[[BoutKey, str, str], Outcome], scorer: str
) -> None:
    mates = {"1": Scorer("A", True), "4": Scorer("A", True)}
    weight = Weight(33, rules(points__scorer="best"), scorers=mates).wrestle(decide)
    assert {part.entry for part in weight.ledger()} & {"1", "4"} == {scorer}
    named = Weight(33, rules(), scorers=mates).wrestle(better_seed)
    assert {part.entry for part in named.ledger()} >= {"1", "4"}


def test_a_withdrawal_after_the_quarterfinal() -> None:
    # College practice, read off published results: he keeps the place; the wins over him are
    # medical forfeits.
    weight = Weight(33, rules()).wrestle(better_seed, until={"SF", "C6", "5th", "1st"})
    weight.out = frozenset({"1"})
    weight.wrestle(better_seed)
    assert weight.place("1") == 6
    assert weight.points("1") == 3 + 6
    beaten = [part for part in weight.parts("4") if part.bout == BoutKey("SF", 1)]
    assert [(part.item, part.points, part.reason) for part in beaten] == [
        (Item.PLACEMENT, Decimal(6), "place"),
        (Item.ADVANCEMENT, Decimal(1), "win"),
        (Item.BONUS, Decimal(2), "medical forfeit"),
    ]
    # Published: one state's ruling, he does not place and the team loses the placement points.
    weight.vacating = frozenset({"1"})
    assert weight.place("1") is None
    assert weight.points("1") == 3


@pytest.mark.parametrize(("book", "points"), [("college-2025", -3), ("college-2013", -2)])
@pytest.mark.parametrize("scoring", [True, False])
def test_flagrant_misconduct(book: str, points: int, scoring: bool) -> None:
    # Association page: out, loses all he earned, 3 team points off (2 in older books).
    used = rules(book)
    weight = Weight(33, used, scorers={"1": Scorer("team 1", scoring)})
    weight.wrestle(better_seed, until={"1st"})
    thrown = Outcome(Kind.DISQUALIFICATION, 1, misconduct=True)
    weight.outcomes[BoutKey("1st", 1)] = thrown
    weight.out = weight.vacating = weight.removed = frozenset({"1"})
    assert weight.parts("1") == [
        Part("1", Item.MISCONDUCT, Decimal(points), None, None, "flagrant misconduct")
    ]
    assert weight.place("2") == 1
    assert weight.points("2") == 4 + 16 + 2


def test_a_ledger_explains_a_champion() -> None:
    weight = Weight(33, rules()).wrestle(by(FALL))
    assert [
        (str(part.item), str(part.points), str(part.bout), part.place, part.reason)
        for part in weight.parts("1")
        if part.bout and part.bout.round in {"QF", "SF", "1st"}
    ] == [
        ("placement", "6", "QF-1", 6, "running"),
        ("placement", "6", "SF-1", 2, "running"),
        ("placement", "4", "1st-1", 1, "place"),
        ("advancement", "1", "QF-1", None, "win"),
        ("bonus", "2", "QF-1", None, "fall"),
        ("advancement", "1", "SF-1", None, "win"),
        ("bonus", "2", "SF-1", None, "fall"),
        ("bonus", "2", "1st-1", None, "fall"),
    ]
