"""Late entries and swaps, and what a tournament file keeps of them."""

from dataclasses import replace

import pytest

from brackets.core.drafting import WantedAdvance
from brackets.core.errors import LineChangeUnfit
from brackets.core.late import after_all, drawn_rightly, free_lines, late_line, way_up
from brackets.models import LineChange
from brackets.queries import bracket, drawn, line_up
from brackets.serializers.verification import verify
from results.core.errors import (
    HasWrestled,
    LeftBehindByes,
    ReasonMissing,
    RulingNames,
)
from results.core.late import Newcomer, Remedy
from results.models import Withdrawal
from results.queries.late import usable_lines
from results.queries.weigh_in import Case
from results.serializers.document import check_document, dump
from results.services import (
    enter_late,
    rule,
    set_cut_off,
    swap_lines,
    take_back_draw,
    take_out,
    withdraw,
)
from results.services.late import (
    LateEntry,
    look_at_cases,
    look_at_late_entry,
    look_at_swap,
)
from results.services.load import load_tournament
from seeding.entries.models import Entry, Tournament
from seeding.entries.queries.groups import waiting_of
from seeding.entries.services import record_weigh_in
from seeding.entries.services.weighing import Weighed
from seeding.journal.core.errors import Invalid, Stale
from tests.results.championship import CALL, NOW, document, load, wrestle
from tests.results.late import SUB, at, bout, entry, lines, morning, of, take
from tests.results.young import grouped

pytestmark = pytest.mark.django_db


@pytest.fixture
def meet() -> Tournament:
    return morning()


def test_lines_that_were_changed_back_still_tell_how_they_were_drawn(meet: Tournament) -> None:
    as_drawn = list(drawn(at(meet)).lines)
    for _ in range(2):
        swap_lines(call=CALL, weight=at(meet), lines=(1, 3), reason="x")
    item = dump(meet)["brackets"][0]
    assert item["lines"] == item["drawn_lines"] == as_drawn
    assert len(item["line_changes"]) == 2
    again = load(dump(meet) | {"tournament": dump(meet)["tournament"] | {"slug": "again"}})
    assert dump(again)["brackets"][0]["line_changes"] == item["line_changes"]


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


def test_no_late_entry_comes_onto_a_line_whose_way_up_a_ruling_gave_away(meet: Tournament) -> None:
    """The newcomer's wins would lead nowhere, or who has the bye there would stand in two bouts."""
    made = drawn(at(meet))
    line = usable_lines(made)[0]
    led = {seat.bout.round: seat for seat in way_up(bracket(made), line)}
    rule(call=CALL, drawn=made, wanted=WantedAdvance(led["SF"], None), reason="x")
    left = usable_lines(drawn(at(meet)))
    same_half = {
        one for one in free_lines(line_up(made.lines)) if led["SF"] in way_up(bracket(made), one)
    }
    assert line in same_half
    assert set(left) == set(free_lines(line_up(made.lines))) - same_half
    late = LateEntry(meet.teams.get(key="t1"), SUB, line=line)
    with pytest.raises(RulingNames, match="Take it back first"):
        enter_late(call=CALL, weight=at(meet), late=late, reason="x")


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


def test_a_second_press_is_the_same_act_and_a_stale_one_is_refused(meet: Tournament) -> None:
    call = replace(CALL, key="once")
    one = swap_lines(call=call, weight=at(meet), lines=(7, 16), reason="x")
    assert swap_lines(call=call, weight=at(meet), lines=(7, 16), reason="x") == one
    with pytest.raises(Stale):
        swap_lines(call=replace(CALL, expected=0), weight=at(meet), lines=(7, 16), reason="x")
    items = {"125-9": Weighed("missed", seen=99)}
    with pytest.raises(Stale):
        record_weigh_in(call=CALL, tournament=meet, items=items)


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


def test_he_goes_to_no_weight_that_is_not_open_to_him(meet: Tournament) -> None:
    grouped(meet)
    waits = waiting_of(meet.divisions.get(key="young"))
    for weight in (waits, at(meet, "group-1"), at(meet, "133")):
        with pytest.raises(Invalid, match=r"133-9\.weight: Name the weight .* none is open to him"):
            take(meet, "133-9", Remedy.OTHER_WEIGHT, weight=weight)
    assert entry(meet, "133-9").status == "entered"


def test_two_of_one_name_in_one_team_are_two_in_a_preview() -> None:
    file = document(("125", "133"), 4) | {"brackets": []}
    twin = {"id": "twin", "weight_class": "125", "team": "t4", "home": "Upriver"}
    file["entries"].append(twin | {"given": "Given4", "family": "Family125"})
    meet = load(file)
    case = Case(entry(meet, "twin"), Remedy.OTHER_WEIGHT, weight=at(meet, "133"))
    seen = look_at_cases(CALL, [case])
    name = "Given4 Family125 (T4, Upriver)"
    assert [(one.weight, one.what, one.after) for one in seen.field] == [
        ("125", name, "scratched"),
        ("133", name, "entered"),
    ]
    take_out(call=CALL, case=case, mark=seen.mark)
    assert entry(meet, "125-4").status == "entered"
    moved = Entry.objects.get(weight_class__key="133", wrestler__family="Family125")
    assert moved.wrestler == case.entry.wrestler


def test_a_line_stays_whose_man_had_a_bye_and_is_out(meet: Tournament) -> None:
    """Elsewhere he had none: the bout that he would stand in there would be open."""
    withdraw(call=CALL, entry=entry(meet, "125-1"), kind="injury")
    assert Withdrawal.objects.get().behind == "R1-1"
    with pytest.raises(LeftBehindByes, match="Family125 is out, with a bye behind him"):
        swap_lines(call=CALL, weight=at(meet), lines=(1, 3), reason="x")
