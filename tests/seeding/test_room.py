"""The seeding room: the order with its reasons, moves, ranks, adoption, the lock."""

import re
from hashlib import sha256
from itertools import count

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from seeding.entries.models import Entry, Tournament, WeightClass, Wrestler
from seeding.models import Override, SeedOrder
from tests.seeding.entries.desks import enter, signed_in, spring
from tests.seeding.rooms import beat, key, room

pytestmark = pytest.mark.django_db

NAMES = ("Ira Holm", "Tom Reed", "Sam Quill")


@pytest.fixture
def tournament() -> Tournament:
    """Holm beat Reed, Reed beat Quill, Quill beat Holm; Holm beat Quill twice."""
    made = spring()
    enter(made, "125", *NAMES)
    for day, winner, loser in (
        (6, "Holm", "Reed"),
        (7, "Reed", "Quill"),
        (8, "Quill", "Holm"),
        (9, "Holm", "Quill"),
        (10, "Holm", "Quill"),
    ):
        beat(made, day, winner, loser)
    return made


@pytest.fixture
def client(tournament: Tournament) -> Client:
    return signed_in("committee", tournament)


def order(client: Client) -> list[str]:
    return [place.name for place in client.get(room()).context["places"]]


def seeds() -> dict[str, int | None]:
    return dict(Entry.objects.values_list("wrestler__family", "seed"))


def test_the_order_says_why_with_numbers_and_bouts(client: Client) -> None:
    answer = client.get(room())
    first, second, _third = answer.context["places"]
    assert (first.name, second.name) == ("Ira Holm", "Tom Reed")
    assert (first.number, first.entry.team.name, first.record) == (1, "Team Holm", "3-1")
    assert first.totals
    assert first.why.criterion == "head-to-head"
    text = answer.content.decode()
    assert "Ira Holm beat Tom Reed" in text
    assert "2026-01-06 <strong>Ira Holm</strong> beat Tom Reed, decision 5-3" in text
    assert "Winter Classic" in text


def test_a_lower_seed_who_has_beaten_a_higher_one_is_flagged(client: Client) -> None:
    text = client.get(room()).content.decode()
    assert "Sam Quill (3) has beaten Ira Holm (1): decision 5-3, Winter Classic" in text


def test_any_two_are_compared(client: Client) -> None:
    one, other = (Wrestler.objects.get(family=family).uid for family in ("Quill", "Holm"))
    answer = client.get(room("desk-compare"), {"a": one, "b": other})
    assert answer.context["why"].above == "Ira Holm"
    assert "2026-01-09 <strong>Ira Holm</strong> beat Sam Quill" in answer.content.decode()
    same = client.get(room("desk-compare"), {"a": one, "b": one})
    assert "Choose two different wrestlers." in same.content.decode()


def test_a_move_needs_a_reason_and_says_whose_it_is(client: Client) -> None:
    sent = {"do": "move", "entry": key("Quill"), "to": "1", "reason": ""}
    text = client.post(room(), sent).content.decode()
    assert "This field is required." in text
    assert f'<option value="{key("Quill")}" selected>' in text
    assert client.post(room(), sent | {"reason": "Unbeaten since January"}).status_code == 302
    assert order(client) == ["Sam Quill", "Ira Holm", "Tom Reed"]
    text = client.get(room()).content.decode()
    assert "“Unbeaten since January”" in text
    assert "committee, 2" in text
    assert "Against the criteria:" in text
    client.post(room(), {"do": f"back-{Override.objects.get().pk}"})
    assert order(client) == ["Ira Holm", "Tom Reed", "Sam Quill"]


def test_a_move_past_the_end_is_refused(client: Client) -> None:
    sent = {"do": "move", "entry": key("Quill"), "to": "9", "reason": "why"}
    assert client.post(room(), sent).context["move"].errors["to"] == ["Choose a place from 1 to 3."]


def test_a_move_over_somebody_elses_is_refused_and_stays_typed(client: Client) -> None:
    sent = {"do": "move", "entry": key("Quill"), "to": "2", "reason": "First"}
    client.post(room(), sent | {"version": "0"})
    text = client.post(room(), sent | {"version": "0", "reason": "Second"}).content.decode()
    assert "The order of 125 was changed in the meantime:" in text
    assert "committee moved Sam Quill, 125 (Qui) to place 2 (“First”)" in text
    assert 'value="Second"' in text
    assert Override.objects.count() == 1
    assert 'name="version" value="1"' in text
    client.post(room(), sent | {"version": "1", "reason": "Second"})
    assert [row.reason for row in Override.objects.all()] == ["First", "Second"]


def test_adopting_makes_the_order_the_seeds(client: Client) -> None:
    client.post(room(), {"do": "adopt"})
    assert seeds() == {"Holm": 1, "Reed": 2, "Quill": 3}
    answer = client.get(room())
    assert "These are the seeds, since" in answer.content.decode()
    client.post(room(), {"do": "move", "entry": key("Quill"), "to": "1", "reason": "why"})
    assert "Changed since it was adopted." in client.get(room()).content.decode()
    client.post(room(), {"do": "adopt"})
    assert seeds() == {"Quill": 1, "Holm": 2, "Reed": 3}
    states = client.get(reverse("desk-seeding", args=["spring"])).content.decode()
    assert "adopted 2" in states


def test_ranks_are_put_in_and_count(client: Client) -> None:
    typed = {f"rank-{key('Quill')}": "1", f"place-{key('Quill')}": "x"}
    answer = client.post(room("desk-ranks"), {"do": "inputs", **typed})
    assert 'value="x"' in answer.content.decode()
    typed |= {f"place-{key('Quill')}": "2"}
    assert client.post(room("desk-ranks"), {"do": "inputs", **typed}).status_code == 302
    entry = Entry.objects.get(wrestler__family="Quill")
    assert (entry.rank, entry.qualifying_place) == (1, 2)
    one, other = (Wrestler.objects.get(family=family).uid for family in ("Quill", "Holm"))
    why = client.get(room("desk-compare"), {"a": one, "b": other}).context["why"]
    numbers = {says.criterion: (says.above, says.below) for says in why.says}
    assert numbers["coaches' ranking"][1] == "1"
    assert numbers["qualifying place"][1] == "2"


def test_the_lot_is_named_where_nothing_else_decides(
    client: Client, tournament: Tournament
) -> None:
    enter(tournament, "133", "Abe Yarrow", "Lou Umber")
    text = client.get(room(weight="133")).content.decode()
    assert "By lot:" in text
    assert "it can be drawn again" in text


def test_a_drawn_weight_shows_its_order_and_takes_no_move(client: Client) -> None:
    WeightClass.objects.update(locked=True)
    text = client.get(room()).content.decode()
    assert "The order stands." in text
    assert 'value="adopt"' not in text
    sent = {"do": "move", "entry": key("Quill"), "to": "1", "reason": "why"}
    assert "Weight 125 is drawn" in client.post(room(), sent).content.decode()
    ranks = {"do": "inputs", f"rank-{key('Quill')}": "1"}
    assert "Weight 125 is drawn" in client.post(room("desk-ranks"), ranks).content.decode()
    assert not SeedOrder.objects.exists()


def test_empty_weights_open_too(client: Client) -> None:
    assert "Nobody is entered yet." in client.get(room(weight="285")).content.decode()
    assert client.get(room("desk-ranks", "285")).status_code == 200
    assert client.get(room("desk-compare", "285")).status_code == 200


@pytest.mark.parametrize(
    ("role", "status"), [("owner", 200), ("director", 200), ("table", 403), ("reader", 403)]
)
def test_who_may_enter(role: str, status: int, tournament: Tournament) -> None:
    person = signed_in(role, tournament)
    pages = [reverse("desk-seeding", args=["spring"]), room(), room("desk-compare")]
    for page in [*pages, room("desk-ranks")]:
        assert person.get(page).status_code == status


@pytest.mark.parametrize("name", ["desk-seeding", "desk-ranks"])
def test_more_wrestlers_need_no_more_queries(
    name: str, client: Client, tournament: Tournament
) -> None:
    client.post(room(), {"do": "move", "entry": key("Quill"), "to": "1", "reason": "why"})
    with CaptureQueriesContext(connection) as few:
        client.get(room(name))
    enter(tournament, "125", *(f"Given{n} Family{n}" for n in range(8)))
    for n in range(7):
        beat(tournament, 11 + n, f"Family{n}", f"Family{n + 1}")
    client.post(room(), {"do": "move", "entry": key("Holm"), "to": "2", "reason": "why"})
    with CaptureQueriesContext(connection) as many:
        client.get(room(name))
    assert len(many) <= len(few)


def test_the_lot_is_drawn_again_from_what_the_page_says(
    client: Client, tournament: Tournament
) -> None:
    """By the recipe of the page alone, which shares no code with the program."""
    enter(tournament, "133", "Abe Yarrow", "Lou Umber", "Max Tarn", "Kai Voss", "Ola Wend")
    page = client.get(room(weight="133"))
    text = page.content.decode()
    found = re.search(r"Drawn from (\S+), stream (\d+);", text)
    assert found
    rows = Wrestler.objects.filter(entries__weight_class__key="133")
    names = {row.uid: row.family for row in rows}
    level = sorted(names)
    start = f"lot/{found[2]}|{found[1]}|seeding/133/1-{len(level)}|"
    assert f"lot/{found[2]}|{found[1]}|seeding/WEIGHT/FIRST-LAST|0" in text
    numbers = (
        int.from_bytes(sha256(f"{start}{block}".encode()).digest()[at : at + 8], "big")
        for block in count()
        for at in range(0, 32, 8)
    )
    for place in range(len(level), 1, -1):
        number = next(one for one in numbers if one < 2**64 - 2**64 % place)
        other = number % place
        level[place - 1], level[other] = level[other], level[place - 1]
    drawn = [place.entry.wrestler.family for place in page.context["places"]]
    assert [names[uid] for uid in level] == drawn
