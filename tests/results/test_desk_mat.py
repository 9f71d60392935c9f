"""The table at a mat: a whole weight by its form alone, undo, what comes next."""

import pytest
from django.test import Client

from brackets.models import Bout, Placing
from brackets.queries import numbered_bout
from results.models import Result
from seeding.entries.models import Tournament
from tests.results.championship import document, load, wrestle
from tests.results.desk import form, press, text
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db


def event(mats: list[str]) -> Tournament:
    file = document(entries=8)
    file["tournament"]["mats"] = mats
    return load(file)


@pytest.fixture
def one_mat() -> Tournament:
    """Eight entries, all fourteen bouts on one mat."""
    return event(["A"])


@pytest.fixture
def table(one_mat: Tournament) -> Client:
    return signed_in("table", one_mat)


MAT = "/desk/spring/mats/A/"


def test_a_weight_is_wrestled_to_the_end_at_the_mat(one_mat: Tournament, table: Client) -> None:
    for number in range(1, 15):
        held = form(text(table.get(MAT)), "enter")
        assert held["bout"] == str(number)
        answer = press(table, MAT, "enter", winner="0", won="5", lost="3")
        assert f"Bout {number}: Dec 5-3. Recorded." in text(answer)
    page = text(table.get(MAT))
    assert "No bout is left on it." in page
    assert "Undo bout 14" in page
    placed = Placing.objects.order_by("place").values_list("place", "entry__seed")
    assert list(placed)[:2] == [(1, 1), (2, 3)]  # the top side always won
    assert len(placed) == 8


def test_a_fall_takes_winner_kind_and_time(table: Client) -> None:
    press(table, MAT, "enter", winner="1", kind="fall", time="1:01")
    row = Result.objects.get()
    assert (row.kind, row.winner_side, row.time) == ("fall", 1, 61)


def test_on_the_mat_on_deck_in_the_hole(table: Client) -> None:
    page = text(table.get(MAT))
    assert "Bout 1 · 125 · Quarterfinals" in page.replace("\xa0", " ")
    on_deck, hole = page.index("on deck"), page.index("in the hole")
    assert page.index("Take 2 now") < page.index("Take 3 now")
    assert on_deck < hole
    assert "winner of 1" in page


def test_another_open_bout_of_the_mat_can_be_taken_first(table: Client) -> None:
    assert form(text(table.get(f"{MAT}?bout=3")), "enter")["bout"] == "3"
    assert form(text(table.get(f"{MAT}?bout=14")), "enter")["bout"] == "1"
    press(table, f"{MAT}?bout=3", "enter", winner="0", won="5", lost="3")
    assert Result.objects.get().bout.number == 3


def test_undo_of_the_last_result_is_always_there(one_mat: Tournament, table: Client) -> None:
    assert "Undo bout" not in text(table.get(MAT))
    for _ in range(2):
        press(table, MAT, "enter", winner="0", won="5", lost="3")
    assert "Undo bout 2" in text(table.get(MAT))
    look = text(table.get(f"{MAT}undo/"))
    assert "(SF)</th>" in look
    press(table, f"{MAT}undo/", "undo")
    assert numbered_bout(one_mat, 2).status == Bout.Status.READY
    assert "Undo bout 1" in text(table.get(MAT))


def test_an_undo_pressed_twice_is_one_act(one_mat: Tournament, table: Client) -> None:
    for _ in range(2):
        press(table, MAT, "enter", winner="0", won="5", lost="3")
    sent = {**form(text(table.get(f"{MAT}undo/")), "undo"), "do": "undo"}
    for _ in range(2):
        answer = table.post(f"{MAT}undo/", sent, follow=True)
        assert "The result of bout 2 is undone." in text(answer)
    assert Result.objects.get().bout.number == 1


def test_an_undo_that_later_bouts_forbid_has_no_button() -> None:
    both = event(["A", "B"])
    table = signed_in("table", both)
    for number in (1, 2, 3, 4, 5):
        wrestle(numbered_bout(both, number), 0)
    Bout.objects.filter(number=5).update(mat="B")
    Bout.objects.exclude(number=5).update(mat="A")
    Result.objects.filter(bout__number=1).update(received_at="2030-01-01T00:00Z")
    page = text(table.get(f"{MAT}undo/"))
    assert "This stands in the way." in page
    assert 'value="undo"' not in page


def test_an_official_result_is_not_undone_at_the_mat(one_mat: Tournament, table: Client) -> None:
    wrestle(numbered_bout(one_mat, 1), 0)
    Result.objects.update(state="official")
    assert "Undo bout" not in text(table.get(MAT))
    assert 'value="undo"' not in text(table.get(f"{MAT}undo/"))


def test_what_is_refused_stays_typed_in(table: Client) -> None:
    answer = press(table, MAT, "enter", kind="decision", winner="0", won="16", lost="1")
    assert "16-1 is no decision" in text(answer)
    held = form(text(answer), "enter")
    assert (held["kind"], held["winner"], held["won"]) == ("decision", "0", "16")


def test_a_bout_that_was_sent_elsewhere_meanwhile_is_refused(
    one_mat: Tournament, table: Client
) -> None:
    sent = {**form(text(table.get(MAT)), "enter"), "do": "enter", "winner": "0"}
    Bout.objects.filter(number=1).update(mat="B", version=7)
    answer = table.post(MAT, {**sent, "won": "5", "lost": "3"})
    assert "Bout 1 was changed in the meantime." in text(answer)


def test_after_a_medical_forfeit_the_table_is_told_what_the_book_says(table: Client) -> None:
    answer = press(table, MAT, "enter", winner="0", kind="medical forfeit")
    assert "After a medical forfeit Given8 Family125 does not go on by the rule book" in text(
        answer
    )
