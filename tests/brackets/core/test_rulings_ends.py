"""Where a way ends by a ruling, and what rulings leave to chains and certain places."""

import pytest

from brackets.core.drafting import WantedAdvance, draft
from brackets.core.errors import RulingUnfit
from brackets.core.graph import BoutKey
from brackets.core.progress import play
from brackets.core.replay import Choice
from brackets.core.rulings import ResultRuling, Ruling, RulingKind, Seating, SeatRuling
from brackets.core.sources import Exit, From, Seat
from brackets.core.standing import Status, Vacancy, Verdict
from tests.brackets.core.books import bracket, rules
from tests.brackets.core.wrestled import by_seeds, replayed, sides, told

SF1 = BoutKey("SF", 1)
EIGHT = bracket(8)


TOLD = told(by_seeds(EIGHT, rules()))


def ending(code: str, entry: str) -> SeatRuling:
    return SeatRuling(SF1, (Seating(From(BoutKey(code, 1), Exit.LOSER), entry),), whole=False)


def test_an_end_by_a_ruling_goes_before_every_other_and_the_later_of_two() -> None:
    second, eighth = ending("1st", "1"), ending("7th", "1")
    for rulings, place in (((second,), 2), ((second, eighth), 8), ((eighth, second), 2)):
        after = play(EIGHT, TOLD, rules(), rulings=rulings)
        assert [one for one, group in after.places.items() if "1" in group] == [place]
        assert after.guaranteed["1"] == place


def test_who_has_two_ends_is_counted_once_where_places_move_up() -> None:
    after = play(EIGHT, TOLD, rules(open_place="moved-up"), rulings=(ending("1st", "1"),))
    assert after.places == {place: (one,) for place, one in enumerate("1345678", start=1)}


def test_whom_a_ruling_brings_to_both_sides_of_a_bout_has_a_bye() -> None:
    """1 waits in C2-2 by a ruling, loses his semifinal, and would come to its other side too."""
    won = told(by_seeds(EIGHT, rules(), "QF"))
    waits = BoutKey("C2", 2)
    seat = SeatRuling(waits, (Seating(Seat(waits, 0), "1"),), whole=False)
    after = play(EIGHT, {**won, SF1: Verdict(1)}, rules(), rulings=(seat,))
    assert sides(after, "C2-2") == ["1", "empty"]
    assert (after.bouts[waits].status, after.bouts[waits].winner) == (Status.BYE, "1")
    assert not after.bouts[waits].drawn


def test_a_bout_that_only_a_ruling_fills_is_lost_by_both_as_any_other() -> None:
    """1 had a bye and was ruled against 5; nobody won, so both drop."""
    used = rules(double_loss="drop")
    built = bracket(7, 6, used)
    first = BoutKey("QF", 1)
    seat = SeatRuling(first, (Seating(Seat(first, 1), "5"),), whole=False)
    before = play(built, {}, used, rulings=(seat,))
    assert sides(before, "QF-1") == ["1", "5"]
    after = play(built, {first: Verdict(None)}, used, rulings=(seat,))
    assert sides(after, "C1-1")[0] == "1"
    assert sides(after, "SF-1")[0] == "empty"
    assert after.bouts[BoutKey("C2", 2)].sides[1] is not Vacancy.EMPTY


def test_who_dropped_to_a_line_whose_seat_was_ruled_away_has_no_certain_place() -> None:
    """Nobody won 1 against 8, so 8 has the line of a semifinal's loser; 5 was ruled into it."""
    used = rules(double_loss="drop")
    lost = {BoutKey("QF", 1): Verdict(None)}
    line = BoutKey("C2", 2)
    seat = SeatRuling(line, (Seating(Seat(line, 1), "5"),), whole=False)
    before = play(EIGHT, lost, used)
    assert (sides(before, "C2-2")[1], before.guaranteed["8"]) == ("8", 6)
    after = play(EIGHT, lost, used, rulings=(seat,))
    assert sides(after, "C2-2")[1] == "5"
    assert after.guaranteed["1"] == 8
    assert "8" not in after.guaranteed


def test_who_has_a_bout_ahead_has_its_place_certain_whatever_he_lost_behind_it() -> None:
    """1 is in an open semifinal; a bout of the consolation, in which he was ruled, nobody won."""
    built = bracket(8, 6)
    won = told(by_seeds(built, rules(), "QF"))
    lost = BoutKey("C1", 1)
    seats = (Seating(Seat(lost, 0), "1"), Seating(Seat(lost, 1), "8"))
    ruling = SeatRuling(lost, seats, whole=True)
    after = play(built, {**won, lost: Verdict(None)}, rules(), rulings=(ruling,))
    assert (after.bouts[SF1].status, after.guaranteed["1"]) == (Status.READY, 5)
    assert "8" not in after.guaranteed


def test_nobody_comes_to_an_open_bout_before_one_that_he_has_wrestled() -> None:
    """1 won the first semifinal while a quarterfinal of the other half is open."""
    given = {key: TOLD[key] for key in TOLD if key.round == "QF" and key.position < 3}
    wanted = WantedAdvance(Seat(BoutKey("QF", 4), 1), "1")

    def drafted(told: dict[BoutKey, Verdict]) -> Ruling:
        return draft(EIGHT, lambda more: play(EIGHT, told, rules(), rulings=more), wanted)

    with pytest.raises(RulingUnfit, match="has wrestled bout SF-1, which comes after bout QF-4"):
        drafted({**given, SF1: TOLD[SF1]})
    assert drafted(given).kind is RulingKind.ADVANCEMENT


def test_who_is_out_keeps_what_was_certain_by_the_format() -> None:
    """1 and 8 could still have come 8th; that 2 was ruled into the bout for 7th changes nothing."""
    seventh = BoutKey("7th", 1)
    seat = SeatRuling(seventh, (Seating(Seat(seventh, 0), "2"),), whole=False)
    for rulings in ((), (seat,)):
        after = play(EIGHT, {BoutKey("QF", 1): Verdict(None)}, rules(), rulings=rulings)
        assert [after.guaranteed[one] for one in "18"] == [8, 8]


def test_a_second_final_to_which_nobody_comes_is_a_bye() -> None:
    used = rules(wrestleback="double-elimination")
    built = bracket(8, 4, used)
    second = BoutKey("1st2", 1)
    seat = SeatRuling(second, (Seating(Seat(second, 1), None),), whole=False)
    plain = by_seeds(built, used)
    given = {**told(plain), BoutKey("1st", 1): Verdict(1)}
    after = play(built, given, used, rulings=(seat,))
    assert after.bouts[second].status is Status.BYE
    assert after.bouts[second].winner == plain.bouts[BoutKey("1st", 1)].sides[1]
    early = {key: one for key, one in given.items() if key.round != "1st"}
    both = SeatRuling(second, (Seating(Seat(second, 0), "2"), *seat.ways), whole=False)
    assert play(built, early, used, rulings=(both,)).bouts[second].status is Status.WAITING


def test_a_bye_is_of_the_draw_where_the_draw_left_the_other_side_empty() -> None:
    """4 on 8 lines: both sides of C1-2 are empty by the draw, and 1 is ruled onto one."""
    used = rules(always_lines=8)
    built = bracket(4, 4, used)
    waits = BoutKey("C1", 2)
    seat = SeatRuling(waits, (Seating(Seat(waits, 0), "1"),), whole=False)
    state = play(built, {}, used, rulings=(seat,)).bouts[waits]
    assert (state.status, state.drawn) == (Status.BYE, True)
    first = BoutKey("QF", 1)
    nobody = SeatRuling(
        first, (Seating(Seat(first, 0), None), Seating(Seat(first, 1), "2")), whole=False
    )
    state = play(built, {}, used, rulings=(nobody,)).bouts[first]
    assert (state.status, state.drawn) == (Status.BYE, False)


def test_nothing_is_certain_on_a_way_whose_seat_a_ruling_gave_to_somebody_else() -> None:
    """5 is ruled into the final: who wins the first semifinal goes nowhere."""
    won = told(by_seeds(EIGHT, rules(), "QF"))
    final = BoutKey("1st", 1)
    seat = SeatRuling(final, (Seating(Seat(final, 0), "5"),), whole=False)
    after = play(EIGHT, won, rules(), rulings=(seat,))
    assert sides(after, "SF-1") == ["1", "4"]
    assert not {"1", "4"} & after.guaranteed.keys()
    assert [after.guaranteed[one] for one in "2356"] == [6, 6, 2, 8]
    decided = play(EIGHT, {**won, SF1: Verdict(1)}, rules(), rulings=(seat,))
    assert decided.guaranteed["1"] == 6
    assert "4" not in decided.guaranteed


@pytest.mark.parametrize(("leader", "first"), [("8", "9"), ("7", "empty")])
def test_a_leader_is_not_in_his_own_chain_and_beat_only_whom_he_met(
    leader: str, first: str
) -> None:
    """8 beat 9 and lost to 1; 7 came from the other half of the bracket."""
    used = rules(wrestleback="finalists", thirds="two")
    built = bracket(16, 6, used)
    won = told(by_seeds(built, used, "R1", "QF"))
    seat = SeatRuling(SF1, (Seating(Seat(SF1, 0), leader),), whole=False)
    after = play(built, {**won, SF1: Verdict(0)}, used, rulings=(seat,))
    assert sides(after, "SF-1") == [leader, "4"]
    assert sides(after, "C1-1") == [first, "empty"]
    assert sides(after, "3rd-1") == [first, "4"]


def test_whom_a_ruling_displaced_behind_a_pool_has_no_certain_place() -> None:
    pools = rules(two_pools=[6])
    built = bracket(6, 6, pools)
    given = {key: Verdict(0) for pool in built.pools for key in pool.bouts}
    order = [["1"], ["4"], ["5"], ["2"], ["3"], ["6"]]
    seat = SeatRuling(SF1, (Seating(Seat(SF1, 1), "5"),), whole=False)
    after = play(built, given, pools, pool_order=order, rulings=(seat,))
    assert sides(after, "SF-1") == ["1", "5"]
    assert "3" not in after.guaranteed
    assert after.guaranteed["2"] == 4


def test_who_is_ruled_out_of_the_ranks_of_a_pool_has_not_their_place() -> None:
    pools = rules(two_pools=[7])
    built = bracket(7, 8, pools)
    given = {key: Verdict(0) for pool in built.pools for key in pool.bouts}
    order = [[one] for one in "1452367"]
    assert play(built, given, pools, pool_order=order).places[7] == ("7",)
    seat = SeatRuling(SF1, (Seating(Seat(SF1, 1), "7"),), whole=False)
    after = play(built, given, pools, pool_order=order, rulings=(seat,))
    assert sides(after, "SF-1") == ["1", "7"]
    assert 7 not in after.places
    assert after.guaranteed["7"] == 4


def test_who_dropped_and_was_displaced_has_no_place_of_the_bout_that_nobody_won() -> None:
    used = rules(wrestleback="finalists", thirds="two", double_loss="drop")
    built = bracket(8, 6, used)
    given = {**told(by_seeds(built, used, "QF")), SF1: Verdict(None)}
    third = BoutKey("3rd", 1)
    before = play(built, given, used)
    assert sides(before, "3rd-1") == ["empty", "1"]
    seat = SeatRuling(third, (Seating(Seat(third, 1), "4"),), whole=False)
    after = play(built, given, used, rulings=(seat,))
    assert sides(after, "3rd-1") == ["empty", "4"]
    assert "1" not in after.guaranteed
    assert after.places[3] == ("4",)


def test_a_chain_waits_by_the_draw_only_where_its_leader_was_spared_a_bout() -> None:
    """9 lost the pigtail and was ruled in: nobody beaten by him, but no bye of the draw."""
    used = rules(wrestleback="quarterfinal-winners", pigtails_up_to=1)
    built = bracket(9, 8, used)
    quarter, given = BoutKey("QF", 1), {BoutKey("P", 1): Verdict(0)}
    waits = {}
    for leader in ("1", "9"):
        seat = SeatRuling(quarter, (Seating(Seat(quarter, 0), leader),), whole=False)
        after = play(built, {**given, quarter: Verdict(0)}, used, rulings=(seat,))
        assert sides(after, "C1-1")[0] == "empty"
        waits[leader] = after.bouts[BoutKey("C1", 1)].drawn
    assert waits == {"1": True, "9": False}


def test_a_chain_waits_while_its_leader_stands_in_an_open_bout_of_the_round() -> None:
    """1 had a bye and is in the semifinal; now he is ruled into the bout beside, which is open."""
    used = rules(wrestleback="finalists", thirds="two")
    built = bracket(13, 6, used)
    beside, quarter = BoutKey("R1", 2), BoutKey("QF", 1)
    seats = (Seating(Seat(beside, 0), "1"), Seating(Seat(SF1, 0), "1"))
    seat = SeatRuling(beside, seats, whole=False)
    won = told(by_seeds(built, used, "R1", "QF")) | {SF1: Verdict(0)}
    given = {key: one for key, one in won.items() if key not in (beside, quarter)}
    after = play(built, given, used, rulings=(seat,))
    assert (after.bouts[beside].status, after.bouts[SF1].winner) == (Status.READY, "1")
    assert sides(after, "C1-1") == ["open", "open"]
    lost = play(built, {**given, beside: Verdict(1)}, used, rulings=(seat,))
    assert sides(lost, "C1-1")[0] == "empty"


def test_a_ruled_third_bout_keeps_its_result_when_a_correction_makes_it_needless() -> None:
    used = rules(of_two="best-of-three")
    built = bracket(2, 2, used)
    keys = [BoutKey(f"RR{number}", 1) for number in (1, 2, 3)]
    one, other = (str(side) for side in built.lines)
    ruling = ResultRuling(keys[2], (one, other), 0)
    for second in (0, 1):
        given = {keys[0]: Verdict(0), keys[1]: Verdict(second), keys[2]: Verdict(1)}
        after = play(built, given, used, rulings=(ruling,))
        assert (after.bouts[keys[2]].winner, after.bouts[keys[2]].ruled) == (one, True)


def test_a_bye_of_the_leader_counts_also_where_he_lost_another_bout_of_the_round() -> None:
    """1 had a bye, and was ruled into the bout beside, where 8 beat him: 8 waits by the draw."""
    used = rules(wrestleback="finalists", thirds="two")
    built = bracket(13, 6, used)
    beside, quarter, semi = BoutKey("R1", 2), BoutKey("QF", 1), SF1
    seat = SeatRuling(beside, (Seating(Seat(beside, 0), "1"),), whole=False)
    given = told(by_seeds(built, used, "R1")) | {beside: Verdict(1)}
    given |= {quarter: Verdict(0), BoutKey("QF", 2): Verdict(0), semi: Verdict(0)}
    after = play(built, given, used, rulings=(seat,))
    assert sides(after, "R1-2") == ["1", "8"]
    assert sides(after, "C1-1") == ["empty", "8"]
    assert after.bouts[BoutKey("C1", 1)].drawn


def test_a_final_that_wrestles_again_hands_the_leaders_their_chains_back() -> None:
    """The chains lost their bouts while the finalists stood the other way about."""
    used = rules(wrestleback="finalists")
    built = bracket(8, 3, used)
    played = by_seeds(built, used)
    final, third = BoutKey("1st", 1), BoutKey("3rd", 1)
    seats = tuple(Seating(Seat(final, slot), one) for slot, one in enumerate("21"))
    turned = (SeatRuling(final, seats, whole=True),)
    met = {key: state.sides for key, state in played.bouts.items()}
    given = told(played)
    assert (met[final], met[third]) == (("1", "2"), ("4", "3"))
    chains = (BoutKey("C1", 1), BoutKey("C1", 2))
    choices = dict.fromkeys(chains, Choice.VOID)
    asked = replayed(built, given, met, used, rulings=turned)
    assert asked.lost == (*chains, final)
    again = choices | {final: Choice.AGAIN}
    found = replayed(built, given, met, used, rulings=turned, choices=again)
    assert (found.lost, found.chosen) == ((), {final: Choice.AGAIN})
    assert found.standing.bouts[third].winner == "3"


def test_places_of_a_ruled_second_final_are_settled_while_the_first_is_open() -> None:
    """Both ways of the first final lead to seats that a ruling gave to others."""
    used = rules(wrestleback="double-elimination", open_place="moved-up")
    built = bracket(8, 8, used)
    first, second = BoutKey("1st", 1), BoutKey("1st2", 1)
    given = told(by_seeds(built, used))
    ways = tuple(Seating(Seat(second, slot), one) for slot, one in enumerate("87"))
    given = {key: one for key, one in given.items() if key not in (first, second)}
    ruled = (SeatRuling(second, ways, whole=True),)
    after = play(built, given | {second: Verdict(1)}, used, rulings=ruled)
    assert after.bouts[first].status is Status.READY
    assert (after.places[1], after.places[2]) == (("7",), ("8",))
