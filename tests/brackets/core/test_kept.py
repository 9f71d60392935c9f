"""Rulings and the ways that led there: who keeps his bout, who leaves another."""

import pytest

from brackets.core.drafting import WantedAdvance, draft
from brackets.core.errors import RulingUnfit
from brackets.core.graph import BoutKey
from brackets.core.progress import play
from brackets.core.replay import Choice
from brackets.core.rulings import Rulings, Seating, SeatRuling
from brackets.core.sources import Exit, From, Seat
from brackets.core.standing import Standing, Status, Vacancy, Verdict, to_wrestle
from tests.brackets.core.books import bracket, rules
from tests.brackets.core.wrestled import NOBODY, by_seeds, replayed, sides, told

EIGHT = bracket(8)
QF1, QF2, SF1 = BoutKey("QF", 1), BoutKey("QF", 2), BoutKey("SF", 1)


@pytest.mark.parametrize("choice", [Choice.STANDS, Choice.AGAIN])
def test_a_bout_that_keeps_its_two_has_both_by_the_ruling(choice: Choice) -> None:
    """1 against 4, who won by forfeit; 8 beat 1 by a correction, then 4 was never there either."""
    gone = {"5": None}
    met = play(EIGHT, {QF1: Verdict(0), SF1: Verdict(0)}, rules(), out=gone)
    assert sides(met, "SF-1") == ["1", "4"]
    given = {QF1: Verdict(1), QF2: Verdict(1), SF1: Verdict(0)}
    told = by_seeds(EIGHT, rules(), "QF", "SF")
    found = replayed(
        EIGHT, given, {key: told.bouts[key].sides for key in given}, rules(), choices={SF1: choice}
    )
    assert found.without(SF1).sides == ("8", "4")
    assert found.without(QF1) == found.standing.bouts[QF1]
    (made,) = found.made
    assert {Seat(SF1, 0), Seat(SF1, 1)} <= {one.way for one in made.ways}
    left = {QF1: Verdict(1)} | ({SF1: Verdict(0)} if choice is Choice.STANDS else {})
    after = play(EIGHT, left, rules(), out={"5": None, "4": None}, rulings=found.made)
    assert after.bouts[QF2].winner is None
    assert sides(after, "SF-1") == ["1", "4"]
    assert after.bouts[SF1].status is Status.DECIDED


def test_who_waits_for_the_man_who_beat_him_leaves_that_way_when_ruled_to_another() -> None:
    """16 lost to 1, who may still bring him back; he is ruled to another bout, and stays there."""
    used = rules(wrestleback="quarterfinal-winners")
    built = bracket(16, 8, used)
    first = told(by_seeds(built, used, "R1"))
    met = play(built, first, used)
    back = [key for key in built.sources if key.round == "C1"]
    there = Seat(back[-1], 0)
    assert met.bouts[there.bout].sides[0] is Vacancy.OPEN

    def played(more: Rulings) -> Standing:
        return play(built, first, used, rulings=more)

    ruling = draft(built, played, WantedAdvance(there, "16"))
    later = told(by_seeds(built, used, "R1", "QF"))
    stands = [
        {key for key, state in after.bouts.items() if key.round == "C1" and "16" in state.sides}
        for after in (play(built, later, used), play(built, later, used, rulings=(ruling,)))
    ]
    assert stands == [{back[0]}, {there.bout}]


def test_nobody_is_given_a_bout_before_one_that_he_has_wrestled() -> None:
    """1 had a bye, has his semifinal by a ruling and won it; now 7 is ruled into the bye."""
    built = bracket(7, 6)
    seat = SeatRuling(SF1, (Seating(Seat(SF1, 0), "1"),), whole=False)
    results = told(by_seeds(built, rules(), "QF")) | {SF1: Verdict(0)}

    def played(more: Rulings) -> Standing:
        return play(built, results, rules(), rulings=(seat, *more))

    with pytest.raises(RulingUnfit, match=r"1 has wrestled bout SF-1, which .* bout QF-1") as unfit:
        draft(built, played, WantedAdvance(Seat(QF1, 1), "7"))
    people = {"1": "Ives Knoll", SF1: 5, QF1: 1}
    said = str(unfit.value.called(lambda one: str(people[one])))
    assert "Ives Knoll has wrestled bout 5, which comes after bout 1; undo the result of 5" in said


def test_who_lost_in_a_round_can_be_given_another_bout_of_it() -> None:
    built = bracket(7, 6)
    lost = {BoutKey("QF", 4): Verdict(1)}

    def played(more: Rulings) -> Standing:
        return play(built, lost, rules(), rulings=more)

    ruling = draft(built, played, WantedAdvance(Seat(QF1, 1), "7"))
    after = played((ruling,))
    assert sides(after, "QF-1") == ["1", "7"]
    left = play(built, lost, rules(), out={"7": after.behind("7")}, rulings=(ruling,))
    assert left.bouts[QF1].winner == "1"


def test_whom_the_leader_beat_counts_also_where_a_ruling_gave_him_a_bye_beside() -> None:
    """4 beat 5, and has the quarterfinal above as a bye by a ruling; then he is a finalist."""
    used = rules(wrestleback="finalists", thirds="two")
    built = bracket(8, 6, used)
    seats = (Seating(Seat(QF1, 0), "4"), Seating(Seat(QF1, 1), None))
    alone = SeatRuling(QF1, seats, whole=True)
    won = told(by_seeds(built, used, "QF"))
    results = {key: one for key, one in won.items() if key != QF1}
    after = play(built, results, used, rulings=(alone,))
    assert (after.bouts[QF1].winner, after.bouts[SF1].winner) == ("4", "4")
    assert "5" in sides(after, "3rd-1")


@pytest.mark.parametrize(
    ("status", "planned", "counts"),
    [
        (Status.WAITING, True, True),
        (Status.WAITING, False, False),
        (Status.READY, False, True),
        (Status.DECIDED, False, True),
        (Status.BYE, True, False),
        (Status.VACANT, True, False),
        (Status.SPARED, True, False),
    ],
)
def test_what_counts_as_a_bout(status: Status, *, planned: bool, counts: bool) -> None:
    assert to_wrestle(status, planned=planned) is counts


def test_whose_seat_a_ruling_gave_to_another_has_no_line_of_the_bout_that_it_leads_to() -> None:
    """Nobody won 1 against 8; 6 was ruled into the semifinal, which nobody else comes to.

    While nobody may win 4 against 5 either, 5 may still have that line.
    """
    used = rules(double_loss="drop")
    seats = (Seating(Seat(SF1, 0), "6"), Seating(Seat(SF1, 1), None))
    lines = [
        sides(play(EIGHT, {QF1: Verdict(None)} | more, used, rulings=rulings), "C2-2")[1]
        for more in ({}, {QF2: Verdict(0)})
        for rulings in (
            (SeatRuling(SF1, seats[1:], whole=False),),
            (SeatRuling(SF1, seats, whole=True),),
        )
    ]
    assert lines == ["8", "open", "8", "empty"]


def test_nobody_ever_comes_to_a_second_final_that_a_ruling_empties() -> None:
    """The first final will be a bye: it has no loser either."""
    used = rules(wrestleback="double-elimination", double_loss="drop")
    built = bracket(8, 8, used)
    semifinals = dict.fromkeys((BoutKey("SF", 1), BoutKey("SF", 2)), Verdict(None))
    top = Seating(Seat(BoutKey("1st2", 1), 0), None)
    ruled = (SeatRuling(BoutKey("1st2", 1), (top,), whole=False),)
    given = told(by_seeds(built, used, "QF")) | semifinals
    after = play(built, given, used, rulings=ruled)
    assert after.bouts[BoutKey("1st", 1)].status is Status.WAITING
    assert sides(after, "1st2-1") == ["empty", "empty"]
    assert after.bouts[BoutKey("1st2", 1)].status is Status.VACANT


def test_of_two_ways_that_are_as_bad_one_whose_opponents_are_known_is_enough() -> None:
    """4 would have lost to 3 and to the loser of the bout for 3rd, or to 6 and to 3: 5th each way.

    Nobody won QF-2, and 5, who was in it, is ruled into the bout to which it leads at last.
    """
    used = rules(true_places=[2, 4, 6])
    built = bracket(7, 8, used)
    top = Seating(Seat(BoutKey("C2", 1), 0), "5")
    ruled = (SeatRuling(BoutKey("C2", 1), (top,), whole=False),)
    given: dict[BoutKey, Verdict] = {QF2: Verdict(None), BoutKey("SF", 2): Verdict(1)}
    given |= dict.fromkeys((BoutKey("QF", 3), BoutKey("QF", 4)), Verdict(0))
    given |= {BoutKey("C1", 2): Verdict(0), BoutKey("C2", 1): Verdict(0)}
    after = play(built, given, used, rulings=ruled)
    assert sides(after, "C2-1") == ["5", "3"]
    assert sides(after, "4th-1") == ["open", "3"]
    assert after.places[5] == ("4",)


def test_in_a_bye_of_the_draw_that_a_ruling_fills_a_finalist_may_beat_somebody() -> None:
    """4 is ruled into the bye of 1: whoever of them comes to the final, the other wrestles back."""
    used = rules(wrestleback="finalists", thirds="wrestled")
    built = bracket(7, 6, used)
    fourth = SeatRuling(QF1, (Seating(Seat(QF1, 1), "4"),), whole=False)
    chain = [
        sides(play(built, {QF2: NOBODY}, used, rulings=rulings), "C1-1")
        for rulings in ((), (fourth,))
    ]
    assert chain == [["empty", "empty"], ["open", "empty"]]


def test_no_place_is_certain_behind_a_seat_that_is_ruled_though_it_is_ones_own() -> None:
    """3 lost a later bout, which he keeps, and has one to wrestle that leads to his seat in it."""
    used = rules(wrestleback="double-elimination")
    built = bracket(8, 8, used)
    kept, end = BoutKey("C3", 1), BoutKey("7th", 1)
    given = told(by_seeds(built, used, "QF", "SF", "C1")) | {BoutKey("C2", 2): Verdict(1)}
    both = (Seating(Seat(kept, 0), "3"), Seating(Seat(kept, 1), "4"))
    bye = (Seating(Seat(end, 0), None), Seating(Seat(end, 1), "3"))
    ends = (Seating(From(end, Exit.WINNER), "7"),)
    rulings = (SeatRuling(kept, both, whole=True), SeatRuling(end, bye + ends, whole=True))
    assert play(built, given, used).guaranteed["3"] == 6
    after = play(built, given | {kept: Verdict(1)}, used, rulings=rulings)
    assert sides(after, "C2-1") == ["5", "3"]
    assert "3" not in after.guaranteed


def test_a_leader_has_beaten_nobody_where_he_is_himself_taken_for_the_loser() -> None:
    """8 beat 1, who has the semifinal by a ruling; nobody won the quarterfinal of 4."""
    used = rules(wrestleback="finalists", thirds="two")
    built = bracket(8, 6, used)
    both = (Seating(Seat(SF1, 0), "1"), Seating(Seat(SF1, 1), "4"))
    after = play(
        built,
        {QF1: Verdict(1), QF2: NOBODY},
        used,
        rulings=(SeatRuling(SF1, both, whole=True),),
    )
    assert after.bouts[SF1].status is Status.READY
    assert sides(after, "3rd-1") == ["empty", "open"]


def test_a_line_waits_for_no_bout_of_one_who_is_out_already() -> None:
    """1 left after his first bout: QF-1 cannot be lost by both, so QF-2 has its claim at once."""
    used = rules(double_loss="drop")
    built = bracket(16, 8, used)
    first = told(by_seeds(built, used, "R1"))
    first = {key: one for key, one in first.items() if key != BoutKey("R1", 2)}
    given = first | {QF2: NOBODY}
    there = [play(built, given, used, out=out) for out in ({}, {"1": BoutKey("R1", 1)})]
    bottom = there[0].bouts[QF2].sides[1]
    lines = [{sides(one, key)[1] for key in ("C4-1", "C4-2")} for one in there]
    assert lines == [{"open"}, {bottom, "open"}]


def test_a_bye_of_a_chain_is_the_draws_though_its_leader_is_not_known_yet() -> None:
    """9 entrants: but for 8 and 9 everybody had a bye, whoever wins his quarterfinal."""
    used = rules(wrestleback="follow-the-leader", pigtails_up_to=0)
    built = bracket(9, 8, used)
    after = play(built, {BoutKey("R1", 2): Verdict(0), QF1: Verdict(0)}, used)
    byes = [one for one in after.bouts.values() if one.winner == "9" and one.key.round == "C1"]
    assert [(one.status, one.drawn) for one in byes] == [(Status.BYE, True)]


def test_a_chain_does_not_wait_for_a_bout_of_which_nobody_is_taken_for_the_loser() -> None:
    """1 is in the final by a ruling, and so is that nobody goes on as the loser of his first."""
    used = rules(wrestleback="finalists", thirds="two")
    built = bracket(8, 6, used)
    final = BoutKey("1st", 1)
    seats = (Seating(Seat(final, 0), "1"), Seating(From(QF1, Exit.LOSER), None))
    chains = [
        sides(play(built, {}, used, rulings=(SeatRuling(final, ways, whole=False),)), "3rd-1")[0]
        for ways in (seats[:1], seats)
    ]
    assert chains == ["open", "empty"]


def test_whom_rulings_bring_to_both_sides_cannot_lose_there() -> None:
    """A second final that would be a bye, while it is open whether it is needed."""
    used = rules(wrestleback="double-elimination")
    built = bracket(8, 8, used)
    final = BoutKey("1st2", 1)
    both = tuple(Seating(Seat(final, slot), "5") for slot in (0, 1))
    after = play(built, {}, used, rulings=(SeatRuling(final, both, whole=False),))
    assert sides(after, "1st2-1") == ["5", "empty"]
    assert after.guaranteed["5"] == 1


def test_who_is_out_of_turn_already_hinders_no_other_ruling() -> None:
    """A correction left 1 an open quarterfinal before the semifinal that he has won."""
    last = BoutKey("QF", 4)
    early = SeatRuling(last, (Seating(Seat(last, 1), "1"),), whole=False)
    won = told(by_seeds(EIGHT, rules(), "QF", "SF"))
    given = {key: won[key] for key in (QF1, QF2, SF1)}

    def played(more: Rulings) -> Standing:
        return play(EIGHT, given, rules(), rulings=(early, *more))

    line = Seat(BoutKey("C1", 2), 0)
    found = draft(EIGHT, played, WantedAdvance(line, "8"))
    assert isinstance(found, SeatRuling)
    assert Seating(line, "8") in found.ways
