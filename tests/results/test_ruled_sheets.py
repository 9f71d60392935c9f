"""What was ruled is marked on every sheet: drawing, list, cross table, places, paper, file."""

import re
import zipfile
from typing import Any

import pytest
from django.test import Client
from pytest_django import DjangoCaptureOnCommitCallbacks
from reportlab.platypus import Paragraph, Table

from brackets.core.drafting import Wanted, WantedPlace, WantedResult
from brackets.core.graph import BoutKey
from brackets.core.replay import Choice
from brackets.models import Bout, Drawn, Placing
from brackets.queries import numbered
from results.models import Ruling
from results.paper.drawn import Drawn as Drawing
from results.paper.sheet import blocks
from results.queries.gates import Gates
from results.queries.papers import papers
from results.serializers.document import dump
from results.services import order_sheets, rule, take_back_ruling
from seeding.entries.models import Tournament
from seeding.journal.models import Job
from tests.results.championship import CALL, document, load, wrestle
from tests.results.desk import text
from tests.results.overruled import OTHER, at, chosen
from tests.results.overruled import REASON as TURNED
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db

HERE = "/t/spring/weights/125/"
REASON = "the buzzer had gone"
GATES = ("entries", "seeds", "draw", "results", "team_points")


def wrestled(entries: int, gates: tuple[str, ...] = GATES) -> Tournament:
    file = document(entries=entries)
    file["tournament"]["publish"] = {gate: gate in gates for gate in GATES}
    tournament = load(file)
    while ready := numbered(tournament).filter(status=Bout.Status.READY).first():
        wrestle(ready, 0)
    return tournament


def ruled(wanted: Wanted) -> Ruling:
    drawn = Drawn.objects.select_related("weight_class__division").get()
    act = rule(call=CALL, drawn=drawn, wanted=wanted, reason=REASON)
    return Ruling.objects.get(pk=act.subject["ruling"])


def placed(place: int) -> str:
    return Placing.objects.get(place=place).entry.key


def boxes(page: str) -> dict[str, str]:
    """The mark of every box of the drawing that has one, by bout."""
    parts = re.split(r'<g class="bout [^>]*data-bout="', page)[1:]
    marks = (
        (one.partition('"')[0], re.search(r'class="mark">.*?>(§[\d,]+)<', one)) for one in parts
    )
    return {key: mark[1] for key, mark in marks if mark}


def cells(table: Any) -> list[list[Paragraph]]:
    found: list[list[Paragraph]] = table._cellvalues
    return found


def printed(tournament: Tournament, *, reasons: bool = False, gates: Gates | None = None) -> str:
    """All words on paper, outside of drawings."""
    (paper,) = papers(tournament, gates) if gates else papers(tournament)
    words = []
    for block in blocks(paper, 250, reasons=reasons):
        if isinstance(block, Paragraph):
            words.append(block.getPlainText())
        elif isinstance(block, Table):
            words += [cell.getPlainText() for row in cells(block) for cell in row]
    return "\n".join(words)


def test_a_ruled_bout_and_a_ruled_place_are_marked_in_the_drawing_and_told_below() -> None:
    tournament = wrestled(8)
    ruled(WantedResult(BoutKey("5th", 1), 1))
    ruled(WantedPlace(placed(4), 3, shared=False))
    page = text(Client().get(HERE))
    assert boxes(page) == {"5th-1": "§1", "3rd-1": "§2"}
    below = page.partition('<section id="rulings">')[2].partition("</section>")[0]
    assert re.findall(r"<strong>(§\d)</strong>", below) == ["§1", "§2"]
    assert "goes on as the winner of bout" in below
    assert "has place 3" in below
    places = page.partition('<section id="places">')[2].partition("</section>")[0]
    assert places.count("§2") == 2
    assert "§1" not in places
    assert REASON not in page
    desk = text(signed_in("reader", tournament).get("/desk/spring/rulings/"))
    assert "125 <strong>§1</strong>" in desk


def test_who_has_no_place_by_a_ruling_is_marked_where_he_would_have_won_it() -> None:
    wrestled(8)
    ruled(WantedPlace(placed(8), None, shared=False))
    assert boxes(text(Client().get(HERE))) == {"7th-1": "§1"}


def test_a_ruling_that_is_taken_back_leaves_no_mark() -> None:
    wrestled(8)
    take_back_ruling(call=CALL, ruling=ruled(WantedResult(BoutKey("5th", 1), 1)))
    page = text(Client().get(HERE))
    assert boxes(page) == {}
    assert "§" not in page


def test_while_results_are_closed_no_sheet_tells_of_rulings() -> None:
    tournament = wrestled(8, ("entries", "seeds", "draw"))
    ruled(WantedResult(BoutKey("5th", 1), 1))
    assert "§" not in text(Client().get(HERE))
    assert "§" not in printed(tournament, gates=Gates.of(tournament))


def test_a_cross_table_marks_bouts_and_places() -> None:
    tournament = wrestled(4)
    first = numbered(tournament).order_by("number")[0]
    ruled(WantedResult(first.key, 1))
    ruled(WantedPlace(placed(2), 1, shared=False))
    table = text(Client().get(HERE)).partition('<section id="pool">')[2].partition("</section>")[0]
    assert table.count("§1") == 2
    assert table.count("§2") == 2
    words = printed(tournament)
    assert len(re.findall(r"^(won|lost) .* §1$", words, re.MULTILINE)) == 2
    assert sorted(re.findall(r"^(\d) §2$", words, re.MULTILINE)) == ["1", "2"]
    assert "§1 Ruling: " in words


def test_paper_marks_them_and_only_the_desk_is_told_why() -> None:
    tournament = wrestled(8)
    ruled(WantedResult(BoutKey("5th", 1), 1))
    ruled(WantedPlace(placed(4), 3, shared=False))
    (paper,) = papers(tournament)
    drawn = [one for one in blocks(paper, 250) if isinstance(one, Drawing)]
    marks = [box.mark.words for one in drawn for box in one.drawing.boxes if box.mark]
    assert sorted(marks) == ["§1", "§2"]
    public = printed(tournament)
    assert "§1 Ruling: " in public
    assert len(re.findall(r"Places: .*", public)) == 1
    assert re.findall(r"3 Given\d Family125 §2", public)
    assert REASON not in public
    assert f"“{REASON}” (operator)" in printed(tournament, reasons=True)


def test_a_void_bout_is_told_on_every_sheet_and_only_the_desk_is_told_why() -> None:
    tournament = wrestled(8)
    semifinal = at("SF-1").number
    chosen("QF-1", OTHER, other=Choice.VOID)
    (paper,) = papers(tournament)
    void = [one.says for one in paper.sheet.void]
    told = next(one for one in void if one.startswith(f"Bout {semifinal}, "))
    assert re.search(rf": counts for nothing. Now bout {at('SF-1').number}\.$", told)
    page, public = text(Client().get(HERE)), printed(tournament)
    assert all(one in page and f"Void. {one}" in public for one in void)
    assert TURNED not in public
    assert printed(tournament, reasons=True).count(f"“{TURNED}” (operator)") == len(void)


def test_names_that_are_not_published_are_in_no_legend() -> None:
    tournament = wrestled(8)
    ruled(WantedResult(BoutKey("5th", 1), 1))
    tournament.entries.update(publish="hidden")
    assert "§1 Ruling: Wrestler" in printed(tournament)
    assert "Family125" not in printed(tournament)
    closed = Gates(entries=False, seeds=False, draw=True, results=True, points=True)
    assert "a wrestler goes on" in printed(tournament, gates=closed)


def test_the_file_says_that_a_bout_is_ruled_and_how_it_was_wrestled_in_the_results() -> None:
    tournament = wrestled(8)
    number = at("5th-1").number
    ruled(WantedResult(BoutKey("5th", 1), 1))
    file = dump(tournament)
    (bout,) = (one for one in file["bouts"] if one.get("ruled"))
    assert (bout["round"], bout["winner"]) == ("5th", bout["sides"][1])
    assert "kind" not in bout
    (result,) = (one for one in file["results"] if one["bout"] == number)
    assert (result["winner"], result["kind"]) == (bout["sides"][0], "decision")


def test_reasons_are_on_the_desks_paper_only_where_asked_for() -> None:
    tournament = wrestled(8)
    ruled(WantedResult(BoutKey("5th", 1), 1))
    client, page = signed_in("reader", tournament), "/desk/spring/sheets/weights/125/"
    plain, told = (client.get(address).content for address in (page, f"{page}?reasons"))
    assert plain != told
    assert (
        Client().get(f"{HERE}sheet.pdf?reasons").content == Client().get(f"{HERE}sheet.pdf").content
    )


def test_the_file_of_sheets_has_marks_and_legend(
    django_capture_on_commit_callbacks: DjangoCaptureOnCommitCallbacks,
) -> None:
    tournament = wrestled(8)
    ruled(WantedResult(BoutKey("5th", 1), 1))
    with django_capture_on_commit_callbacks(execute=True):
        order_sheets(call=CALL, tournament=tournament)
    drawing = unpacked(Job.objects.get())
    assert drawing.count(">§1<") == 2
    assert drawing.count(">by ruling<") == 1
    assert "Ruling: " in drawing
    assert REASON not in drawing


def unpacked(job: Job) -> str:
    with job.product.open("rb") as file, zipfile.ZipFile(file) as packed:
        return packed.read(packed.namelist()[0]).decode()
