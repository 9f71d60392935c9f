"""Who is out is told wherever he waits for a bout; why, only to those who direct."""

import re
from typing import Any

import pytest

from brackets.models import Bout
from results.core.outcomes import Kind, Outcome
from results.models import Withdrawal
from results.queries.leavers import leavers
from results.services import withdraw
from seeding.entries.models import Entry, Tournament
from tests.results.championship import CALL, wrestle
from tests.results.desk import text
from tests.results.interface import Api
from tests.results.overruled import at
from tests.results.test_overruled import DESK, SHEET, box_of, event, page, row_of, words
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db

OUT = "/desk/spring/withdrawals/?entry=125-8&kind=medical"


@pytest.fixture
def waiting() -> Tournament:
    """The eighth has lost his quarterfinal and waits in C1-1 for the loser of another."""
    tournament = event()
    wrestle(at("QF-1"), 0)
    return tournament


def gone(kind: str = "medical") -> Bout:
    """The eighth withdraws; the bout that he waits in."""
    withdraw(call=CALL, entry=eighth(), kind=kind)
    return at("C1-1")


def eighth() -> Entry:
    return Entry.objects.select_related("weight_class__division", "tournament", "wrestler").get(
        key="125-8"
    )


def own() -> str:
    return f"/t/spring/wrestlers/{eighth().wrestler.uid}/"


def test_the_preview_names_the_bouts_in_which_he_waits(waiting: Tournament) -> None:
    number = at("C1-1").number
    seen = words(text(signed_in("director", waiting).get(OUT)))
    who = "Given8 Family125 (T8)"
    assert f"{number} (C1-1) 125 {who} {who}: will be a forfeit" in seen
    assert "entered out: medical" in seen
    assert not Withdrawal.objects.exists()


def test_the_public_sees_that_he_is_out_and_not_why(waiting: Tournament) -> None:
    assert "out" not in row_of(page(), at("C1-1")).split()
    assert "chip out" not in page(own())
    bout = gone()
    sheet = page()
    for html in (sheet, page(own())):
        line = row_of(html, bout)
        assert "Given8 Family125 T8 out" in line
        assert "will be a forfeit" in line
        assert "medical" not in html.lower()
    assert "will be a forfeit" in box_of(sheet, bout)
    assert "State out" in words(page(own()))
    team = page("/t/spring/teams/t8/")
    row = words(team.partition('<tr id="entry-')[2].partition("</tr>")[0]).split()
    assert "out" in row
    assert str(bout.number) not in row


def test_once_the_other_is_there_the_forfeit_is_told_and_no_more(waiting: Tournament) -> None:
    bout = gone()
    wrestle(at("QF-2"), 0)
    line = row_of(page(), bout)
    assert "M. For." in line
    assert "out" not in line.split()
    assert "will be a forfeit" not in line


def test_while_results_or_entries_are_closed_nobody_is_said_to_be_out(waiting: Tournament) -> None:
    gone()
    Tournament.objects.update(shows_results=False)
    for path in (SHEET, own()):
        assert "will be a forfeit" not in page(path)
        assert "chip out" not in page(path)
    Tournament.objects.update(shows_results=True, shows_entries=False)
    assert "will be a forfeit" not in page()
    assert "chip out" not in page()


def test_the_desk_says_it_and_why_to_those_who_direct(waiting: Tournament) -> None:
    bout = gone()
    pages = (
        f"{DESK}bouts/?weight=125",
        f"{DESK}bouts/{bout.number}/",
        f"{DESK}mats/A/",
        f"{DESK}entries/125/",
    )
    for role, said in (("director", "out: medical"), ("table", "out")):
        client = signed_in(role, waiting)
        for path in pages:
            html = text(client.get(path))
            chips = [words(one) for one in re.findall(r'<span class="chip out">.*?</span>', html)]
            assert chips == [said], (role, path)
        assert "chip out" not in text(client.get(f"{DESK}bouts/?status=ready"))


def test_who_was_thrown_out_in_a_bout_is_out_too(waiting: Tournament) -> None:
    misconduct = Outcome(Kind.DISQUALIFICATION, 1, misconduct=True)
    wrestle(at("QF-2"), 1, misconduct)
    loser = at("QF-2").top
    assert loser
    assert leavers([loser.pk, eighth().pk]) == {loser.pk: "flagrant misconduct"}
    assert "State out" in words(page(f"/t/spring/wrestlers/{loser.wrestler.uid}/"))
    winner = at("QF-2").bottom
    assert winner
    assert "State out" not in words(page(f"/t/spring/wrestlers/{winner.wrestler.uid}/"))


def test_nobody_asks_about_nobody(django_assert_num_queries: Any) -> None:
    with django_assert_num_queries(0):
        assert leavers([]) == {}


def test_the_interface_says_it(waiting: Tournament) -> None:
    gone()
    found = Api().get("/tournaments/spring/entries/")["items"]
    assert [one["name"] for one in found if one["out"]] == ["Given8 Family125"]
    signed_in("reader", waiting)
    inside = Api(waiting.roles.get().user).get("/tournaments/spring/entries/")["items"]
    assert [one["entry"] for one in inside if one["out"]] == ["125-8"]
    assert "medical" not in str(inside)
