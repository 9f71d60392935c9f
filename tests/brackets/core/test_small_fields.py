"""Two, six and seven entrants, and small fields on eight lines."""

from random import Random

import pytest
from hypothesis import given as tried
from hypothesis import strategies as st

from brackets.core.errors import BoutNotReady, PoolOrderInvalid
from brackets.core.formats import Shape, shape
from brackets.core.graph import BoutKey, Format
from brackets.core.numbering import number
from brackets.core.progress import Standing, Status, Verdict, play
from brackets.core.sources import Section
from tests.brackets.core.books import bracket, rules
from tests.brackets.core.wrestled import replayed, sides, status

THREE = rules(of_two="best-of-three")
POOLS = rules(two_pools=[6, 7])
ORDER = [["1"], ["4"], ["5"], ["2"], ["3"], ["6"]]


def verdicts(**given: int | None) -> dict[BoutKey, Verdict]:
    return {
        BoutKey.parse(key.replace("_", "-")): Verdict(None if side is None else 1 if side else 0)
        for key, side in given.items()
    }


def three(**given: int | None) -> Standing:
    return play(bracket(2, 8, THREE), verdicts(**given), THREE, pool_order=[["1"], ["2"]])


@pytest.mark.parametrize(
    ("entrants", "changes", "expected"),
    [
        (2, {"of_two": "best-of-three"}, Shape(Format.BEST_OF_THREE, 2)),
        (3, {"of_two": "best-of-three"}, Shape(Format.ROUND_ROBIN, 3)),
        (6, {"two_pools": [6, 7]}, Shape(Format.TWO_POOLS, 6)),
        (6, {"two_pools": [7]}, Shape(Format.ELIMINATION, 8)),
        (7, {"two_pools": [7]}, Shape(Format.TWO_POOLS, 7)),
        (2, {"always_lines": 8, "of_two": "best-of-three"}, Shape(Format.ELIMINATION, 8)),
        (5, {"always_lines": 8}, Shape(Format.ELIMINATION, 8)),
        (7, {"always_lines": 8, "two_pools": [7]}, Shape(Format.ELIMINATION, 8)),
    ],
)
def test_shapes(entrants: int, changes: dict[str, object], expected: Shape) -> None:
    assert shape(entrants, rules(**changes)) == expected


def test_a_third_bout_only_while_neither_has_won_two() -> None:
    assert status(three(), "RR3-1") is Status.WAITING
    assert status(three(RR1_1=0), "RR3-1") is Status.WAITING
    assert status(three(RR1_1=0, RR2_1=0), "RR3-1") is Status.SPARED
    assert status(three(RR1_1=0, RR2_1=1), "RR3-1") is Status.READY
    assert status(three(RR1_1=0, RR2_1=None), "RR3-1") is Status.READY
    assert three(RR1_1=0, RR2_1=0).places == {1: ("1",), 2: ("2",)}
    assert three(RR1_1=0).places == {}
    assert three(RR1_1=0, RR2_1=1).guaranteed == {"1": 2, "2": 2}
    with pytest.raises(BoutNotReady) as caught:
        three(RR1_1=0, RR2_1=0, RR3_1=1)
    assert str(caught.value) == "Bout RR3-1 cannot have a result: it is not needed."


def test_a_bout_that_was_not_needed_is_behind_nobody() -> None:
    assert three(RR1_1=0, RR2_1=0).behind("1") == BoutKey("RR2", 1)
    assert three(RR1_1=0, RR2_1=1).behind("2") == BoutKey("RR2", 1)


def test_a_third_bout_that_was_wrestled_for_nothing_is_lost_when_the_second_is_corrected() -> None:
    built = bracket(2, 8, THREE)
    given = verdicts(RR1_1=0, RR2_1=1, RR3_1=1)
    met = dict.fromkeys(given, ("1", "2"))
    assert replayed(built, given, met, THREE).lost == ()
    assert replayed(built, given | verdicts(RR2_1=0), met, THREE).lost == (BoutKey("RR3", 1),)
    assert {str(key) for key in built.graph[BoutKey("RR1", 1)]} == {"RR3-1"}


@pytest.mark.parametrize(("entrants", "counts"), [(6, [9, 10, 11, 11]), (7, [12, 13, 14, 14])])
def test_number_of_bouts_of_two_pools(entrants: int, counts: list[int]) -> None:
    # calculated: within the pools 3 + 3 or 3 + 6, semifinals 2, one for each place wrestled for
    found = [len(bracket(entrants, places, POOLS).bouts) for places in (2, 4, 6, 8)]
    assert found == counts


def test_pools_are_dealt_by_rank() -> None:
    # association page, for a pool of ten: A = 1 4 5 8 10, B = 2 3 6 7 9
    for entrants, second in ((6, ("2", "3", "6")), (7, ("2", "3", "6", "7"))):
        built = bracket(entrants, 8, POOLS)
        assert [built.members(pool) for pool in built.pools] == [("1", "4", "5"), second]


def by_line(entrants: int, order: list[list[str]]) -> Standing:
    """Both pools by the lines, then all to come by the top side."""
    built = bracket(entrants, 8, POOLS)
    given: dict[BoutKey, Verdict] = {}
    while True:
        standing = play(built, given, POOLS, pool_order=order)
        ready = [key for key, state in standing.bouts.items() if state.status is Status.READY]
        if not ready:
            return standing
        given |= dict.fromkeys(ready, Verdict(0))


def test_crossed_semifinals() -> None:
    standing = by_line(6, ORDER)
    assert sides(standing, "SF-1") == ["1", "3"]
    assert sides(standing, "SF-2") == ["2", "4"]
    assert sides(standing, "5th-1") == ["5", "6"]
    assert list(standing.places.values()) == [("1",), ("2",), ("3",), ("4",), ("5",), ("6",)]


def test_of_seven_the_last_of_the_larger_pool_is_seventh() -> None:
    standing = by_line(7, [*ORDER, ["7"]])
    assert standing.places[7] == ("7",)


def test_semifinals_wait_for_both_pools_and_their_ranking() -> None:
    built = bracket(6, 8, POOLS)
    pool = dict.fromkeys([key for one in built.pools for key in one.bouts], Verdict(0))
    assert sides(play(built, pool, POOLS), "SF-1") == ["open", "open"]
    assert sides(play(built, pool, POOLS, pool_order=ORDER), "SF-1") == ["1", "3"]
    pool.pop(built.pools[0].bouts[0])
    assert sides(play(built, pool, POOLS, pool_order=ORDER), "SF-1") == ["open", "3"]


def test_of_those_who_are_level_the_better_line_goes_on_as_the_better() -> None:
    built = bracket(6, 8, POOLS)
    pool = dict.fromkeys([key for one in built.pools for key in one.bouts], Verdict(0))
    standing = play(built, pool, POOLS, pool_order=[["5", "4", "1"], ["6", "3", "2"]])
    assert sides(standing, "SF-1") == ["1", "3"]


def test_a_ranking_of_pools_ranks_everyone() -> None:
    built = bracket(6, 8, POOLS)
    with pytest.raises(PoolOrderInvalid):
        play(built, {}, POOLS, pool_order=ORDER[:-1])


def test_the_worst_place_in_a_pool() -> None:
    built = bracket(7, 8, POOLS)
    start = play(built, {}, POOLS)
    assert start.guaranteed == {
        **dict.fromkeys(["1", "4", "5"], 6),
        **dict.fromkeys(["2", "3", "6", "7"], 7),
    }
    nobody = play(built, verdicts(RR1_1=None), POOLS)
    assert nobody.guaranteed == start.guaranteed
    wins = {key: Verdict(0) for key in built.pools[1].bouts if key.round != "RR3"}
    assert play(built, wins, POOLS).guaranteed["2"] == 4


def test_a_pool_result_changes_who_meets_in_the_semifinals() -> None:
    built = bracket(6, 8, POOLS)
    given = dict.fromkeys([key for one in built.pools for key in one.bouts], Verdict(0))
    given |= verdicts(SF_1=0, SF_2=0)
    before = play(built, given, POOLS, pool_order=ORDER)
    met = {key: state.sides for key, state in before.bouts.items()}
    again = replayed(built, given, met, POOLS, pool_order=[["4"], ["1"], ["5"], *ORDER[3:]])
    assert again.lost == (BoutKey("SF", 1), BoutKey("SF", 2))
    assert BoutKey("SF", 2) in built.graph[BoutKey("RR1", 1)]


def test_pools_end_before_the_semifinals_of_the_others() -> None:
    # common sense, no source
    numbers = number([("six", bracket(6, 8, POOLS)), ("eight", bracket(8))])
    order = sorted(numbers, key=lambda bout: numbers[bout])
    codes = list(dict.fromkeys(f"{weight} {key.round}" for weight, key in order))
    assert codes == [
        *("six RR1", "six RR2", "eight QF", "six RR3", "six SF", "eight SF", "eight C1"),
        *("eight C2", "eight 7th", "six 5th", "eight 5th", "six 3rd", "eight 3rd"),
        *("six 1st", "eight 1st"),
    ]


def winners(standing: Standing) -> dict[str, str | None]:
    return {str(key): state.winner for key, state in standing.bouts.items()}


def test_who_leaves_after_his_last_pool_bout_keeps_the_forfeit_that_he_was_given() -> None:
    """2 left before they met, so the bout was won by 1 when he left behind his last one."""
    built = bracket(3)
    given = verdicts(RR2_1=0)
    over = play(built, given, rules(), out={"2": None})
    assert winners(over) == {"RR1-1": "3", "RR2-1": "1", "RR3-1": "1"}
    assert over.behind("1") == BoutKey("RR3", 1)
    after = play(built, given, rules(), out={"2": None, "1": over.behind("1")})
    assert winners(after) == winners(over)


def test_of_two_who_leave_during_a_pool_the_later_keeps_what_he_had_behind_him() -> None:
    """3 leaves before his first bout, then 2 after it: the bout 2-3 is won by 2, both lose the
    rest. Where the later one had it still before him nobody wins: 4 has not met 1 yet."""
    built = bracket(4)
    given = verdicts(RR1_1=0)
    first = play(built, given, rules(), out={"3": None})
    assert winners(first)["RR1-2"] == "2"
    two = play(built, given, rules(), out={"3": None, "2": first.behind("2")})
    assert winners(two) == {
        "RR1-1": "1",
        "RR1-2": "2",
        "RR2-1": "1",
        "RR2-2": "4",
        "RR3-1": "1",
        "RR3-2": "4",
    }
    before = play(built, {}, rules(), out={"3": None})
    assert winners(before)["RR3-2"] == "4"
    assert before.behind("4") is None
    both = play(built, {}, rules(), out={"3": None, "4": None})
    assert winners(both)["RR3-2"] is None


def test_out_of_order_only_what_stands_before_the_first_open_bout_is_behind_him() -> None:
    built = bracket(4)
    late = play(built, verdicts(RR3_1=1), rules())
    assert late.behind("1") is None
    gone = play(built, verdicts(RR3_1=1), rules(), out={"1": late.behind("1")})
    assert [winners(gone)[key] for key in ("RR1-1", "RR2-1", "RR3-1")] == ["4", "3", "2"]


def test_who_did_not_report_has_no_forfeit_behind_him() -> None:
    built = bracket(3)
    one = play(built, {}, rules(), out={"2": None})
    assert one.behind("3") == BoutKey("RR1", 1)
    assert one.behind("3", reported=False) is None
    both = play(built, {}, rules(), out={"2": None, "3": None})
    assert winners(both)["RR1-1"] is None
    wrestled = play(built, verdicts(RR2_1=1), rules(), out={"2": None})
    assert wrestled.behind("3", reported=False) == BoutKey("RR2", 1)


@tried(st.integers(3, 7), st.randoms(use_true_random=False))
def test_nobody_who_leaves_a_finished_pool_changes_a_bout_of_it(
    entrants: int, chance: Random
) -> None:
    """In whatever order its bouts are wrestled and however many leave, during it or behind it."""
    built = bracket(entrants, 8, POOLS)
    given: dict[BoutKey, Verdict] = {}
    out: dict[str, BoutKey | None] = {}
    entries = list(built.entries())
    (*pool,) = (key for key in built.bouts if built.round_of(key).section is Section.POOL)
    standing = play(built, given, POOLS, out=out)
    while ready := [key for key in pool if standing.bouts[key].status is Status.READY]:
        if chance.random() < 0.2 and (left := [one for one in entries if one not in out]):
            leaver = chance.choice(left)
            out[leaver] = standing.behind(leaver)
        else:
            given[chance.choice(ready)] = Verdict(chance.choice((0, 1)))
        standing = play(built, given, POOLS, out=out)
    over = [standing.bouts[key] for key in pool]
    for one in chance.sample(entries, entrants):
        out.setdefault(one, standing.behind(one))
        standing = play(built, given, POOLS, out=out)
        assert [standing.bouts[key] for key in pool] == over
