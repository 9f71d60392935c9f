"""What each public page says."""

import re
from decimal import Decimal
from xml.etree import ElementTree as ET

import pytest
from django.test import Client

from brackets.core.layout import layout
from brackets.models import Drawn
from brackets.queries import bracket, numbered
from results.models import Result
from results.queries.gates import Gates
from results.queries.people import People
from results.queries.race import races
from results.queries.sheets import sheets
from seeding.entries.models import Entry, Tournament
from tests.results.published import SIZES, addresses, decide, published, shut

pytestmark = pytest.mark.django_db
INLINE = re.compile(
    r"<script(?![^>]*\bsrc=)|<style\b|<[^>]*\s(style|on[a-z]+)\s*=|javascript:", re.IGNORECASE
)


@pytest.fixture
def tournament() -> Tournament:
    return published()


def text_of(client: Client, page: str) -> str:
    answer = client.get(f"/t/spring/{page}")
    assert answer.status_code == 200
    return answer.content.decode()


def drawing_of(text: str) -> ET.Element:
    found = re.search(r'<svg class="sheet".*?</svg>', text, re.DOTALL)
    assert found
    return ET.fromstring(found[0])


def test_no_page_has_inline_script_or_style(client: Client, tournament: Tournament) -> None:
    for page in addresses(tournament):
        assert not INLINE.search(client.get(page).content.decode())


def test_the_list_of_tournaments_names_it(client: Client, tournament: Tournament) -> None:
    assert 'href="/t/spring/">Spring Championships' in client.get("/").content.decode()


def test_the_front_says_who_is_next_on_each_mat(client: Client, tournament: Tournament) -> None:
    text = text_of(client, "")
    for words in ("on the mat", "on deck", "in the hole", "Latest results", "Team race"):
        assert words in text
    first = numbered(tournament).filter(status__in=["ready", "waiting"]).first()
    assert first
    assert f'id="b-{first.pk}"' in text


def test_the_front_names_places_once_they_are_certain(
    client: Client, tournament: Tournament
) -> None:
    assert "Places decided" not in text_of(client, "")
    decide(tournament, 1)
    text = text_of(client, "")
    assert "Places decided" in text
    assert "finished" in text


def test_the_front_says_in_words_for_other_sites_what_it_is(
    client: Client, tournament: Tournament
) -> None:
    assert '<meta property="og:title" content="Spring Championships">' in text_of(client, "")
    assert 'og:title" content="Weight 106 · Spring Champ' in text_of(client, "weights/106/")
    assert 'og:url" content="http://testserver/t/spring/points/"' in text_of(client, "points/")


@pytest.mark.parametrize("weight", ["106", "113"])
def test_the_drawing_holds_every_bout_and_bye(
    client: Client, tournament: Tournament, weight: str
) -> None:
    text = text_of(client, f"weights/{weight}/")
    boxes = drawing_of(text).findall("g")
    drawn = Drawn.objects.get(weight_class__key=weight)
    assert {box.get("data-bout") for box in boxes} == {
        str(box.key) for box in layout(bracket(drawn)).boxes
    }
    listed = text.split('class="rounds"')[1]
    for box in boxes:
        assert f'data-bout="{box.get("data-bout")}"' in listed


def test_the_drawing_lies_inside_its_frame(client: Client, tournament: Tournament) -> None:
    drawing = drawing_of(text_of(client, "weights/106/"))
    _, _, width, height = (float(value) for value in drawing.get("viewBox", "").split())
    for box in drawing.iter("rect"):
        assert float(box.get("x", "-1")) >= 0
        assert float(box.get("x", "0")) + float(box.get("width", "0")) <= width
        assert float(box.get("y", "0")) + float(box.get("height", "0")) <= height


def test_ways_in_the_drawing_lead_to_bouts_that_are_there(
    client: Client, tournament: Tournament
) -> None:
    drawing = drawing_of(text_of(client, "weights/106/"))
    boxes = {box.get("data-bout") for box in drawing.findall("g")}
    ways = [path for path in drawing.findall("path") if path.get("data-from")]
    assert {way.get("data-from") for way in ways} <= boxes
    assert {way.get("data-to") for way in ways} <= boxes
    assert len(ways) > len(boxes)


def test_the_list_begins_with_the_current_round_and_ends_with_those_behind_it(
    client: Client, tournament: Tournament
) -> None:
    folds = re.findall(r'<details class="fold( now)?" id="round-(\w+)"( open)?>',
                       text_of(client, "weights/106/"))  # fmt: skip
    assert [bool(now) for now, _, _ in folds].index(True) == 0
    opened = [bool(opened) for _, _, opened in folds]
    assert opened == sorted(opened, reverse=True)
    assert not all(opened)
    assert folds[opened.index(False)][1] == "P"


def test_provisional_and_official_are_told_apart(client: Client, tournament: Tournament) -> None:
    assert " prov.</text>" in text_of(client, "weights/106/")
    decide(tournament, 1)
    Result.objects.update(state="official")
    text = text_of(client, "weights/106/")
    assert " prov.</text>" not in text
    assert "Official." in text
    assert "provisional" not in text


def test_a_round_robin_is_a_table(client: Client, tournament: Tournament) -> None:
    text = text_of(client, "weights/120/")
    assert "Round robin" in text
    assert 'id="pigtail"' not in text
    assert '<svg class="sheet"' not in text
    assert text.count('<th scope="row">') == SIZES["120"]
    assert "Fall 2:28" in text


def test_before_the_draw_a_sheet_lists_the_entries(client: Client, tournament: Tournament) -> None:
    shut(tournament, "draw")
    text = text_of(client, "weights/106/")
    assert "Not published yet." in text
    assert text.count('<th scope="row">') == SIZES["106"]


def test_bouts_of_a_mat_are_all_there(client: Client, tournament: Tournament) -> None:
    text = text_of(client, "bouts/?mat=2")
    numbers = re.findall(r'<span class="no">(\d+)<', text)
    wanted = numbered(tournament).filter(mat="2").values_list("number", flat=True)
    assert sorted(int(number) for number in numbers) == list(wanted)
    assert client.get("/t/spring/bouts/?mat=none").status_code == 404


def test_every_total_is_the_sum_of_what_explains_it(tournament: Tournament) -> None:
    gates = Gates.of(tournament)
    (race,) = races(tournament, gates, People.of(tournament, gates))
    assert any(one.line.total for one in race.teams)
    for one in race.teams:
        given = sum((change.points for change in one.adjusted), Decimal(0))
        assert one.line.total == sum((who.total for who in one.earners), Decimal(0)) + given


def test_team_points_say_which_bout_gave_them(client: Client, tournament: Tournament) -> None:
    text = text_of(client, "points/")
    assert re.search(r"win in \d+ R1 \+1", text)
    assert re.search(r"fall in \d+ R1 \+2", text)
    assert "Late to the mat" in text
    assert '<rect class="advancement"' in text


def test_a_team_lists_its_wrestlers(client: Client, tournament: Tournament) -> None:
    text = text_of(client, "teams/t1/")
    assert "Late to the mat" in text
    for row in Entry.objects.filter(team__key="t1").select_related("weight_class"):
        assert f'/weights/{row.weight_class.key}/">{row.weight_class.label}' in text


def test_a_wrestler_is_shown_with_his_way(client: Client, tournament: Tournament) -> None:
    gates = Gates.of(tournament)
    people = People.of(tournament, gates)
    (sheet,) = [one for one in sheets(tournament, gates, people) if one.weight.key == "106"]
    who = people.where(weight=sheet.weight.pk)[0]
    text = text_of(client, f"wrestlers/{who.handle}/")
    assert '<meta name="robots" content="noindex">' in text
    own = [bout for bout in sheet.bouts.values() if bout.has(who.entry)]
    assert own
    assert text.count("<li class=") == len(own)
