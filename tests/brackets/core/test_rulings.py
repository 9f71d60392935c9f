"""Rulings in the core: taken as given, whatever the format says."""

import pytest

from brackets.core.drafting import (
    Wanted,
    WantedAdvance,
    WantedPlace,
    WantedResult,
    WantedSides,
    draft,
)
from brackets.core.errors import NoSuchBout, RulingUnfit
from brackets.core.graph import BoutKey, Bracket
from brackets.core.progress import play
from brackets.core.replay import Choice
from brackets.core.rulings import (
    PlaceRuling,
    ResultRuling,
    Ruling,
    RulingKind,
    Rulings,
    Seating,
    SeatRuling,
    adrift,
    in_two,
    placed_twice,
)
from brackets.core.sources import Exit, From, Seat
from brackets.core.standing import Standing, Status, Vacancy, Verdict
from tests.brackets.core.books import bracket, rules
from tests.brackets.core.wrestled import by_seeds, replayed

SF1, FINAL = BoutKey("SF", 1), BoutKey("1st", 1)
EIGHT = bracket(8)
ALL = by_seeds(EIGHT, rules())
TOLD = {
    key: Verdict(0 if state.winner == state.sides[0] else 1)
    for key, state in ALL.bouts.items()
    if state.status is Status.DECIDED
}


def ruled(*rulings: Ruling, built: Bracket = EIGHT) -> Standing:
    return play(built, {}, rules(), rulings=rulings)


def quarterfinals() -> dict[BoutKey, Verdict]:
    return {key: one for key, one in TOLD.items() if key.round == "QF"}


def drafted(wanted: Wanted, given: dict[BoutKey, Verdict]) -> Ruling:
    def played(more: Rulings) -> Standing:
        return play(EIGHT, given, rules(), rulings=more)

    return draft(EIGHT, played, wanted)


def test_a_ruled_result_needs_no_verdict_and_overrules_one() -> None:
    key = BoutKey("QF", 1)
    top, bottom = ALL.bouts[key].sides
    one = ResultRuling(key, (str(top), str(bottom)), 1)
    for given in ({}, {key: Verdict(0)}):
        state = play(EIGHT, given, rules(), rulings=(one,)).bouts[key]
        assert (state.status, state.winner, state.ruled) == (Status.DECIDED, bottom, True)
    other = ResultRuling(key, (str(bottom), str(top)), 1)
    assert ruled(other).bouts[key].status is Status.READY


def test_nobody_wins_by_a_ruling() -> None:
    key = BoutKey("QF", 1)
    top, bottom = ALL.bouts[key].sides
    state = ruled(ResultRuling(key, (str(top), str(bottom)), None))
    assert state.bouts[key].winner is None
    assert state.bouts[SF1].sides[0] is Vacancy.EMPTY


def test_who_is_put_into_a_seat_stands_there_and_the_other_goes_nowhere() -> None:
    given = quarterfinals()
    before = play(EIGHT, given, rules())
    out = str(before.bouts[SF1].sides[0])
    lost = next(s.loser for s in before.bouts.values() if s.key == BoutKey("QF", 4))
    one = SeatRuling(SF1, (Seating(Seat(SF1, 0), lost),), whole=False)
    after = play(EIGHT, given, rules(), rulings=(one,))
    assert after.bouts[SF1].sides[0] == lost
    assert adrift(EIGHT, after) == (out,)
    assert set(in_two(EIGHT, after)) == {lost}


def test_exchanges_leave_nobody_adrift() -> None:
    given = quarterfinals()
    before = play(EIGHT, given, rules())
    four = {side for key in (SF1, BoutKey("SF", 2)) for side in before.bouts[key].sides}
    one, other = (str(before.bouts[key].sides[0]) for key in (SF1, BoutKey("SF", 2)))
    ruling = drafted(WantedSides(SF1, (other, one)), given)
    after = play(EIGHT, given, rules(), rulings=(ruling,))
    assert after.bouts[SF1].sides == (other, one)
    assert {side for key in (SF1, BoutKey("SF", 2)) for side in after.bouts[key].sides} == four
    assert not adrift(EIGHT, after)
    assert not in_two(EIGHT, after)


def test_nobody_comes_by_a_ruling() -> None:
    ruling = drafted(WantedAdvance(Seat(SF1, 1), None), quarterfinals())
    after = play(EIGHT, quarterfinals(), rules(), rulings=(ruling,))
    assert after.bouts[SF1].status is Status.BYE


def test_an_end_is_exchanged_with_its_place() -> None:
    fifth = ALL.places[5][0]
    second = ALL.bouts[FINAL].loser
    won = {key: one for key, one in TOLD.items() if key != FINAL}
    ruling = drafted(WantedAdvance(Seat(FINAL, 1), fifth), won)
    assert isinstance(ruling, SeatRuling)
    assert Seating(From(BoutKey("5th", 1), Exit.WINNER), ALL.bouts[FINAL].sides[1]) in [  # type: ignore[arg-type]
        *ruling.ways
    ]
    after = play(EIGHT, {**won, FINAL: Verdict(0)}, rules(), rulings=(ruling,))
    assert after.places[2] == (fifth,)
    assert after.places[5] == (ALL.bouts[FINAL].sides[1],)
    assert second


def test_places_as_ruled() -> None:
    first, second = ALL.places[1][0], ALL.places[2][0]
    changed = play(EIGHT, TOLD, rules(), rulings=(PlaceRuling({second: 1, first: 2}, False),))
    assert (changed.places[1], changed.places[2]) == ((second,), (first,))
    assert (changed.guaranteed[second], sorted(changed.ruled)) == (1, sorted([first, second]))
    alone = (PlaceRuling({second: 1}, shared=False),)
    both = play(EIGHT, TOLD, rules(), rulings=alone)
    assert placed_twice(both, alone) == {1: (first, second)}
    assert not placed_twice(both, (PlaceRuling({second: 1}, shared=True),))
    none = play(EIGHT, TOLD, rules(), rulings=(PlaceRuling({first: None}, shared=False),))
    assert 1 not in none.places
    assert first not in none.guaranteed


def test_the_later_ruling_counts() -> None:
    one, other = ALL.places[1][0], ALL.places[3][0]
    twice = (PlaceRuling({one: 4}, shared=True), PlaceRuling({one: 5}, shared=True))
    after = play(EIGHT, TOLD, rules(), rulings=twice)
    assert one in after.places[5]
    assert one not in after.places[4]
    assert other in after.places[3]


def test_a_place_is_ruled_with_what_it_takes() -> None:
    third, fifth = ALL.places[3][0], ALL.places[5][0]
    found = drafted(WantedPlace(fifth, 3, shared=False), TOLD)
    assert found == PlaceRuling({fifth: 3, third: 5}, shared=False)
    assert drafted(WantedPlace(fifth, 3, shared=True), TOLD) == PlaceRuling({fifth: 3}, shared=True)


POOL = bracket(4, 8, rules())


@pytest.mark.parametrize(
    ("wanted", "problem"),
    [
        (WantedPlace("1", 9, shared=False), "places 1 to 8, no place 9"),
        (WantedPlace("99", 1, shared=False), "99 is not drawn"),
        (WantedSides(SF1, ("1", "1")), "would be the same"),
        (WantedAdvance(Seat(SF1, 0), "99"), "99 is not drawn"),
        (WantedSides(FINAL, tuple(ALL.bouts[FINAL].sides)), "it is so already"),  # type: ignore[arg-type]
    ],
)
def test_what_is_unfit_is_refused(wanted: Wanted, problem: str) -> None:
    with pytest.raises(RulingUnfit) as refusal:
        drafted(wanted, TOLD)
    assert problem in str(refusal.value)


def test_what_is_not_there_is_refused() -> None:
    with pytest.raises(NoSuchBout):
        drafted(WantedResult(BoutKey("R9", 1), 0), TOLD)
    with pytest.raises(RulingUnfit, match="has not both its wrestlers"):
        drafted(WantedResult(FINAL, 0), {})
    with pytest.raises(RulingUnfit, match="places can be ruled when all are decided"):
        drafted(WantedPlace("1", 1, shared=False), {})
    pool = POOL
    with pytest.raises(RulingUnfit, match="everyone meets everyone"):
        draft(
            pool,
            lambda more: play(pool, {}, rules(), rulings=more),
            WantedSides(BoutKey("RR1", 1), ("1", "2")),
        )


@pytest.mark.parametrize("choice", list(Choice))
def test_a_correction_three_rounds_back(choice: Choice) -> None:
    """The quarterfinal goes to the other; every bout behind it as chosen."""
    key = BoutKey("QF", 1)
    met = {one: state.sides for one, state in ALL.bouts.items()}
    given = {**TOLD, key: Verdict(1 if TOLD[key].winner == 0 else 0)}
    asked = replayed(EIGHT, given, met, rules())
    assert SF1 in asked.lost
    choices: dict[BoutKey, Choice] = {}
    found = asked
    while found.lost:
        choices[found.lost[0]] = Choice.VOID if found.lost[0] in choices else choice
        found = replayed(EIGHT, given, met, rules(), choices=choices)
    assert not found.lost
    if choice is Choice.STANDS:
        assert found.standing.places == ALL.places
        assert not found.void
    elif choice is Choice.VOID:
        assert not found.made
        assert set(found.void) == set(asked.lost)
    else:
        assert found.void
        for one in found.chosen:
            if found.chosen[one] is Choice.AGAIN:
                assert found.standing.bouts[one].sides == met[one]


def test_a_bout_that_is_not_needed_any_more_may_stand() -> None:
    three = rules(of_two="best-of-three")
    built = bracket(2, 8, three)
    keys = [BoutKey(f"RR{n}", 1) for n in (1, 2, 3)]
    given = dict(zip(keys, (Verdict(0), Verdict(0), Verdict(1)), strict=True))
    met = dict.fromkeys(keys, ("1", "2"))
    assert replayed(built, given, met, three).lost == (keys[2],)
    found = replayed(built, given, met, three, choices={keys[2]: Choice.STANDS})
    assert found.standing.bouts[keys[2]].winner == "2"
    assert found.made == (SeatRuling(keys[2], (), whole=True),)


def test_a_ruling_on_a_seat_of_a_pool_says_nothing() -> None:
    one = SeatRuling(BoutKey("RR1", 1), (Seating(Seat(BoutKey("RR1", 1), 0), "3"),), whole=True)
    assert ruled(one, built=POOL) == ruled(built=POOL)


def test_what_is_ruled_of_bouts_that_are_not_there_is_left_out() -> None:
    one = SeatRuling(BoutKey("2nd", 1), (Seating(Seat(BoutKey("2nd", 1), 0), "3"),), whole=False)
    assert ruled(one) == ruled()


def test_every_ruling_says_its_kind() -> None:
    every: list[Ruling] = [
        SeatRuling(SF1, (), whole=True),
        ResultRuling(SF1, ("1", "4"), 0),
        SeatRuling(SF1, (), whole=False),
        PlaceRuling({"1": 1}, shared=False),
    ]
    assert [one.kind for one in every] == list(RulingKind)


def test_who_went_out_in_a_bout_that_nobody_won_has_no_seat_to_leave() -> None:
    given = {**quarterfinals(), BoutKey("QF", 4): Verdict(None)}
    before = play(EIGHT, given, rules())
    gone = str(before.bouts[BoutKey("QF", 4)].sides[0])
    ruling = drafted(WantedAdvance(Seat(SF1, 0), gone), given)
    assert isinstance(ruling, SeatRuling)
    assert ruling.ways == (Seating(Seat(SF1, 0), gone),)


def test_who_has_stood_nowhere_has_no_seat_to_leave() -> None:
    """In a pool nobody has a seat of his own; the semifinals follow from the ranks."""
    pools = rules(two_pools=[6, 7])
    built = bracket(6, 8, pools)

    def played(more: Rulings) -> Standing:
        return play(built, {}, pools, rulings=more)

    ruling = draft(built, played, WantedAdvance(Seat(SF1, 0), "3"))
    assert isinstance(ruling, SeatRuling)
    assert ruling.ways == (Seating(Seat(SF1, 0), "3"),)
    after = played((ruling,))
    assert after.bouts[SF1].sides == ("3", Vacancy.OPEN)
    assert set(in_two(built, after)) == {"3"}


def test_a_winner_is_ruled_between_the_two_who_are_there() -> None:
    top, bottom = ALL.bouts[FINAL].sides
    found = drafted(WantedResult(FINAL, 1), TOLD)
    assert found == ResultRuling(FINAL, (str(top), str(bottom)), 1)


def test_nobody_is_adrift_without_a_ruling() -> None:
    assert adrift(EIGHT, ALL) == ()


def test_who_leaves_behind_the_pools_keeps_the_forfeits_that_he_was_given_there() -> None:
    pools = rules(two_pools=[6, 7])
    built = bracket(6, 8, pools)
    order = [["1"], ["4"], ["5"], ["2"], ["3"], ["6"]]
    first = built.pools[0]
    given = {
        key: Verdict(0)
        for pool in built.pools
        for key in pool.bouts
        if not {"1", "5"} <= set(play(built, {}, pools).bouts[key].sides)
    }
    out = {"5": None, "1": SF1}
    after = play(built, given, pools, out=out, pool_order=order)
    forfeits = [after.bouts[key] for key in first.bouts if key not in given]
    assert [(one.implied, one.winner) for one in forfeits] == [(True, "1")]
