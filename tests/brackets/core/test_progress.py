"""Single situations, by hand. Entries are named by their seeds."""

import pytest

from brackets.core.errors import BoutNotReady, NoSuchBout
from brackets.core.graph import BoutKey
from brackets.core.progress import Status
from tests.brackets.core.books import book, bracket, rules
from tests.brackets.core.wrestled import after, by_seeds, sides, status


def test_by_the_seeds_everybody_is_placed_by_his_seed() -> None:
    standing = by_seeds(bracket(33, 8, book()), book())
    assert standing.places == {place: (str(place),) for place in range(1, 9)}


@pytest.mark.parametrize(
    ("rounds", "expected"),
    [
        (["P", "R1", "R2"], {}),
        (["P", "R1", "R2", "QF"], dict.fromkeys("1234", 6)),
        (["P", "R1", "R2", "QF", "SF"], {"1": 2, "2": 2, "3": 6, "4": 6}),
        (
            ["P", "R1", "R2", "CP", "C1", "QF", "C2", "C3", "SF", "C4"],
            {"1": 2, "2": 2, "3": 6, "4": 6, **dict.fromkeys("5678", 8)},
        ),
        (
            ["P", "R1", "R2", "CP", "C1", "QF", "C2", "C3", "SF", "C4", "C5"],
            {"1": 2, "2": 2, "3": 6, "4": 6, "5": 6, "6": 6, "7": 8, "8": 8},
        ),
        (
            ["P", "R1", "R2", "CP", "C1", "QF", "C2", "C3", "SF", "C4", "C5", "C6"],
            {"1": 2, "2": 2, "3": 4, "4": 4, "5": 6, "6": 6, "7": 8, "8": 8},
        ),
    ],
)
def test_the_lowest_place_that_can_still_happen(
    rounds: list[str], expected: dict[str, int]
) -> None:
    # association page and 30 published after-session scores: 8 places; a quarterfinal won is
    # 6th, the final reached 2nd, C4 won 8th, the consolation quarterfinal 6th, its semifinal 4th
    assert by_seeds(bracket(33, 8, book()), book(), *rounds).guaranteed == expected


@pytest.mark.parametrize(("places", "expected"), [(4, {}), (6, dict.fromkeys("1234", 6))])
def test_fewer_places_are_certain_later(places: int, expected: dict[str, int]) -> None:
    # calculated: to 4 places a semifinalist may still be fifth, which is no place there
    assert by_seeds(bracket(33, places), rules(), "P", "R1", "R2", "QF").guaranteed == expected


@pytest.mark.parametrize(
    ("key", "why"),
    [
        ("SF-1", "its wrestlers are not known yet; enter the bouts before it first"),
        ("R1-1", "it is a bye"),
        ("C1-2", "nobody comes to it"),
    ],
)
def test_a_result_for_a_bout_that_is_not_ready(key: str, why: str) -> None:
    with pytest.raises(BoutNotReady) as caught:
        after(bracket(11), {key: 0})
    assert str(caught.value) == f"Bout {key} cannot have a result: {why}."


def test_a_result_for_a_bout_that_is_not_there() -> None:
    with pytest.raises(NoSuchBout):
        after(bracket(8), {"R9-1": 0})


def test_a_bye_of_the_draw_is_told_from_one_that_a_double_loss_made() -> None:
    standing = after(bracket(7), {"QF-2": None})
    drawn = standing.bouts[BoutKey("QF", 1)]
    made = standing.bouts[BoutKey("SF", 1)]
    assert (drawn.status, drawn.winner, drawn.drawn) == (Status.BYE, "1", True)
    assert (made.status, made.winner, made.drawn) == (Status.BYE, "1", False)


def test_everyones_way() -> None:
    ways = by_seeds(bracket(8), rules(), "QF", "C1").walked()
    assert [str(state.key) for state in ways["5"]] == ["QF-2", "C1-1", "C2-1"]
    assert [state.winner for state in ways["5"]] == ["4", "5", None]


def test_double_loss_out() -> None:
    standing = after(bracket(8), {"QF-1": None})
    assert sides(standing, "SF-1") == ["empty", "open"]
    assert sides(standing, "C1-1") == ["empty", "open"]
    assert status(standing, "QF-1") is Status.DECIDED


def test_double_loss_drops_both_on_the_championship_side() -> None:
    built, used = bracket(16), rules(double_loss="drop")
    standing = after(built, {"R1-1": None}, used)
    assert sides(standing, "C1-1") == ["1", "open"]
    assert sides(standing, "C2-3") == ["open", "16"]
    assert sides(standing, "QF-1") == ["empty", "open"]
    assert status(after(built, {"R1-1": None, "R1-2": 0}, used), "QF-1") is Status.BYE


def test_the_upper_of_two_double_losses_has_the_line() -> None:
    built, used = bracket(16), rules(double_loss="drop")
    lower = after(built, {"R1-2": None}, used)
    assert sides(lower, "C2-3") == ["open", "open"]
    assert sides(after(built, {"R1-2": None, "R1-1": 0}, used), "C2-3") == ["open", "8"]
    both = after(built, {"R1-2": None, "R1-1": None}, used)
    assert sides(both, "C2-3") == ["open", "16"]
    assert sides(both, "C1-1") == ["1", "9"]
    assert status(both, "QF-1") is Status.VACANT
    assert not [state for state in both.walked()["8"] if state.key.round != "R1"]


def test_after_a_double_loss_in_the_semifinal_the_line_would_be_a_place() -> None:
    used = rules(double_loss="drop")
    standing = by_seeds(bracket(8), used, nobody=["SF-1"])
    assert sides(standing, "C2-2")[1] == "1"
    assert standing.guaranteed["4"] == 6


def test_a_pigtail_without_a_winner() -> None:
    used = rules(double_loss="drop")
    standing = after(bracket(9, 8, used), {"P-1": None}, used)
    assert sides(standing, "CP-1") == ["8", "open"]
    assert sides(standing, "C1-1") == ["9", "open"]
    assert status(standing, "QF-1") is Status.BYE


def test_no_double_loss_drops_on_the_consolation_side() -> None:
    standing = by_seeds(bracket(16), rules(double_loss="drop"), nobody=["C1-1"])
    assert status(standing, "C2-1") is Status.BYE


SEMIFINAL = {
    "open": {1: "2", 3: "3", 4: "5", 5: "6", 6: "14", 7: "7", 8: "8"},
    "shared": {1: "2", 3: "3", 4: "5", 5: "6", 6: "14", 7: "7", 8: "8"},
    "moved-up": {1: "2", 2: "3", 3: "5", 4: "6", 5: "14", 7: "7", 8: "8"},
}
FINAL = {
    "open": {2: "12", 3: "3", 4: "4"},
    "shared": {1: "12", 3: "3", 4: "4"},
    "moved-up": {1: "12", 3: "3", 4: "4"},
}


@pytest.mark.parametrize("open_place", ["open", "shared", "moved-up"])
@pytest.mark.parametrize(("bout", "expected"), [("SF-1", SEMIFINAL), ("1st-1", FINAL)])
def test_open_places(open_place: str, bout: str, expected: dict[str, dict[int, str]]) -> None:
    # common sense, no source: who is out by a double loss keeps the place that was certain
    used = rules(open_place=open_place)
    places = 8 if bout == "SF-1" else 4
    standing = by_seeds(bracket(16, places), used, nobody=[bout])
    found = {place: "".join(sorted(group)) for place, group in standing.places.items()}
    assert found == expected[open_place]


def test_a_place_kept_is_final_only_when_nothing_can_better_it() -> None:
    # calculated: to 6 places of 6; two without a winner leave room for the four to be 4th
    one = {"QF-2": 0, "QF-3": None}
    before = after(bracket(6, 6), one)
    assert (before.places, before.guaranteed["3"], before.guaranteed["6"]) == ({}, 5, 5)
    standing = after(bracket(6, 6), {**one, "SF-1": None})
    assert standing.places == {1: ("2",), 3: ("4",), 4: ("3", "6", "1", "5")}


def test_moved_up_places_wait_for_the_better_ones() -> None:
    used = rules(open_place="moved-up")
    standing = by_seeds(bracket(8), used, "QF", "SF", "C1", "C2", "7th", "5th", "3rd")
    assert standing.places == {}
    assert standing.guaranteed["3"] == 3


@pytest.mark.parametrize(
    ("open_place", "expected"),
    [
        ("open", {1: ("1",), 2: ("2",), 4: ("4",)}),
        ("moved-up", {1: ("1",), 2: ("2",), 3: ("4",)}),
    ],
)
def test_who_may_not_place(open_place: str, expected: dict[int, tuple[str, ...]]) -> None:
    standing = by_seeds(bracket(8, 4), rules(open_place=open_place), vacating=["3"])
    assert standing.places == expected
    assert "3" not in standing.guaranteed


def test_who_is_out_loses_as_soon_as_the_opponent_is_known() -> None:
    standing = after(bracket(8), {"QF-2": 0}, out={"1"})
    first, semifinal = (standing.bouts[BoutKey(code, 1)] for code in ("QF", "SF"))
    assert (first.winner, first.loser, first.implied) == ("8", "1", True)
    assert semifinal.sides == ("8", "5")
    consolation = standing.bouts[BoutKey("C1", 1)]
    assert (consolation.winner, consolation.implied) == ("4", True)


def test_a_verdict_counts_more_than_being_out() -> None:
    assert after(bracket(8), {"QF-1": 0}, out={"1"}).bouts[BoutKey("QF", 1)].winner == "1"


def test_when_both_are_out_nobody_wins() -> None:
    standing = after(bracket(8), {}, out={"1", "8"})
    first = standing.bouts[BoutKey("QF", 1)]
    assert (first.status, first.winner, first.implied) == (Status.DECIDED, None, True)


def test_who_leaves_later_keeps_the_forfeit_he_had() -> None:
    built = bracket(8)
    before = after(built, {"QF-2": 0}, out={"1": None})
    later = after(built, {"QF-2": 0}, out={"1": None, "8": before.behind("8")})
    assert later.bouts[BoutKey("QF", 1)].winner == "8"
    assert later.bouts[BoutKey("SF", 1)].winner == "5"


def test_a_semifinalist_who_leaves_keeps_the_place_that_was_certain() -> None:
    # college practice, read off published results: he keeps the place and its points
    semifinalists = by_seeds(bracket(16), rules(), "R1", "QF")
    out = {"1": semifinalists.behind("1")}
    standing = by_seeds(bracket(16), rules(), out=out)
    assert standing.places[6] == ("1",)


def test_seven_on_eight_lines_wrestle_no_bout_for_seventh() -> None:
    standing = by_seeds(bracket(7), rules())
    assert status(standing, "7th-1") is Status.BYE
    assert list(standing.places) == [1, 2, 3, 4, 5, 6, 7]


def test_who_has_wrestled_did_report_and_keeps_what_he_was_given() -> None:
    """4 left before his semifinal, so 1 has it behind him, also if he does not come to the next."""
    built = bracket(8)
    won = {f"QF-{number}": 0 for number in (1, 2, 3, 4)}
    quarters = after(built, won)
    other = str(quarters.bouts[BoutKey("SF", 1)].sides[1])
    given = after(built, won, out={other: quarters.behind(other)})
    assert sides(given, "SF-1") == ["1", other]
    assert given.behind("1", reported=False) == BoutKey("SF", 1)
    assert quarters.behind("1", reported=False) == BoutKey("QF", 1)
    assert after(built, {}).behind("1", reported=False) is None
