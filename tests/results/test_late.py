"""Who does not wrestle where he was entered: each remedy around the draw and the cut-off."""

from dataclasses import replace
from datetime import timedelta

import pytest

from brackets.core.drafting import WantedResult
from brackets.core.errors import LineChangeUnfit
from brackets.models import Bout, Drawn, LineChange
from brackets.queries import drawn
from brackets.services import number_bouts
from results.core.errors import (
    BoutsStand,
    NotAsSeen,
    RulingNames,
)
from results.core.late import Newcomer, Phase, Remedy
from results.models import LedgerPart, Result, Withdrawal
from results.queries.weigh_in import Case, concern, concerned, cut_off_of, phase_of
from results.serializers.document import dump
from results.services import (
    apply_weigh_in,
    draw_weight,
    enter_late,
    rule,
    set_cut_off,
    take_out,
)
from results.services.late import (
    LateEntry,
    look_at_cases,
)
from seeding.core.errors import NobodyStandsBy
from seeding.entries.core.errors import EnteredElsewhere, Locked, TakenName
from seeding.entries.models import Entry, Tournament
from seeding.entries.services import record_weigh_in
from seeding.entries.services.weighing import Weighed
from seeding.journal.core.errors import Invalid
from seeding.journal.models import Act
from tests.results.championship import CALL, NOW, document, load, wrestle
from tests.results.desk import text
from tests.results.late import SUB, at, bout, entry, lines, morning, of, take
from tests.seeding.entries.desks import owner

pytestmark = pytest.mark.django_db


@pytest.fixture
def meet() -> Tournament:
    return morning()


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
    told = next(one for one in dump(meet)["bouts"] if one["number"] == first.number)
    assert (told["kind"], told["implied"]) == ("forfeit", True)
    desk = text(owner(meet).get(f"/desk/spring/bouts/{first.number}/"))
    assert "For." in desk
    assert "M. For." not in desk


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


@pytest.mark.parametrize("order", [("125-8", "125-9"), ("125-9", "125-8")])
def test_of_two_who_do_not_report_nobody_wins_their_bout(
    meet: Tournament, order: tuple[str, str]
) -> None:
    for key in order:
        take(meet, key, Remedy.FORFEIT)
    lost = of(meet, "125-8")
    assert lost == of(meet, "125-9")
    assert (lost.status, lost.winner) == ("decided", None)
    assert not LedgerPart.objects.filter(entry__key__in=order).exists()


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
    with pytest.raises(Invalid, match="somebody at least"):
        apply_weigh_in(call=CALL, tournament=meet, cases=[])


def test_a_ruling_on_a_line_stands_in_the_way(meet: Tournament) -> None:
    wanted = WantedResult(of(meet, "125-9").key, 0)
    rule(call=CALL, drawn=drawn(at(meet)), wanted=wanted, reason="x")
    with pytest.raises(RulingNames):
        take(meet, "125-9", Remedy.BYE)


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
