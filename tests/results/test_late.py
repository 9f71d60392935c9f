"""Late changes after the draw: each remedy, the cut-off, late entries, swaps, redraws."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta

import pytest

from brackets.core.drafting import WantedResult
from brackets.core.errors import AlreadyWrestled, LineChangeUnfit
from brackets.core.late import after_all, drawn_rightly, late_line
from brackets.models import Bout, Drawn, LineChange, TakenBack
from brackets.queries import bracket, drawn, line_up
from brackets.serializers.verification import verify
from brackets.services import commit_draw, number_bouts
from results.core.errors import (
    BoutsStand,
    HasWrestled,
    NotAsSeen,
    ReasonMissing,
    RulingNames,
)
from results.core.late import Newcomer, Phase, Remedy
from results.models import Result, Withdrawal
from results.queries.late import usable_lines
from results.queries.weigh_in import Case, concern, concerned, cut_off_of, phase_of
from results.serializers.document import check_document, dump
from results.services import (
    apply_weigh_in,
    draw_weight,
    enter_late,
    redraw,
    rule,
    set_cut_off,
    swap_lines,
    take_back_draw,
    take_out,
)
from results.services.late import (
    LateEntry,
    look_at_cases,
    look_at_late_entry,
    look_at_redraw,
    look_at_swap,
)
from results.services.load import load_tournament
from seeding.core.errors import NobodyStandsBy
from seeding.entries.core.errors import EnteredElsewhere, Locked, TakenName
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.services import record_weigh_in
from seeding.entries.services.weighing import Weighed
from seeding.journal.core.errors import Invalid, Stale
from seeding.journal.models import Act
from tests.results.championship import CALL, NOW, document, load, wrestle

pytestmark = pytest.mark.django_db
SUB = Newcomer("Sam", "Sub")


@pytest.fixture
def meet() -> Tournament:
    """Twelve seeds of 125 on 16 lines, numbered; 133 is not drawn."""
    file = document(("125", "133"), 12) | {"brackets": [{"weight_class": "125"}]}
    return load(file)


def at(meet: Tournament, key: str = "125") -> WeightClass:
    rows = WeightClass.objects.select_related("division", "tournament")
    return rows.get(tournament=meet, key=key)


def entry(meet: Tournament, key: str) -> Entry:
    rows = Entry.objects.select_related("wrestler", "weight_class__division", "tournament", "team")
    return rows.get(tournament=meet, key=key)


def lines(meet: Tournament) -> Sequence[object]:
    return line_up(drawn(at(meet)).lines)


def take(meet: Tournament, key: str, remedy: Remedy, **more: object) -> Act:
    case = Case(entry(meet, key), remedy, **more)  # type: ignore[arg-type]
    return take_out(call=CALL, case=case, reason="why")


def bout(meet: Tournament, key: str) -> Bout:
    code, position = key.split("-")
    return Bout.objects.select_related("top", "bottom", "winner").get(
        drawn__weight_class=at(meet), round=code, position=position
    )


def of(meet: Tournament, key: str) -> Bout:
    """The first-round bout of an entry."""
    row = Bout.objects.filter(drawn__weight_class=at(meet), round="R1")
    return next(
        one
        for one in row.select_related("top", "bottom", "drawn")
        if key in (one.top and one.top.key, one.bottom and one.bottom.key)
    )


def test_a_bye_on_his_line_sends_his_opponent_on_without_a_bout(meet: Tournament) -> None:
    number = of(meet, "125-9").number
    act = take(meet, "125-9", Remedy.BYE)
    assert act.verb == "entry.taken-out"
    assert "125-9" not in lines(meet)
    first = of(meet, "125-8")
    assert (first.status, first.number) == ("bye", number)
    assert entry(meet, "125-9").status == "scratched"
    second = bout(meet, "QF-1")
    assert {second.top and second.top.key, second.bottom and second.bottom.key} == {
        "125-1",
        "125-8",
    }


def test_a_forfeit_on_his_line_gives_his_opponent_the_win(meet: Tournament) -> None:
    before = Drawn.objects.get().lines
    take(meet, "125-9", Remedy.FORFEIT)
    first = of(meet, "125-9")
    assert (first.status, first.implied) == ("decided", True)
    assert first.winner
    assert first.winner.key == "125-8"
    assert Drawn.objects.get().lines == before
    assert Withdrawal.objects.get().kind == "absent"


def test_who_did_not_report_places_nowhere() -> None:
    meet = load(document(("125",), 8))
    seen = look_at_cases(CALL, [Case(entry(meet, "125-8"), Remedy.FORFEIT)])
    assert ("Team 8", "3", "") in [(one.what, one.before, one.after) for one in seen.teams]
    take(meet, "125-8", Remedy.FORFEIT)
    assert not drawn(at(meet)).placings.filter(entry__key="125-8").exists()


def test_a_substitute_stands_on_the_line_without_the_seed(meet: Tournament) -> None:
    place = lines(meet).index("125-3")
    take(meet, "125-3", Remedy.SUBSTITUTE, person=SUB)
    came = Entry.objects.get(tournament=meet, wrestler__family="Sub")
    assert lines(meet)[place] == came.key
    assert (came.seed, came.team.key, came.status) == (None, "t3", "entered")
    assert entry(meet, "125-3").seed == 3  # seeds of the drawn weight stay on record
    assert entry(meet, "125-4").seed == 4


def test_an_alternate_needs_somebody_who_stands_by(meet: Tournament) -> None:
    with pytest.raises(NobodyStandsBy):
        take(meet, "125-3", Remedy.ALTERNATE)


def test_a_preview_is_what_is_done_and_changes_nothing(meet: Tournament) -> None:
    case = Case(entry(meet, "125-9"), Remedy.BYE)
    before = dump(meet)
    seen = look_at_cases(CALL, [case])
    assert dump(meet) == before
    assert not LineChange.objects.exists()
    assert [(one.what, one.before, one.after) for one in seen.lines] == [
        ("3", "Given9 Family125 (T9)", "")
    ]
    assert seen.bouts
    take_out(call=CALL, case=case, reason="x", mark=seen.mark)
    with pytest.raises((NotAsSeen, Invalid, LineChangeUnfit)):
        take_out(call=CALL, case=case, reason="x", mark=seen.mark)


def test_what_was_seen_and_is_otherwise_now_is_refused(meet: Tournament) -> None:
    case = Case(entry(meet, "125-9"), Remedy.BYE)
    seen = look_at_cases(CALL, [case])
    take(meet, "125-5", Remedy.FORFEIT)
    take_out(call=CALL, case=case, mark=seen.mark)  # another corner: the same follows
    other = Case(entry(meet, "125-7"), Remedy.BYE)
    seen = look_at_cases(CALL, [other])
    take(meet, "125-10", Remedy.FORFEIT)
    seq = Act.objects.count()
    with pytest.raises(NotAsSeen):
        take_out(call=CALL, case=other, mark=seen.mark)
    assert Act.objects.count() == seq
    assert "125-7" in lines(meet)


@pytest.mark.parametrize("remedy", [Remedy.BYE, Remedy.FORFEIT, Remedy.SUBSTITUTE])
def test_who_has_wrestled_is_withdrawn_and_nothing_else(meet: Tournament, remedy: Remedy) -> None:
    wrestle(of(meet, "125-9"), 0)
    assert phase_of(entry(meet, "125-9")) is Phase.DURING
    with pytest.raises(Invalid, match="during the event"):
        take(meet, "125-9", remedy, person=SUB)
    take(meet, "125-8", Remedy.WITHDRAW, kind="injury")
    assert Withdrawal.objects.get().kind == "injury"
    assert Result.objects.count() == 1


def test_a_bye_that_would_lose_a_result_is_refused_by_name(meet: Tournament) -> None:
    take(meet, "125-9", Remedy.BYE)
    second = bout(meet, "QF-1")
    wrestle(second, 0)
    late = LateEntry(meet.teams.get(key="t1"), SUB, line=3)
    with pytest.raises(BoutsStand, match=str(second.number)):
        enter_late(call=CALL, weight=at(meet), late=late, reason="x")
    assert Result.objects.count() == 1
    assert not Entry.objects.filter(wrestler__family="Sub").exists()


def test_the_cut_off_turns_a_bye_into_a_forfeit(meet: Tournament) -> None:
    division = at(meet).division
    one = entry(meet, "125-9")
    assert concern(one, NOW).usual is Remedy.BYE
    set_cut_off(call=CALL, tournament=meet, division=None, at=NOW)
    assert concern(one, NOW).usual is Remedy.BYE  # exactly at the stated time it is not over
    assert concern(one, NOW + timedelta(seconds=1)).usual is Remedy.FORFEIT
    set_cut_off(call=CALL, tournament=meet, division=division, at=NOW + timedelta(hours=1))
    assert concern(one, NOW + timedelta(seconds=1)).usual is Remedy.BYE
    set_cut_off(call=CALL, tournament=meet, division=division, at=None)
    assert cut_off_of(division) == NOW
    set_cut_off(call=CALL, tournament=meet, division=None, at=None)
    assert cut_off_of(division) is None


def test_a_rule_book_can_have_a_forfeit_from_the_start() -> None:
    file = document(("125",), 12, settings={"results.absent_qualifier": "forfeit"})
    meet = load(file)
    assert concern(entry(meet, "125-9"), NOW).usual is Remedy.FORFEIT


def test_one_step_applies_a_whole_weigh_in(meet: Tournament) -> None:
    wrong = Weighed("wrong weight", at(meet, "133"))
    items = {
        "125-9": Weighed("missed"),
        "125-10": Weighed("no-show"),
        "125-3": Weighed("wrong weight"),
        "133-5": Weighed("missed"),
        "133-6": Weighed("made"),
    }
    record_weigh_in(call=CALL, tournament=meet, items=items)
    with pytest.raises(Invalid):
        record_weigh_in(call=CALL, tournament=meet, items={"125-1": replace(wrong, state="made")})
    found = {one.entry.key: one for one in concerned(meet, NOW)}
    assert set(found) == {"125-9", "125-10", "125-3", "133-5"}
    assert found["133-5"].usual is Remedy.SCRATCH
    cases = [
        Case(found["125-9"].entry, Remedy.BYE),
        Case(found["125-10"].entry, Remedy.FORFEIT),
        Case(found["125-3"].entry, Remedy.SUBSTITUTE, person=SUB),
        Case(found["133-5"].entry, Remedy.SCRATCH),
    ]
    seen = look_at_cases(CALL, cases)
    seq = Act.objects.count()
    apply_weigh_in(call=CALL, tournament=meet, cases=cases, mark=seen.mark)
    assert Act.objects.count() == seq + 1
    assert concerned(meet, NOW) == []
    assert entry(meet, "133-6").seed == 5


def test_one_refusal_refuses_all_of_it(meet: Tournament) -> None:
    wrestle(of(meet, "125-8"), 0)
    cases = [
        Case(entry(meet, "125-10"), Remedy.BYE),
        Case(entry(meet, "125-9"), Remedy.BYE),
    ]
    before = dump(meet)
    with pytest.raises(Invalid, match=r"125-9\.remedy"):
        apply_weigh_in(call=CALL, tournament=meet, cases=cases)
    assert dump(meet) == before


def test_before_the_draw_he_goes_to_the_weight_that_he_made() -> None:
    meet = load(document(("125", "133"), 8) | {"brackets": []})
    Entry.objects.filter(key="133-2").update(status="scratched")
    items = {"125-2": Weighed("wrong weight", at(meet, "133"))}
    record_weigh_in(call=CALL, tournament=meet, items=items)
    found = concerned(meet, NOW)[0]
    assert (found.phase, found.usual) == (Phase.BEFORE, Remedy.OTHER_WEIGHT)
    case = Case(found.entry, Remedy.OTHER_WEIGHT, weight=at(meet, "133"))
    apply_weigh_in(call=CALL, tournament=meet, cases=[case])
    assert entry(meet, "125-2").status == "scratched"
    assert entry(meet, "125-3").seed == 2
    new = Entry.objects.get(weight_class__key="133", wrestler=found.entry.wrestler)
    assert (new.seed, new.status, new.weigh_in) == (None, "entered", "made")
    draw_weight(call=CALL, weight=at(meet, "133"))
    with pytest.raises(Locked):
        apply_weigh_in(
            call=CALL,
            tournament=meet,
            cases=[replace(case, entry=entry(meet, "125-3"))],
        )


def test_before_the_draw_a_substitute_takes_the_place_without_the_seed() -> None:
    meet = load(document(("125", "133"), 8) | {"brackets": []})
    take(meet, "125-1", Remedy.SUBSTITUTE, person=SUB)
    came = Entry.objects.get(wrestler__family="Sub")
    assert (came.seed, came.team.key) == (None, "t1")
    assert entry(meet, "125-2").seed == 1
    with pytest.raises(TakenName):
        take(meet, "125-2", Remedy.SUBSTITUTE, person=Newcomer("Given2", "Family125"))
    with pytest.raises(EnteredElsewhere, match="at 125"):
        take(meet, "133-2", Remedy.SUBSTITUTE, person=Newcomer("Given2", "Family125"))


def test_what_a_remedy_needs_is_asked_for(meet: Tournament) -> None:
    with pytest.raises(Invalid, match="Name who comes"):
        take(meet, "125-9", Remedy.SUBSTITUTE)
    with pytest.raises(Invalid, match="Name the weight"):
        take(meet, "133-9", Remedy.OTHER_WEIGHT)
    with pytest.raises(Invalid, match="Nobody is chosen"):
        apply_weigh_in(call=CALL, tournament=meet, cases=[])


def test_a_redraw_leaves_out_who_is_out(meet: Tournament) -> None:
    take(meet, "125-12", Remedy.FORFEIT)
    take(meet, "125-11", Remedy.BYE)
    take(meet, "125-9", Remedy.REDRAW)
    made = drawn(at(meet))
    named = set(bracket(made).entries())
    assert named == {f"125-{number}" for number in (1, 2, 3, 4, 5, 6, 7, 8, 10)}
    assert made.anew_because == "why"
    assert made.drawn_lines == made.lines
    assert not Withdrawal.objects.exists()


def test_a_weight_that_is_redrawn_takes_no_byes(meet: Tournament) -> None:
    cases = [
        Case(entry(meet, "125-9"), Remedy.REDRAW),
        Case(entry(meet, "125-8"), Remedy.BYE),
    ]
    with pytest.raises(Invalid, match="drawn anew"):
        apply_weigh_in(call=CALL, tournament=meet, cases=cases, reason="x")
    cases[1] = Case(entry(meet, "125-8"), Remedy.SUBSTITUTE, person=SUB)
    apply_weigh_in(call=CALL, tournament=meet, cases=cases, reason="x")
    assert len([one for one in lines(meet) if one]) == 11


def test_a_redraw_needs_a_reason_and_nothing_wrestled(meet: Tournament) -> None:
    with pytest.raises(ReasonMissing):
        redraw(call=CALL, weight=at(meet), reason=" ")
    wrestle(of(meet, "125-9"), 0)
    before = dump(meet)
    with pytest.raises(AlreadyWrestled):
        redraw(call=CALL, weight=at(meet), reason="x")
    with pytest.raises(AlreadyWrestled):
        look_at_redraw(CALL, at(meet))
    assert dump(meet) == before


def test_a_committed_redraw_takes_the_next_seed() -> None:
    meet = load(document(("125",), 8) | {"brackets": []})
    commit_draw(call=CALL, tournament=meet)
    Entry.objects.update(seed=None)
    draw_weight(call=CALL, weight=at(meet))
    first = drawn(at(meet))
    seen = look_at_redraw(CALL, at(meet))
    assert not TakenBack.objects.exists()
    redraw(call=CALL, weight=at(meet), reason="two were missing", mark=seen.mark)
    again = drawn(at(meet))
    assert (first.number, again.number, again.committed) == (1, 2, True)
    assert again.lot_seed != first.lot_seed
    assert TakenBack.objects.get().reason == "two were missing"
    found = verify(dump(meet))
    assert found.holds


def test_a_late_entry_takes_a_free_line_that_was_chosen(meet: Tournament) -> None:
    late = LateEntry(meet.teams.get(key="t1"), SUB, line=2)
    seen = look_at_late_entry(CALL, at(meet), late)
    enter_late(call=CALL, weight=at(meet), late=late, reason="came late", mark=seen.mark)
    came = Entry.objects.get(wrestler__family="Sub")
    assert lines(meet)[1] == came.key
    again = replace(late, person=Newcomer("A", "B"))
    with pytest.raises(LineChangeUnfit, match="not free"):
        enter_late(call=CALL, weight=at(meet), late=again, reason="x")


def test_who_was_taken_out_can_come_back_late(meet: Tournament) -> None:
    take(meet, "125-9", Remedy.BYE)
    late = LateEntry(meet.teams.get(key="t9"), Newcomer("Given9", "Family125"), line=3)
    enter_late(call=CALL, weight=at(meet), late=late, reason="stuck in traffic")
    assert lines(meet)[2] == "125-9"
    assert entry(meet, "125-9").seed is None


def test_a_late_entry_by_lot_can_be_drawn_again_by_anybody(meet: Tournament) -> None:
    among = usable_lines(drawn(at(meet)))
    late = LateEntry(meet.teams.get(key="t1"), SUB, lot_seed="1912")
    seen = look_at_late_entry(CALL, at(meet), late)
    assert seen.lines == ()  # no preview tells the lot
    enter_late(call=CALL, weight=at(meet), late=late, reason="came late", mark=seen.mark)
    change = LineChange.objects.get().value
    assert change.among == among
    assert change.lot_seed == "1912"
    assert drawn_rightly(change, "125")
    assert lines(meet)[change.lines[0] - 1] == change.came
    assert not drawn_rightly(replace(change, lines=(1,)), "125")


def test_the_lot_spares_lines_whose_bouts_are_wrestled(meet: Tournament) -> None:
    free = usable_lines(drawn(at(meet)))
    wrestle(of(meet, "125-9"), 0)
    wrestle(bout(meet, "QF-1"), 0)
    left = usable_lines(drawn(at(meet)))
    assert len(left) < len(free)
    assert set(left) < set(free)


def test_a_late_entry_before_the_draw_is_plain(meet: Tournament) -> None:
    late = LateEntry(meet.teams.get(key="t1"), SUB)
    enter_late(call=CALL, weight=at(meet, "133"), late=late)
    assert Entry.objects.get(wrestler__family="Sub").weight_class.key == "133"


def test_a_late_entry_with_a_redraw(meet: Tournament) -> None:
    late = LateEntry(meet.teams.get(key="t1"), SUB, redraw=True)
    seen = look_at_late_entry(CALL, at(meet), late)
    assert seen.anew == ("125",)
    with pytest.raises(ReasonMissing):
        enter_late(call=CALL, weight=at(meet), late=late, mark=seen.mark)
    enter_late(call=CALL, weight=at(meet), late=late, reason="came late", mark=seen.mark)
    assert len([one for one in lines(meet) if one]) == 13
    assert drawn(at(meet)).anew_because == "came late"


def test_a_swap_keeps_the_draw_as_drawn_and_every_seed(meet: Tournament) -> None:
    as_drawn = drawn(at(meet)).lines
    seen = look_at_swap(CALL, at(meet), (2, 16))
    swap_lines(
        call=CALL, weight=at(meet), lines=(2, 16), reason="a slip of the pen", mark=seen.mark
    )
    made = drawn(at(meet))
    assert made.drawn_lines == as_drawn
    assert made.lines[1] == as_drawn[15]
    assert made.lines[15] == as_drawn[1]
    changes = [row.value for row in made.line_changes.all()]
    assert after_all(line_up(made.drawn_lines), changes) == line_up(made.lines)
    assert [entry(meet, f"125-{n}").seed for n in range(1, 13)] == list(range(1, 13))
    found = verify(dump(meet))
    assert found.holds
    assert [one.changed for one in found.weights] == [True]


def test_a_swap_of_who_has_wrestled_is_refused_by_name(meet: Tournament) -> None:
    first = of(meet, "125-9")
    wrestle(first, 0)
    with pytest.raises(HasWrestled, match=rf"Family125 wrestled already: {first.number}\."):
        swap_lines(call=CALL, weight=at(meet), lines=(3, 16), reason="x")
    with pytest.raises(ReasonMissing):
        swap_lines(call=CALL, weight=at(meet), lines=(7, 16), reason="")
    with pytest.raises(LineChangeUnfit):
        swap_lines(call=CALL, weight=at(meet), lines=(7, 17), reason="x")


def test_a_ruling_on_a_line_stands_in_the_way(meet: Tournament) -> None:
    wanted = WantedResult(of(meet, "125-9").key, 0)
    rule(call=CALL, drawn=drawn(at(meet)), wanted=wanted, reason="x")
    with pytest.raises(RulingNames):
        take(meet, "125-9", Remedy.BYE)


def test_a_second_press_is_the_same_act_and_a_stale_one_is_refused(meet: Tournament) -> None:
    call = replace(CALL, key="once")
    one = swap_lines(call=call, weight=at(meet), lines=(7, 16), reason="x")
    assert swap_lines(call=call, weight=at(meet), lines=(7, 16), reason="x") == one
    with pytest.raises(Stale):
        swap_lines(call=replace(CALL, expected=0), weight=at(meet), lines=(7, 16), reason="x")
    items = {"125-9": Weighed("missed", seen=99)}
    with pytest.raises(Stale):
        record_weigh_in(call=CALL, tournament=meet, items=items)


def test_in_a_round_robin_a_line_goes_while_nothing_is_wrestled() -> None:
    meet = load(document(("125",), 5))
    take(meet, "125-5", Remedy.BYE)
    assert lines(meet) == ("125-1", "125-2", "125-3", "125-4")
    assert Bout.objects.count() == 6
    number_bouts(call=CALL, tournament=meet)
    ready = Bout.objects.filter(status="ready").order_by("number")[0]
    wrestle(ready, 0)
    free = next(
        one.key
        for one in Entry.objects.filter(tournament=meet, status="entered")
        if one.pk not in (ready.top_id, ready.bottom_id)
    )
    with pytest.raises(BoutsStand):
        take(meet, free, Remedy.BYE)
    take(meet, free, Remedy.FORFEIT)
    assert Result.objects.count() == 1


def test_a_draw_that_is_taken_back_takes_its_changes_along(meet: Tournament) -> None:
    swap_lines(call=CALL, weight=at(meet), lines=(7, 16), reason="x")
    take_back_draw(call=CALL, weight=at(meet))
    assert not LineChange.objects.exists()


def test_a_tournament_file_carries_late_changes(meet: Tournament) -> None:
    take(meet, "125-9", Remedy.BYE)
    take(meet, "125-10", Remedy.FORFEIT)
    take(meet, "125-3", Remedy.SUBSTITUTE, person=SUB)
    late = LateEntry(meet.teams.get(key="t1"), Newcomer("Late", "Comer"))
    enter_late(call=CALL, weight=at(meet), late=late, reason="came late")
    swap_lines(call=CALL, weight=at(meet), lines=(5, 11), reason="x")
    set_cut_off(call=CALL, tournament=meet, division=None, at=NOW)
    set_cut_off(call=CALL, tournament=meet, division=at(meet).division, at=NOW)
    record_weigh_in(call=CALL, tournament=meet, items={"133-1": Weighed("wrong weight")})
    file = dump(meet)
    check_document(file)
    assert verify(file).holds
    copy = file | {"tournament": file["tournament"] | {"slug": "copy"}}
    load_tournament(call=CALL, organisation=meet.organisation, document=copy)
    again = dump(Tournament.objects.get(slug="copy"))
    assert again["brackets"] == copy["brackets"]
    assert again == copy
    forged = copy | {"tournament": file["tournament"] | {"slug": "forged"}}
    first = forged["brackets"][0]
    lot = next(one for one in first["line_changes"] if "among" in one)
    lot["lot_seed"] = next(
        seed
        for seed in map(str, range(99))
        if late_line(lot["among"], "125", seed) != lot["lines"][0]
    )
    with pytest.raises(Invalid, match="lot of a late entry"):
        load_tournament(call=CALL, organisation=meet.organisation, document=forged)
    first["line_changes"] = first["line_changes"][:1]
    with pytest.raises(Invalid, match="do not make these lines"):
        load_tournament(call=CALL, organisation=meet.organisation, document=forged)


def test_a_redrawn_weight_says_why_in_the_file(meet: Tournament) -> None:
    redraw(call=CALL, weight=at(meet), reason="two were missing")
    assert dump(meet)["brackets"][0]["draw"]["anew_because"] == "two were missing"
