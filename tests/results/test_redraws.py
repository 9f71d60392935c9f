"""Weights drawn anew, and the numbers of bouts that come up late."""

import pytest

from brackets.core.errors import AlreadyWrestled
from brackets.models import Bout, TakenBack
from brackets.queries import bracket, drawn
from brackets.serializers.verification import verify
from brackets.services import commit_draw
from results.core.errors import (
    ReasonMissing,
)
from results.core.late import Remedy
from results.models import Withdrawal
from results.queries.weigh_in import Case
from results.serializers.document import dump
from results.services import (
    apply_weigh_in,
    draw_weight,
    enter_late,
    redraw,
)
from results.services.late import (
    LateEntry,
    look_at_redraw,
)
from seeding.entries.models import Entry, Tournament
from seeding.journal.core.errors import Invalid
from tests.results.championship import CALL, document, load, wrestle
from tests.results.late import SUB, at, bout, entry, lines, morning, of, take

pytestmark = pytest.mark.django_db


@pytest.fixture
def meet() -> Tournament:
    return morning()


def numbers() -> dict[int, int]:
    return {row.pk: row.number for row in Bout.objects.all() if row.number}


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


def test_bouts_that_come_up_late_take_the_next_numbers(meet: Tournament) -> None:
    """12 on 16 lines: 1 has a bye, and C1-1 waits for one loser; a late entry makes two bouts."""
    before = numbers()
    last = max(before.values())
    late = LateEntry(meet.teams.get(key="t1"), SUB, line=2)
    enter_late(call=CALL, weight=at(meet), late=late, reason="came late")
    assert [bout(meet, key).number for key in ("R1-1", "C1-1")] == [last + 1, last + 2]
    assert {bout(meet, key).mat for key in ("R1-1", "C1-1")} <= set(meet.mats)
    assert numbers().items() >= before.items()
    assert Tournament.objects.get().last_number == last + 2


def test_a_weight_drawn_anew_has_numbers_again_but_not_where_there_were_none(
    meet: Tournament,
) -> None:
    last = max(numbers().values())
    redraw(call=CALL, weight=at(meet), reason="x")
    assert set(numbers().values()) == set(range(last + 1, 2 * last + 1))
    Bout.objects.update(number=None)
    Tournament.objects.update(last_number=0)
    redraw(call=CALL, weight=at(meet), reason="x")
    assert not numbers()


def test_a_redrawn_weight_says_why_in_the_file(meet: Tournament) -> None:
    redraw(call=CALL, weight=at(meet), reason="two were missing")
    assert dump(meet)["brackets"][0]["draw"]["anew_because"] == "two were missing"
