"""Drawing through the service: locks, lots, points, and the way back."""

import pytest

from brackets.core.errors import AlreadyWrestled, TooFew
from brackets.models import Bout, Drawn
from brackets.queries import drawn as bracket_of
from brackets.queries import numbered
from brackets.services import number_bouts, send_to_mat
from results.models import LedgerPart
from results.services import draw_weight, take_back_draw
from seeding.entries.core.errors import Locked
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.services import edit_tournament, scratch_entry
from tests.results.championship import CALL, document, load, wrestle

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]


@pytest.fixture
def undrawn() -> Tournament:
    """Two weights of eight entries, without brackets."""
    file = document(("125", "133"), entries=8)
    return load(file | {"brackets": []})


def weight(key: str) -> WeightClass:
    return WeightClass.objects.select_related("division", "tournament").get(key=key)


def test_a_file_with_an_empty_list_of_brackets_is_not_drawn(undrawn: Tournament) -> None:
    assert not Drawn.objects.exists()


def test_a_draw_locks_the_weight_and_shows_the_points_that_are_certain(undrawn: Tournament) -> None:
    draw_weight(call=CALL, weight=weight("125"))
    assert LedgerPart.objects.filter(weight_class__key="125", place=8).count() == 8
    with pytest.raises(Locked, match="Weight 125 is drawn"):
        scratch_entry(call=CALL, entry=Entry.objects.get(key="125-3"))
    with pytest.raises(Locked):
        draw_weight(call=CALL, weight=weight("125"))


def test_the_same_lot_seed_gives_the_same_lines(undrawn: Tournament) -> None:
    Entry.objects.update(seed=None)
    lines = []
    for _ in range(2):
        draw_weight(call=CALL, weight=weight("125"), lot_seed="drawn by the referee")
        lines.append(bracket_of(weight("125")).lines)
        take_back_draw(call=CALL, weight=weight("125"))
    assert lines[0] == lines[1]
    draw_weight(call=CALL, weight=weight("125"), lot_seed="another")
    assert bracket_of(weight("125")).lines != lines[0]


def test_a_draw_is_taken_back_only_while_nothing_is_wrestled(undrawn: Tournament) -> None:
    draw_weight(call=CALL, weight=weight("125"))
    number_bouts(call=CALL, tournament=undrawn)
    wrestle(numbered(undrawn).get(number=1), 0)
    with pytest.raises(AlreadyWrestled, match="Bouts of 125 that have a result: 1"):
        take_back_draw(call=CALL, weight=weight("125"))


def test_taking_back_leaves_neither_bouts_nor_points(undrawn: Tournament) -> None:
    draw_weight(call=CALL, weight=weight("125"))
    take_back_draw(call=CALL, weight=weight("125"))
    assert not Bout.objects.exists()
    assert not LedgerPart.objects.exists()
    scratch_entry(call=CALL, entry=Entry.objects.get(key="125-3"))
    draw_weight(call=CALL, weight=weight("125"))
    assert Bout.objects.filter(status=Bout.Status.BYE).exists()


def test_numbers_given_stay_once_a_bout_is_wrestled(undrawn: Tournament) -> None:
    draw_weight(call=CALL, weight=weight("125"))
    number_bouts(call=CALL, tournament=undrawn)
    before = dict(numbered(undrawn).values_list("pk", "number"))
    wrestle(numbered(undrawn).get(number=1), 0)
    draw_weight(call=CALL, weight=weight("133"))
    number_bouts(call=CALL, tournament=undrawn)
    after = dict(numbered(undrawn).values_list("pk", "number"))
    assert {pk: after[pk] for pk in before} == before
    assert set(after.values()) == set(range(1, 29))


def test_bouts_are_spread_evenly_and_can_be_sent_elsewhere(undrawn: Tournament) -> None:
    for key in ("125", "133"):
        draw_weight(call=CALL, weight=weight(key))
    number_bouts(call=CALL, tournament=undrawn)
    first = numbered(undrawn).filter(round="QF").values_list("mat", flat=True)
    assert sorted(first) == ["1", "2", "3", "4", "5", "6", "7", "8"]
    bout = numbered(undrawn).get(number=1)
    send_to_mat(call=CALL, bout=bout, mat="5")
    assert numbered(undrawn).get(number=1).mat == "5"


def test_one_entry_is_not_drawn(undrawn: Tournament) -> None:
    Entry.objects.filter(weight_class__key="125").exclude(key="125-1").update(status="scratched")
    with pytest.raises(TooFew, match="125 has 1 entered"):
        draw_weight(call=CALL, weight=weight("125"))


def test_bouts_of_a_mat_that_is_gone_go_to_the_others(undrawn: Tournament) -> None:
    draw_weight(call=CALL, weight=weight("125"))
    number_bouts(call=CALL, tournament=undrawn)
    wrestle(numbered(undrawn).get(number=2), 0)
    before = dict(numbered(undrawn).values_list("number", "mat"))
    edit_tournament(
        call=CALL,
        tournament=undrawn,
        name=undrawn.name,
        starts_on=undrawn.starts_on,
        time_zone=undrawn.time_zone,
        mats=["1", "3"],
    )
    after = dict(numbered(undrawn).values_list("number", "mat"))
    assert after[2] == before[2]  # wrestled: it happened there
    moved = {number for number, mat in before.items() if mat not in {"1", "3"} and number != 2}
    assert {after[number] for number in moved} == {"1", "3"}
    assert all(after[number] == before[number] for number in set(before) - moved)


def test_the_number_of_a_bout_that_is_gone_is_not_given_again(undrawn: Tournament) -> None:
    for key in ("125", "133"):
        draw_weight(call=CALL, weight=weight(key))
    number_bouts(call=CALL, tournament=undrawn)
    first = numbered(undrawn).filter(drawn__weight_class__key="125", round="QF").first()
    assert first
    wrestle(first, 0)
    take_back_draw(call=CALL, weight=weight("133"))
    draw_weight(call=CALL, weight=weight("133"))
    number_bouts(call=CALL, tournament=undrawn)
    again = numbered(undrawn).filter(drawn__weight_class__key="133")
    assert min(number or 0 for number in again.values_list("number", flat=True)) == 29
