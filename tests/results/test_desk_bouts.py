"""Results at the desk: entered, refused, corrected after a look ahead, confirmed."""

import json

import pytest
from django.test import Client

from brackets.models import Bout
from brackets.queries import numbered_bout
from results.core.outcomes import Kind, Outcome
from results.models import Result, Withdrawal
from seeding.entries.models import Tournament
from seeding.journal.models import Act
from tests.results.championship import document, load, side, wrestle
from tests.results.desk import form, press, text
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db

BOUTS = "/desk/spring/bouts/"


@pytest.fixture
def eight() -> Tournament:
    """Bouts 1-4 quarterfinals, 5-6 semifinals, 7-8 first consolation round, ..."""
    return load(document(entries=8))


@pytest.fixture
def director(eight: Tournament) -> Client:
    return signed_in("director", eight)


def result(number: int) -> Result:
    return Result.objects.get(bout__number=number)


def test_the_kind_follows_from_the_score(director: Client) -> None:
    for number, score, kind in ((1, "3", "decision"), (2, "8", "major decision")):
        press(director, f"{BOUTS}{number}/", "enter", winner="0", won=score, lost="0")
        assert result(number).kind == kind
    answer = press(director, f"{BOUTS}3/", "enter", winner="0", won="16", lost="1")
    assert "A technical fall is written with its time, such as 2:28. Add the time." in text(answer)
    assert form(text(answer), "enter")["won"] == "16"
    press(director, f"{BOUTS}3/", "enter", winner="1", won="16", lost="1", time="4:25")
    row = result(3)
    assert (row.kind, row.winner_side, row.score, row.time) == ("technical fall", 1, [16, 1], 265)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (
            {"kind": "major decision", "winner": "0", "won": "7", "lost": "3"},
            "7-3 is no major decision: a major decision is won by 8 to 14 points; 4 points",
        ),
        ({"winner": "0", "won": "3", "lost": "7"}, "the winner&#x27;s score goes first"),
        ({"winner": "0", "won": "4", "lost": "4"}, "A decision 4-4 is level."),
        ({"won": "4", "lost": "1"}, "A decision has a winner. Say who won."),
        ({"winner": "0"}, "Say how it ended, or give the score."),
        ({"winner": "0", "won": "4"}, "Give both figures."),
        ({"winner": "0", "kind": "fall", "time": "three"}, "“three” is no time of a bout."),
        ({"winner": "0", "kind": "fall"}, "A fall is written with its time"),
        (
            {"winner": "0", "kind": "forfeit", "won": "1", "lost": "0"},
            "A forfeit has no score; 1-0 was given.",
        ),
        ({"winner": "0", "kind": "double forfeit"}, "Nobody wins a double forfeit."),
        (
            {"winner": "0", "won": "5", "lost": "1", "misconduct": "on"},
            "Flagrant misconduct ends a bout by disqualification, not by decision.",
        ),
    ],
)
def test_what_cannot_be_is_refused_in_the_rule_books_words(
    director: Client, typed: dict[str, str], said: str
) -> None:
    answer = press(director, f"{BOUTS}1/", "enter", **typed)
    assert said in text(answer)
    assert not Result.objects.exists()


def test_overtime_riding_time_and_misconduct(director: Client) -> None:
    level = {"won": "6", "lost": "6", "overtime": "TB-2", "riding_time": "on"}
    press(director, f"{BOUTS}1/", "enter", winner="1", **level)
    assert "6-6 RT (TB-2)" in text(director.get(f"{BOUTS}1/"))
    thrown = {"kind": "disqualification", "misconduct": "on"}
    press(director, f"{BOUTS}3/", "enter", winner="0", **thrown)
    assert result(3).misconduct
    press(director, f"{BOUTS}4/", "enter", winner="none", kind="double forfeit")
    assert result(4).winner_side is None


def test_near_fall_is_asked_for_only_where_the_book_needs_it() -> None:
    """Association page: 2013 a technical fall without near fall is worth 1.0, with it 1.5."""
    old = signed_in("director", load(document(entries=8, rulebook="college-2013", settings={})))
    bare = {"won": "19", "lost": "4", "time": "5:00", "no_near_fall": "on"}
    press(old, f"{BOUTS}2/", "enter", winner="0", **bare)
    assert not result(2).near_fall
    press(old, f"{BOUTS}1/", "enter", winner="0", won="5", lost="3", no_near_fall="on")
    assert result(1).near_fall


def test_today_near_fall_is_not_asked_for(director: Client) -> None:
    assert 'name="no_near_fall"' not in text(director.get(f"{BOUTS}1/"))


def test_a_second_press_of_the_same_button_is_the_same_act(director: Client) -> None:
    page = f"{BOUTS}1/"
    sent = {**form(text(director.get(page)), "enter"), "do": "enter", "winner": "0"}
    sent |= {"won": "5", "lost": "3"}
    for _ in range(2):
        answer = director.post(page, sent, follow=True)
        assert "The result of bout 1 is recorded." in text(answer)
    assert Act.objects.filter(verb="result.entered").count() == 1


def test_a_page_that_is_old_is_refused_and_keeps_what_was_typed(
    eight: Tournament, director: Client
) -> None:
    page = f"{BOUTS}1/"
    sent = {**form(text(director.get(page)), "enter"), "do": "enter", "winner": "0"}
    sent |= {"won": "5", "lost": "3"}
    Bout.objects.filter(number=1).update(version=9)
    answer = director.post(page, sent, follow=True)
    assert "Bout 1 was changed in the meantime." in text(answer)
    assert form(text(answer), "enter")["won"] == "5"
    assert not Result.objects.exists()


def test_two_tables_cannot_decide_one_bout(eight: Tournament, director: Client) -> None:
    page = f"{BOUTS}1/"
    sent = {**form(text(director.get(page)), "enter"), "do": "enter", "winner": "1"}
    wrestle(numbered_bout(eight, 1), 0)
    answer = director.post(page, {**sent, "won": "5", "lost": "3"}, follow=True)
    assert "Bout 1 already has a result, Dec 5-3. Correct that result instead." in text(answer)


def test_a_correction_shows_what_follows_before_it_is_made(
    eight: Tournament, director: Client
) -> None:
    wrestle(numbered_bout(eight, 1), 0)
    page = f"{BOUTS}1/"
    shown = press(director, page, "look", winner="1")
    assert '"row">5 (SF)</th><td data-label="now"><span>Given1 Family125 (T1) - ' in text(shown)
    assert '"row">7 (C1)</th><td data-label="now"><span>Given8 Family125 (T8) - ' in text(shown)
    assert "Team 1: 7 → 3" in text(shown)
    assert "Team 8: 3 → 7" in text(shown)
    assert result(1).winner_side == 0
    sent = {**form(text(shown), "correct"), "do": "correct"}
    assert "The result of bout 1 is corrected." in text(director.post(page, sent, follow=True))
    assert result(1).winner_side == 1


def test_a_correction_of_the_score_alone_changes_nothing_else(
    eight: Tournament, director: Client
) -> None:
    wrestle(numbered_bout(eight, 1), 0)
    shown = press(director, f"{BOUTS}1/", "look", won="4", lost="2")
    assert "Nothing else changes" in text(shown)


def test_what_stands_in_the_way_is_listed_and_there_is_no_button(
    eight: Tournament, director: Client
) -> None:
    for number in (1, 2, 5):
        wrestle(numbered_bout(eight, number), 0)
    for shown in (
        press(director, f"{BOUTS}1/", "look", winner="1"),
        director.get(f"{BOUTS}1/?undo=1"),
    ):
        assert 'href="/desk/spring/bouts/5/"' in text(shown)
        assert not {"correct", "undo"} & {
            name for name in ("correct", "undo") if f'value="{name}"' in text(shown)
        }
    direct = director.post(f"{BOUTS}1/", {"do": "undo"}, follow=True)
    assert "Later bouts that this would change have results: 5." in text(direct)


def test_an_undo_is_looked_at_then_pressed(eight: Tournament, director: Client) -> None:
    wrestle(numbered_bout(eight, 1), 0)
    press(director, f"{BOUTS}1/?undo=1", "undo")
    assert not Result.objects.exists()
    assert numbered_bout(eight, 1).status == Bout.Status.READY


def test_a_result_is_confirmed_then_official_and_then_only_the_director_changes_it(
    eight: Tournament,
) -> None:
    wrestle(numbered_bout(eight, 1), 0)
    table, director = signed_in("table", eight), signed_in("director", eight)
    press(table, f"{BOUTS}1/", "state", state="confirmed")
    assert result(1).state == "confirmed"
    press(director, f"{BOUTS}1/", "state", state="official")
    assert result(1).state == "official"
    assert "Only the head table can change it." in text(table.get(f"{BOUTS}1/"))
    for sent in ({"do": "undo"}, {"do": "state", "state": "confirmed"}):
        assert "You may not do this" in text(table.post(f"{BOUTS}1/", sent, follow=True))
    assert result(1).state == "official"
    press(director, f"{BOUTS}1/", "look", won="9", lost="3")


def test_after_a_forfeit_the_rule_books_word_and_the_way_to_withdraw(
    eight: Tournament, director: Client
) -> None:
    wrestle(numbered_bout(eight, 1), 0, Outcome(Kind.FORFEIT, side(0)))
    page = text(director.get(f"{BOUTS}1/"))
    assert "After a forfeit the loser does not go on by the rule book" in page
    assert 'href="/desk/spring/withdrawals/?entry=125-8"' in page
    assert "Licensed medical staff and the local code decide" in page
    press(director, "/desk/spring/withdrawals/?entry=125-8&kind=medical", "do-it")
    assert Withdrawal.objects.get().entry.key == "125-8"
    assert "After a forfeit" not in text(director.get(f"{BOUTS}1/"))


def test_the_list_is_narrowed_and_made_official_as_it_was_seen(
    eight: Tournament, director: Client
) -> None:
    for number in (1, 2):
        wrestle(numbered_bout(eight, number), 0)
    assert text(director.get(f"{BOUTS}?status=entered")).count("<li id=") == 2
    assert text(director.get(f"{BOUTS}?status=ready&mat=3")).count("<li id=") == 1
    page = text(director.get(BOUTS))
    sent = {**form(page, "official"), "do": "official"}
    press(director, f"{BOUTS}2/?undo=1", "undo")
    answer = director.post(BOUTS, sent, follow=True)
    assert "1 result is official." in text(answer)
    assert result(1).state == "official"


def test_the_pad_asks_the_server_for_the_kind(eight: Tournament, director: Client) -> None:
    for query, kind in (
        ("won=7&lost=0", "decision"),
        ("won=8&lost=0", "major decision"),
        ("won=15&lost=0", "technical fall"),
        ("won=1&lost=2", ""),
        ("won=&lost=2", ""),
    ):
        answer = director.get(f"{BOUTS}1/kind/?{query}")
        assert json.loads(answer.content)["kind"] == kind


def test_a_page_follows_the_log(eight: Tournament, director: Client) -> None:
    eight.log.refresh_from_db()
    for page in ("/desk/spring/", BOUTS, "/desk/spring/mats/1/"):
        seq = director.get(page)["X-Seq"]
        assert director.get(f"{page}?after={seq}").status_code == 204
        part = director.get(f"{page}?after={int(seq) - 1}")
        assert part.status_code == 200
        assert "<html" not in text(part)
