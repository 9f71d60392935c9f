"""A winner by a ruling is shown as one; the result that it went before stays with who won it."""

import re

import pytest

from brackets.core.drafting import WantedResult
from brackets.models import Bout
from results.core.outcomes import Kind, Outcome
from results.queries.gates import Gates
from results.services import rule
from seeding.entries.models import Tournament
from tests.results.championship import CALL, document, load, side, wrestle
from tests.results.desk import text
from tests.results.interface import Api
from tests.results.overruled import at, drawn
from tests.results.published import told
from tests.results.test_ruled_sheets import GATES, printed
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db

SHEET, DESK = "/t/spring/weights/125/", "/desk/spring/"
WRESTLED = "wrestled: First Dec 5-3"


def event(entries: int = 8) -> Tournament:
    """The family names are told apart by the seeds."""
    file = document(entries=entries)
    file["tournament"] |= {"publish": dict.fromkeys(GATES, True), "mats": ["A"]}
    for item, family in zip(file["entries"], ("First", "Second", "Third", "Fourth"), strict=False):
        item["family"] = family
    return load(file)


def ruled(key: str, winner: int) -> Bout:
    """That side goes on as the winner of a bout; the bout as it stands then."""
    wanted = WantedResult(at(key).key, side(winner))
    rule(call=CALL, drawn=drawn(), wanted=wanted, reason="protest")
    return at(key)


def words(html: str) -> str:
    """What a page says, without its marks."""
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


def page(path: str = SHEET) -> str:
    return told([path])[path][1]


def line(bout: Bout) -> str:
    """What the line of a bout says on the sheet."""
    return row_of(page(), bout)


def row_of(html: str, bout: Bout) -> str:
    """What the line of a bout says in a list of bouts."""
    found = re.search(rf'<li\b[^>]* id="b-{bout.pk}".*?</li>', html, re.DOTALL)
    assert found
    return words(found[0])


def box_of(html: str, bout: Bout) -> str:
    """What the box of a bout says in the drawing."""
    box = rf'<g class="bout [^>]*data-bout="{bout.key}".*?(?=<g class="bout|</svg>)'
    found = re.search(box, html, re.DOTALL)
    assert found
    return words(found[0])


def test_public_pages_say_by_what_he_won() -> None:
    event()
    wrestle(at("QF-1"), 0)
    bout = ruled("QF-1", 1)
    seen = line(bout)
    assert f"by ruling {WRESTLED} provisional" in seen
    assert "Given8 Family125 won" in seen
    box = box_of(page(), bout)
    assert "by ruling prov." in box
    assert "Dec" not in box
    assert bout.winner
    for who in (bout.top, bout.winner):
        assert who
        own = page(f"/t/spring/wrestlers/{who.wrestler.uid}/")
        assert f"by ruling {WRESTLED}" in row_of(own, bout)


def test_a_ruling_for_who_had_won_leaves_the_result_as_it_is() -> None:
    event()
    wrestle(at("QF-1"), 0)
    seen = line(ruled("QF-1", 0))
    assert "Dec 5-3 provisional" in seen
    assert "by ruling" not in seen


def test_a_bout_that_was_not_wrestled_has_no_result_to_name() -> None:
    event()
    seen = line(ruled("QF-1", 1))
    assert "by ruling official ruling §1" in seen
    assert ":" not in seen


def test_a_forfeit_was_entered_and_not_wrestled_and_nobody_is_named_who_did_not_win() -> None:
    event()
    wrestle(at("QF-1"), 0, Outcome(Kind.FORFEIT, 0))
    assert "by ruling entered: First For." in line(ruled("QF-1", 1))
    wrestle(at("QF-2"), 0, Outcome(Kind.DOUBLE_DISQUALIFICATION, None))
    assert "by ruling wrestled: DDQ" in line(ruled("QF-2", 1))


def test_who_had_won_is_named_as_the_page_names_people() -> None:
    """Two of one name in full; who is not published by his side."""
    tournament = event()
    wrestle(at("QF-1"), 0)
    bout = ruled("QF-1", 1)
    tournament.entries.update(publish="hidden")
    assert re.search(r"by ruling wrestled: Wrestler \d Dec 5-3", line(bout))
    tournament.entries.update(publish="full")
    assert bout.top
    bout.top.wrestler.family = "Family125"
    bout.top.wrestler.save()
    assert "wrestled: G. Family125" not in line(bout)
    assert "wrestled: Given1 Family125 Dec 5-3" in line(bout)
    Tournament.objects.update(shows_entries=False)
    assert "by ruling wrestled: red Dec 5-3" in line(bout)


def test_while_results_are_closed_nothing_is_said_to_be_ruled() -> None:
    event()
    wrestle(at("QF-1"), 0)
    ruled("QF-1", 1)
    Tournament.objects.update(shows_results=False)
    assert "by ruling" not in page()


def test_cross_table_and_paper_say_it() -> None:
    tournament = event(entries=4)
    first = Bout.objects.order_by("number")[0].key
    wrestle(at(str(first)), 0)
    ruled(str(first), 1)
    table = words(page().partition('<section id="pool">')[2].partition("</section>")[0])
    assert "won by ruling §1" in table
    assert "lost by ruling §1" in table
    printed_ = printed(tournament)
    assert {"won by ruling §1", "lost by ruling §1"} <= set(printed_.split("\n"))
    assert re.search(r"^by ruling wrestled: \w+ Dec 5-3 §1$", printed_, re.MULTILINE)
    open_ = Gates(entries=False, seeds=False, draw=True, results=False, points=True)
    assert "by ruling" not in printed(tournament, gates=open_)


def test_the_desk_says_it() -> None:
    tournament = event()
    wrestle(at("QF-1"), 0)
    bout = ruled("QF-1", 1)
    director = signed_in("director", tournament)
    said = f"by ruling {WRESTLED}"
    assert said in row_of(text(director.get(f"{DESK}bouts/")), bout)
    assert f"· {said}" in words(text(director.get(f"{DESK}bouts/{bout.number}/")))
    mat = words(text(director.get(f"{DESK}mats/A/")))
    assert f"Last: bout {bout.number}, by ruling, Given8 Family125 ({WRESTLED})" in mat
    undo = words(text(director.get(f"{DESK}mats/A/undo/")))
    assert said in undo
    assert "Before Dec 5-3 is undone" in undo


def test_nobody_is_sent_out_by_a_result_that_a_ruling_went_before() -> None:
    """Who forfeited goes on by a ruling; who then lost did not forfeit."""
    director = signed_in("director", event())
    wrestle(at("QF-1"), 0, Outcome(Kind.FORFEIT, 0))
    bout = f"{DESK}bouts/{at('QF-1').number}/"
    assert "After a forfeit" in text(director.get(bout))
    ruled("QF-1", 1)
    assert "After a forfeit" not in text(director.get(bout))


def test_the_interface_says_it() -> None:
    event()
    wrestle(at("QF-1"), 0)
    wrestle(at("QF-2"), 0)
    bout = ruled("QF-1", 1)
    found = Api().get("/tournaments/spring/bouts/")["items"]
    told_ = {item["number"]: item["by_ruling"] for item in found}
    assert [number for number, by in told_.items() if by] == [bout.number]
    (item,) = [one for one in found if one["number"] == bout.number]
    assert (item["result"]["winner"], item["sides"][1]["won"]) == ("top", True)
