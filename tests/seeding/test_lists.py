"""The list of a division: chosen, brought as a file, given back; by page and by API."""

from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from seeding.core.ladder import Ladder
from seeding.core.weighted_pairs import WeightedPairs
from seeding.entries.core.errors import SettingsStand
from seeding.entries.models import Division, Tournament
from seeding.queries import rules_of
from seeding.rulebooks import section_of, text_of
from seeding.services.lists import use_list, use_own_list
from tests.results.championship import CALL, document, load
from tests.results.interface import with_role
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db
LADDER = "kansas-2007"


@pytest.fixture
def spring() -> Tournament:
    return load(document(entries=8) | {"brackets": []})


def division(tournament: Tournament) -> Division:
    return Division.objects.get(tournament=tournament)


def test_a_list_is_used_and_given_back(spring: Tournament) -> None:
    use_list(call=CALL, division=division(spring), name=LADDER)
    assert isinstance(rules_of(division(spring)).shape, Ladder)
    use_own_list(call=CALL, division=division(spring))
    assert isinstance(rules_of(division(spring)).shape, WeightedPairs)
    assert "seeding" not in division(spring).settings


def test_single_settings_hold_over_a_list(spring: Tournament) -> None:
    row = division(spring)
    use_list(call=CALL, division=row, name=LADDER)
    client = signed_in("director", spring)
    answer = client.post(
        f"/desk/spring/divisions/{row.key}/",
        {"do": "edit", "name": "Open", "settings": "seeding.count = 5"},
        follow=True,
    )
    assert "Saved." in answer.content.decode()
    rules = rules_of(division(spring))
    assert (rules.count_at("125"), isinstance(rules.shape, Ladder)) == (5, True)


def test_a_list_stays_once_a_weight_is_drawn() -> None:
    drawn = load(document(entries=8))
    with pytest.raises(SettingsStand):
        use_list(call=CALL, division=division(drawn), name=LADDER)


def test_the_pages(spring: Tournament) -> None:
    client = signed_in("director", spring)
    page = f"/desk/spring/criteria/{division(spring).key}/"
    assert (
        "Lists that come with the program" in client.get("/desk/spring/criteria/").content.decode()
    )
    answer = client.get(f"/desk/spring/criteria/{LADDER}.toml")
    assert answer.content.decode() == text_of(LADDER)
    assert "restart = " in client.get(f"/desk/spring/criteria/lists/{LADDER}/").content.decode()
    client.post(page, {"do": "use", "name": LADDER})
    assert isinstance(rules_of(division(spring)).shape, Ladder)
    client.post(page, {"do": "own"})
    mine = text_of(LADDER).replace("restart = ", "restart = 7 #")
    answer = client.post(page, {"do": "file", "file": file("mine.toml", mine)})
    assert "The file mine.toml is not taken: " in answer.content.decode()
    assert "seeding.restart must be true or false; it is 7" in answer.content.decode()
    mine = text_of(LADDER).replace('list = "', 'list = "Ours, after ')
    client.post(page, {"do": "file", "file": file("mine.toml", mine)})
    assert rules_of(division(spring)).name.startswith("Ours, after ")
    again = client.get(f"{page}used.toml").content.decode()
    assert section_of("again.toml", again) == division(spring).settings["seeding"]


def test_a_committee_reads_the_lists_and_changes_none(spring: Tournament) -> None:
    client = signed_in("committee", spring)
    key = division(spring).key
    assert client.get("/desk/spring/criteria/").status_code == 200
    assert client.get(f"/desk/spring/criteria/{key}/used.toml").status_code == 200
    assert client.get(f"/desk/spring/criteria/{key}/").status_code == 403


def test_a_drawn_division_offers_no_other_list() -> None:
    drawn = load(document(entries=8))
    page = f"/desk/spring/criteria/{division(drawn).key}/"
    text = signed_in("director", drawn).get(page).content.decode()
    assert "Weight 125 of this division is drawn, so its list stands." in text
    assert "Use this list" not in text


def file(name: str, text: str) -> SimpleUploadedFile:
    return SimpleUploadedFile(name, text.encode())


@pytest.mark.parametrize(
    ("sent", "code"),
    [
        ({}, "invalid"),
        ({"name": "nobody"}, "unknown-list"),
        ({"text": "[seeding"}, "bad-list"),
        ({"file_name": "a.toml", "text": "[bracket]"}, "bad-list"),
    ],
)
def test_what_the_api_refuses(spring: Tournament, sent: dict[str, Any], code: str) -> None:
    api = with_role(spring, "director")
    path = f"/tournaments/spring/divisions/{division(spring).key}/list/"
    status = {"invalid": 400, "unknown-list": 404}.get(code, 409)
    said = api.act("put", path, sent, status=status)
    assert said["errors"][0]["code"] == code
