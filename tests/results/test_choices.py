"""Corrections over wrestled bouts: each stands, is void, or is wrestled again."""

from dataclasses import replace

import pytest

from brackets.core.replay import Choice
from brackets.core.sources import BoutKey
from brackets.models import Bout
from brackets.services.number import give_numbers
from results.core.errors import (
    InTwoBouts,
    LaterBoutsWrestled,
    NotAsSeen,
    ReasonMissing,
    RulingsStand,
)
from results.models import Result, Ruling, VoidBout, Withdrawal
from results.queries.consequences import NOTHING
from results.queries.out import look_at_return
from results.queries.preview import preview
from results.queries.rulings import look_at_taking_back
from results.queries.stranded import stranded
from results.services import correct_result, reinstate, take_back_draw, withdraw
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.journal.models import Act
from tests.results.championship import CALL, document, load, wrestle
from tests.results.overruled import (
    OTHER,
    REASON,
    at,
    chosen,
    comes_back,
    places,
    seeds,
    wrestled_through,
)
from tests.seeding.entries.desks import signed_in

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]


@pytest.fixture
def eight() -> Tournament:
    return wrestled_through()


def test_refused_until_chosen_and_the_bouts_are_named(eight: Tournament) -> None:
    with pytest.raises(LaterBoutsWrestled) as refusal:
        correct_result(call=CALL, bout=at("QF-1"), outcome=OTHER)
    number = at("SF-1").number
    assert refusal.value.where.split(", ")[0] in {f"{number}", f"{at('C1-1').number}"}
    assert str(number) in refusal.value.where


def test_three_rounds_back_everything_stands(eight: Tournament) -> None:
    """8 beat 1 in the quarterfinal, but 1 wrestled on: they change places in the bracket."""
    before, semi, numbers = (
        places(),
        seeds("SF-1"),
        {row.pk: row.number for row in Bout.objects.all()},
    )
    chosen("QF-1", OTHER, other=Choice.STANDS)
    assert Result.objects.get(bout=at("QF-1")).winner_side == 1
    assert seeds("SF-1") == semi
    assert places() == before
    assert not VoidBout.objects.exists()
    assert {row.pk: row.number for row in Bout.objects.all()} == numbers
    ruling = Ruling.objects.get()
    assert (ruling.kind, ruling.reason) == ("sides", REASON)
    comes_back(eight)


def test_three_rounds_back_everything_is_void(eight: Tournament) -> None:
    old = {key: at(key).number for key in ("SF-1", "1st-1", "C1-1")}
    met = seeds("SF-1")
    last = max(row.number or 0 for row in Bout.objects.all())
    chosen("QF-1", OTHER, other=Choice.VOID)
    assert seeds("SF-1") == [8, met[1]]
    assert at("SF-1").status == Bout.Status.READY
    assert at("1st-1").status == Bout.Status.WAITING
    void = {row.number: row for row in VoidBout.objects.all()}
    assert set(old.values()) <= set(void)
    assert (void[old["SF-1"]].top.seed, void[old["SF-1"]].bottom.seed) == (1, met[1])
    assert {at(key).number for key in old}.isdisjoint(old.values())
    assert min(at(key).number or 0 for key in old) > last
    assert not Ruling.objects.exists()
    comes_back(eight)


def test_three_rounds_back_the_semifinal_is_wrestled_again(eight: Tournament) -> None:
    was = {key: seeds(key) for key in ("SF-1", "C1-1")}
    chosen("QF-1", OTHER, SF=Choice.AGAIN, C1=Choice.AGAIN, other=Choice.VOID)
    assert {key: seeds(key) for key in was} == was
    again = VoidBout.objects.first()
    assert again
    assert again.bout.status == Bout.Status.READY
    assert again.bout.number != again.number
    assert Ruling.objects.filter(kind="sides").exists()
    comes_back(eight)


def test_choices_cascade(eight: Tournament) -> None:
    first = preview(at("QF-1"), OTHER)
    touched = {str(one.bout.key) for one in first.affected}
    assert {"SF-1", "C1-1"} <= touched
    after = preview(at("QF-1"), OTHER, {BoutKey("SF", 1): Choice.STANDS})
    assert {str(one.bout.key) for one in after.affected} == {"SF-1"}
    assert not after.wrestled
    assert after.mark != first.mark


def test_only_what_was_seen_is_done_and_with_a_reason(eight: Tournament) -> None:
    choices = {BoutKey("SF", 1): Choice.STANDS}
    seen = preview(at("QF-1"), OTHER, choices)
    for mark, reason, refusal in (("", "x", NotAsSeen), (seen.mark, " ", ReasonMissing)):
        with pytest.raises(refusal):
            correct_result(
                call=CALL, bout=at("QF-1"), outcome=OTHER, choices=choices, mark=mark, reason=reason
            )
    acts = Act.objects.count()
    correct_result(
        call=CALL, bout=at("QF-1"), outcome=OTHER, choices=choices, mark=seen.mark, reason="x"
    )
    assert Act.objects.count() == acts + 1


def test_nobody_stands_in_two_open_bouts(eight: Tournament) -> None:
    """1 cannot wrestle his quarterfinal again while his semifinal and so his final stand."""
    chosen("1st-1", None, other=Choice.STANDS)
    choices = {BoutKey("SF", 1): Choice.STANDS, BoutKey("C1", 1): Choice.VOID}
    seen = preview(at("QF-1"), None, choices)
    while seen.wrestled:
        choices[seen.wrestled[0].key] = Choice.VOID
        seen = preview(at("QF-1"), None, choices)
    assert [one.entry.seed for one in seen.clashes] == [1]
    with pytest.raises(InTwoBouts, match="Given1"):
        correct_result(
            call=CALL, bout=at("QF-1"), outcome=None, choices=choices, mark=seen.mark, reason="x"
        )


def test_numbers_of_void_bouts_are_never_given_again(eight: Tournament) -> None:
    chosen("QF-1", OTHER, other=Choice.VOID)
    gone = set(VoidBout.objects.values_list("number", flat=True))
    for row in list(Result.objects.order_by("-bout__column")):
        if not preview(row.bout, None).wrestled:
            correct_result(call=CALL, bout=row.bout, outcome=None)
    assert not Result.objects.exists()
    give_numbers(Tournament.objects.get())
    numbers = [row.number for row in Bout.objects.exclude(number=None)]
    assert gone.isdisjoint(numbers)
    assert len(numbers) == len(set(numbers))
    with pytest.raises(RulingsStand):
        take_back_draw(call=CALL, weight=WeightClass.objects.get())


def test_taking_back_what_keeps_a_wrestled_bout_asks_again(eight: Tournament) -> None:
    chosen("QF-1", OTHER, other=Choice.STANDS)
    seen = look_at_taking_back(Ruling.objects.get())
    assert {"SF-1", "C1-1"} <= {str(one.key) for one in seen.wrestled}


@pytest.fixture
def gone() -> Tournament:
    """1 is out before his semifinal against 5; 5 has wrestled the final against 3, and won it."""
    tournament = load(document(entries=8))
    for number in (1, 2, 3, 4, 6):
        wrestle(Bout.objects.select_related("drawn__weight_class__division").get(number=number), 0)
    withdraw(call=CALL, entry=Entry.objects.get(seed=1), kind="injury")
    wrestle(at("1st-1"), 0)
    return tournament


@pytest.mark.parametrize("choice", [Choice.STANDS, Choice.VOID])
def test_who_comes_back_finds_a_choice_for_each_bout_in_his_place(
    gone: Tournament, choice: Choice
) -> None:
    entry, number = Entry.objects.get(seed=1), at("1st-1").number
    assert seeds("1st-1") == [5, 3]
    assert [str(one.bout.key) for one in look_at_return(entry).affected] == ["1st-1"]
    choices = {BoutKey("1st", 1): choice}
    seen = look_at_return(entry, choices)
    for mark, reason, refusal in (("", "x", NotAsSeen), (seen.mark, " ", ReasonMissing)):
        with pytest.raises(refusal):
            reinstate(call=CALL, entry=entry, choices=choices, mark=mark, reason=reason)
    assert Withdrawal.objects.exists()
    act = reinstate(call=CALL, entry=entry, choices=choices, mark=seen.mark, reason="cleared")
    assert not Withdrawal.objects.exists()
    assert (seeds("SF-1"), at("SF-1").status) == ([1, 5], Bout.Status.READY)
    stands = choice is Choice.STANDS
    assert Result.objects.filter(bout=at("1st-1")).exists() == stands
    assert seeds("1st-1") == ([5, 3] if stands else [None, 3])
    assert (at("1st-1").number == number) == stands
    assert act.subject.get("void") == (None if stands else [at("1st-1").pk])
    assert [row.reason for row in VoidBout.objects.all()] == ["cleared"] * (not stands)
    assert [row.reason for row in Ruling.objects.all()] == ["cleared"] * stands
    comes_back(gone)


def test_who_would_wrestle_out_of_turn_is_named_before_and_who_is_stranded_after(
    gone: Tournament,
) -> None:
    """5 keeps the final that he won and has the semifinal before it still to wrestle."""
    entry, final, choices = Entry.objects.get(seed=1), BoutKey("1st", 1), Choice.STANDS
    seen = look_at_return(entry, {final: choices})
    assert [(one.entry.seed, [str(row) for row in one.bouts]) for one in seen.early] == [
        (5, ["SF-1", "1st-1"])
    ]
    assert seen.possible
    assert not replace(NOTHING, early=seen.early).nothing
    reinstate(call=CALL, entry=entry, choices={final: choices}, mark=seen.mark, reason="cleared")
    assert stranded(gone) == ()
    assert preview(at("C1-1"), None).early == ()
    wrestle(at("SF-1"), 0)
    assert [(one.entry.seed, str(one.bout)) for one in stranded(gone)] == [(1, "SF-1")]
    assert preview(at("C1-1"), None).adrift == ()
    shown = signed_in("director", gone).get("/desk/spring/").content.decode()
    assert "Given1 Family125 has nowhere to go." in shown
    assert f"After bout {at('SF-1').number} a ruling puts another" in shown
    withdraw(call=CALL, entry=entry, kind="injury")
    assert stranded(gone) == ()


def test_his_return_leaves_nobody_in_two_open_bouts(gone: Tournament) -> None:
    """5 cannot wrestle the final again while the semifinal against 1 is open."""
    entry, choices = Entry.objects.get(seed=1), {BoutKey("1st", 1): Choice.AGAIN}
    seen = look_at_return(entry, choices)
    assert [one.entry.seed for one in seen.clashes] == [5]
    with pytest.raises(InTwoBouts, match="Given5"):
        reinstate(call=CALL, entry=entry, choices=choices, mark=seen.mark, reason="x")
    assert Withdrawal.objects.exists()


def test_who_is_out_of_a_weight_that_is_not_drawn_comes_back_without_a_question() -> None:
    file = document(("125", "133"), entries=4)
    file["brackets"] = [{"weight_class": "125"}]
    load(file)
    entry = Entry.objects.get(key="133-1")
    withdraw(call=CALL, entry=entry, kind="injury")
    assert look_at_return(entry).nothing
    reinstate(call=CALL, entry=entry)
    assert not Withdrawal.objects.exists()
