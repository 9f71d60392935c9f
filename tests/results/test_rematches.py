"""The table of rematches: the page and the interface."""

from typing import Any

import pytest
from django.test import Client

from brackets.core.rules import SIZES
from brackets.queries.rematches import sizes_of
from tests.brackets.core.books import rules
from tests.results.championship import document, load
from tests.results.interface import with_role

pytestmark = pytest.mark.django_db
PAGE = "/desk/spring/rematches/open/"
DATA = "/api/v1/tournaments/spring/divisions/open/rematches/"


@pytest.fixture
def reader() -> Client:
    return with_role(load(document(entries=8)), "reader").client


def text_of(reader: Client, asked: str = "") -> str:
    answer = reader.get(PAGE + asked)
    assert answer.status_code == 200
    return answer.content.decode()


def data_of(reader: Client, asked: str) -> dict[str, Any]:
    answer = reader.get(DATA + asked)
    assert answer.status_code == 200
    told: dict[str, Any] = answer.json()
    return told


def test_the_page_begins_with_the_rule_book(reader: Client) -> None:
    # calculated on the form read off 20 published brackets
    text = text_of(reader)
    assert "R1-1, then C5-1" in text
    assert "as the rule book says" in text
    assert '<th scope="row">Rematch 1</th>' in text


@pytest.mark.parametrize("lines", [8, 16, 32, 64])
def test_the_latest_is_proven(reader: Client, lines: int) -> None:
    assert "No. It is proven" in text_of(reader, f"?lines={lines}&crossing=latest")
    told = data_of(reader, f"?lines={lines}&crossing=latest")["latest"]
    assert told["proven"]
    assert sorted(told["reached"]) == told["limit"]


def test_a_straight_crossing_is_not_the_latest(reader: Client) -> None:
    assert "does not reach what counting allows" in text_of(reader, "?lines=16&crossing=straight")
    told = data_of(reader, "?lines=16&crossing=straight")
    assert [one["name"] for one in told["crossings"]] == ["straight", "straight"]
    assert not told["latest"]["proven"]


@pytest.mark.parametrize(
    ("asked", "first", "again"),
    [
        ("?lines=8&wrestleback=nobody&places=4", "QF-1", None),
        ("?lines=16&wrestleback=follow-the-leader", "R1-1", "5th-1"),
        ("?lines=16&wrestleback=finalists&places=4", "R1-1", None),
        ("?lines=8&wrestleback=double-elimination", "QF-1", "C3-1"),
    ],
)
def test_other_ways_back(reader: Client, asked: str, first: str, again: str | None) -> None:
    told = data_of(reader, asked)
    assert (told["rounds"][0]["example"], told["rounds"][0]["again"]) == (first, again)
    assert told["latest"] is None
    assert "not worked out for this format" in text_of(reader, asked)


def test_more_places_than_the_format_gives_are_refused_in_words(reader: Client) -> None:
    asked = "?lines=8&wrestleback=nobody&places=8"
    assert "gives 4 places at most" in text_of(reader, asked)
    assert reader.get(DATA + asked).status_code == 409
    assert "There is no such choice" not in text_of(reader, "?lines=9")
    assert "9 is not one of the available choices" in text_of(reader, "?lines=9")


def test_the_draw_and_the_settings_lead_there() -> None:
    director = with_role(load(document(entries=8)), "director").client
    for page in ("/desk/spring/draw/", "/desk/spring/divisions/open/"):
        assert f'href="{PAGE}"' in director.get(page).content.decode()


def test_lines_are_those_that_the_rule_book_has_a_format_for() -> None:
    assert sizes_of(rules(two_pools=[6])) == (2, 3, 4, 5, 6, *SIZES)
    assert sizes_of(rules(always_lines=8)) == SIZES
    assert sizes_of(rules(round_robin_up_to=0, of_two="best-of-three")) == (2, *SIZES)
