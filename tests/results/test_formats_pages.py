"""Pages and interface of the other formats: words, cross tables, what is spared."""

import re
from typing import Any

import pytest
from django.test import Client

from brackets.queries import numbered
from results.core.outcomes import Kind, Outcome
from seeding.entries.models import Tournament
from tests.results.championship import document, load, wrestle
from tests.results.published import GATES
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db
API = "/api/v1/tournaments/spring/weights/125/bracket/"


def loaded(entries: int, places: int = 8, **settings: object) -> Tournament:
    given = {"team_points.byes": "none"}
    made = document(
        entries=entries, settings=given | {f"bracket.{k}": v for k, v in settings.items()}
    )
    made["tournament"]["publish"] = dict.fromkeys(GATES, True)
    made["weight_classes"][0]["places"] = places
    return load(made)


def wrestled(tournament: Tournament, *rounds: str) -> None:
    """The top side wins every bout of these rounds that can be wrestled, by fall."""
    for code in rounds:
        for bout in numbered(tournament).filter(round=code, status="ready"):
            wrestle(bout, 0, Outcome(Kind.FALL, 0, time=60))


def page(client: Client) -> str:
    return client.get("/t/spring/weights/125/").content.decode()


def bouts(client: Client) -> dict[str, dict[str, Any]]:
    return {one["id"]: one for one in client.get(API).json()["bouts"]}


def test_a_repechage_says_whose_victim_comes(client: Client) -> None:
    tournament = loaded(16, 4, wrestleback="finalists")
    number = numbered(tournament).get(round="SF", position=1).number
    text = page(client)
    assert f"beaten in R1 by the winner of {number}" in text
    assert f"lost R1 to winner {number}" in text
    found = bouts(client)
    assert found["125.C1-1"]["sides"][0]["beaten"] == {"by": "125.SF-1", "round": "R1"}
    assert found["125.C1-1"]["sides"][0]["feeder"] is None
    assert (found["125.R1-1"]["loser_to"], found["125.R1-1"]["loser_may_to"]) == (None, "125.C1-1")
    assert 'data-loser="C1-1"' in text


def test_two_pools_are_cross_tables_and_a_drawing(client: Client) -> None:
    tournament = loaded(7, two_pools=[6, 7])
    text = page(client)
    assert '<section id="poolA"><h2>Pool A' in text
    assert '<section id="poolB"><h2>Pool B' in text
    assert text.count('<svg class="sheet"') == 1
    assert "first of pool A" in text
    assert "second of pool B" in text
    side = bouts(client)["125.SF-1"]["sides"][0]
    assert side["ranked"] == {"pool": "A", "rank": 1}
    wrestled(tournament, "RR1", "RR2", "RR3")
    ranks = [part.split("<")[0] for part in page(client).split('data-label="Rank"><span>')[1:]]
    assert sorted(ranks) == ["1", "1", "2", "2", "3", "3", "4"]


def test_a_best_of_three_spares_its_third_bout(client: Client) -> None:
    tournament = loaded(2, 4, of_two="best-of-three")
    assert "if neither has won both" in page(client)
    found = bouts(client)
    assert [found[f"125.RR{n}-1"]["needed"] for n in (1, 2, 3)] == [None, None, "level"]
    wrestled(tournament, "RR1", "RR2")
    text = page(client)
    assert "<h2>Best of three" in text
    assert "2 of 2 bouts" in text
    assert "not needed" in text
    assert bouts(client)["125.RR3-1"]["status"] == "spared"
    mat = numbered(tournament).get(round="RR3").mat
    assert "not needed" in client.get(f"/t/spring/bouts/?mat={mat}").content.decode()


def test_the_second_final_is_said_to_be_uncertain(client: Client) -> None:
    loaded(8, wrestleback="double-elimination")
    text = page(client)
    assert "if the unbeaten lost" in text
    assert ">if needed</text>" in text
    assert bouts(client)["125.1st2-1"]["needed"] == "upset"


def test_a_large_sheet_is_drawn_in_parts(client: Client) -> None:
    loaded(64)
    text = page(client)
    assert text.count('<svg class="sheet"') == 3
    assert "Half 2 of 2, Round 1 to" in text


def test_what_a_pigtail_is_stands_where_there_is_one(client: Client) -> None:
    meet = loaded(33)
    assert "two share one starting line" in page(client)
    desk = signed_in("director", meet).get("/desk/spring/draw/weights/125/").content.decode()
    assert "two share one starting line" in desk


def test_who_waits_for_the_loser_of_a_bye_has_a_bye(client: Client) -> None:
    loaded(12)
    text = page(client)
    waits = re.findall(r">((?:loser|winner) of [^<]*)<", text)
    assert waits
    assert not [words for words in waits if "R1-" in words]
    first = re.search(r'id="round-C1".*?</details>', text, re.DOTALL)
    assert first
    assert ">bye<" in first[0]
