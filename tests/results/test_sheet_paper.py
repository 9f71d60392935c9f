"""Sheets as PDF: what is on them, and for whom."""

import re

import pytest
from django.test import Client
from reportlab.platypus import LongTable

from brackets.models import Bout
from brackets.queries import numbered
from results.paper.sheet import blocks
from results.paper.texts import fitted, longest
from results.queries.gates import Gates
from results.queries.papers import papers
from seeding.journal.paper import Block
from seeding.journal.paper.fonts import REGULAR, face
from tests.results.championship import document, load, wrestle
from tests.results.interface import with_role
from tests.results.published import GATES, published

pytestmark = pytest.mark.django_db
HERE = "/t/spring/weights"


def pages(made: bytes) -> int:
    return len(re.findall(rb"/Type /Page\b", made))


@pytest.mark.parametrize(("weight", "of"), [("106", 1), ("113", 1), ("120", 1)])
def test_a_sheet_is_a_file_of_so_many_pages(client: Client, weight: str, of: int) -> None:
    published()
    for size, box in (("a4", b"841.8898 595.2756"), ("letter", b"792 612")):
        answer = client.get(f"{HERE}/{weight}/sheet.pdf?paper={size}")
        assert answer["Content-Type"] == "application/pdf"
        assert answer.content.startswith(b"%PDF")
        assert box in answer.content
        assert pages(answer.content) == of


def test_the_same_sheet_is_the_same_bytes(client: Client) -> None:
    published()
    one, other = (client.get(f"{HERE}/106/sheet.pdf") for _ in range(2))
    assert one.content == other.content
    assert (
        client.get(f"{HERE}/106/sheet.pdf", headers={"If-None-Match": one["ETag"]}).status_code
        == 304
    )


def test_the_page_leads_to_it(client: Client) -> None:
    published()
    assert (
        f'href="{HERE}/106/sheet.pdf">Sheet as PDF' in client.get(f"{HERE}/106/").content.decode()
    )


def test_no_sheet_before_the_draw_is_open(client: Client) -> None:
    published(gates=[gate for gate in GATES if gate != "draw"])
    assert client.get(f"{HERE}/106/sheet.pdf").status_code == 404
    assert client.get(f"{HERE}/999/sheet.pdf").status_code == 404


def test_names_follow_the_gates() -> None:
    tournament = published(gates=[gate for gate in GATES if gate != "entries"])
    (found,) = papers(tournament, Gates.of(tournament), tournament.weights.get(key="106"))
    assert not [1 for bout in found.sheet.bouts.values() for side in bout.sides if side.person]
    (opened,) = papers(tournament, weight=tournament.weights.get(key="106"))
    told = {
        side.person.name
        for bout in opened.sheet.bouts.values()
        for side in bout.sides
        if side.person
    }
    assert told
    assert not [name for name in told if "Hidden" in name]


def test_the_desk_prints_what_is_not_published(client: Client) -> None:
    tournament = published(gates=[])
    reader = with_role(tournament, "reader").client
    answer = reader.get("/desk/spring/sheets/weights/106/")
    assert answer["Content-Type"] == "application/pdf"
    assert answer["Cache-Control"] == "no-store"
    assert client.get("/desk/spring/sheets/weights/106/").status_code == 302


def test_a_text_is_made_narrower_and_then_cut() -> None:
    face()
    assert fitted("Ada", REGULAR, 12, 100) == ("Ada", 12)
    words, size = fitted("Ada Alder-Bramblewood", REGULAR, 12, 110)
    assert (words, size < 12) == ("Ada Alder-Bramblewood", True)
    words, size = fitted("Ada Alder-Bramblewood of the Hill", REGULAR, 12, 60)
    assert words.endswith("…")
    assert size == pytest.approx(9.6)


def test_a_name_is_printed_in_its_longest_form_that_fits() -> None:
    face()
    forms = ("Ada Alder-Bramblewood", "A. Alder-Bramblewood", "Alder-Bramblewood")
    for room, form in ((200, 0), (125, 1), (110, 2), (100, 1), (90, 2), (30, 2)):
        assert longest(forms, REGULAR, 12, room) == forms[form]


def test_a_listed_bout_says_who_won_and_for_whom_both_wrestle() -> None:
    meet = load(document(entries=5))
    ready = numbered(meet).filter(status=Bout.Status.READY).first()
    assert ready
    wrestle(ready, 0)
    (paper,) = papers(meet, weight=meet.weights.get(key="125"))
    texts = [words for block in blocks(paper, 250) for words in cells(block)]
    row = next(bout for bout in paper.sheet.real if bout.number == ready.number)
    winner, loser = (side.person for side in row.sides)
    assert winner
    assert loser
    assert f"{winner.name} ({winner.team.short}), won" in texts
    assert f"{loser.name} ({loser.team.short})" in texts
    assert f"{loser.name} ({loser.team.short}), won" not in texts


def cells(block: Block) -> list[str]:
    """The texts of a table's cells."""
    rows = vars(block)["_cellvalues"] if isinstance(block, LongTable) else []
    return [cell.text for row in rows for cell in row]
