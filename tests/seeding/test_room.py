"""The seeding room: the order with its reasons, moves, ranks, adoption, the lock."""

import re
from datetime import timedelta
from hashlib import sha256
from itertools import count

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from django.utils.html import escape

from seeding.entries.models import Entry, Tournament, WeightClass, Wrestler
from seeding.entries.templatetags.shown import moment
from seeding.models import Override, SeedOrder
from seeding.queries.list_used import groups_said
from seeding.services import open_challenges
from seeding.services.lists import use_list
from tests.seeding.entries.desks import CALL, enter, signed_in, spring
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


def test_the_page_names_its_list_and_says_how_it_works(
    client: Client, tournament: Tournament
) -> None:
    text = client.get(room()).content.decode()
    used = client.get(room()).context["used"]
    assert used.book
    told = (used.name, used.shape, used.totals, used.source, used.book, *used.criteria)
    for words in (*told, *used.settings, *used.counted, "How this list works"):
        assert escape(words) in text, words
    assert reverse("desk-criteria", args=["spring"]) in text
    use_list(call=CALL, division=tournament.divisions.get(), name="wisconsin-2022")
    other = client.get(room()).context["used"]
    assert (other.book, other.name) == ("", "State meet of Wisconsin, 2022")


def test_equal_places_read_otherwise_than_places_in_order() -> None:
    told = [groups_said(groups) for groups in ([[2, 3]], [[4], [5]], [[1, 2], [0]])]
    assert told == ["2 = 3", "4, then 5", "1 = 2, then took part"]


def test_the_overview_says_when_something_was_done_after_the_adoption(client: Client) -> None:
    overview = reverse("desk-seeding", args=["spring"])
    client.post(room(), {"do": "adopt"})
    assert "changed since" not in client.get(overview).content.decode()
    client.post(room(), {"do": "move", "entry": key("Quill"), "to": "1", "reason": "why"})
    assert "changed since" in client.get(overview).content.decode()
    client.post(room(), {"do": "adopt"})
    assert "changed since" not in client.get(overview).content.decode()


def test_adopting_while_challenges_are_heard_is_warned_of(
    client: Client, tournament: Tournament
) -> None:
    until = timezone.now() + timedelta(hours=3)
    assert "The window is still open." not in client.get(room()).content.decode()
    open_challenges(call=CALL, weight=tournament.weights.get(key="125"), until=until)
    text = client.get(room()).content.decode()
    assert "The window is still open." in text
    assert f"Challenges are heard until {moment(until, tournament.time_zone)}" in text


def test_a_drawn_weight_says_who_adopted_its_order(client: Client) -> None:
    client.post(room(), {"do": "adopt"})
    WeightClass.objects.update(locked=True)
    text = client.get(room()).content.decode()
    assert re.search(r"The order stands\. Adopted [^<]+, by committee\.", text)


@pytest.mark.parametrize("size", [3, 11])
def test_the_page_of_fewest_violations_lists_what_can_be_compared(
    size: int, client: Client, tournament: Tournament
) -> None:
    """A circle of neighbours has as many best orders as members; eleven are too many to read."""
    enter(tournament, "133", *(f"Given Family{n}" for n in range(size)))
    for n in range(size):
        beat(tournament, 11 + n, f"Family{n}", f"Family{(n + 1) % size}")
    text = client.get(room("desk-violations", "133")).content.decode()
    assert f"There are {size} orders of these with as few violations." in text
    assert ("Given Family0 · Given Family1" in text) == (size == 3)
    assert ("Of so many wrestlers the orders are not listed." in text) == (size == 11)


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
    """By the recipe, the text and the ids of the page alone, with no code of the program."""
    enter(tournament, "133", "Abe Yarrow", "Lou Umber", "Max Tarn", "Kai Voss", "Ola Wend")
    page = client.get(room(weight="133"))
    text = page.content.decode()
    found = re.search(r"Drawn from (\S+), stream (\d+);", text)
    assert found
    start = f"lot/{found[2]}|{found[1]}|seeding/133/1-5|"
    assert f"<code>{start}0</code>" in text
    names = dict(re.findall(r"<li><code>(\S+)</code> \S+ (\S+)</li>", text))
    level = list(names)
    assert level == sorted(level)
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
    told = re.search(r"By lot:</strong> ([^<]+)\. <", text)
    assert told
    assert [name.split()[-1] for name in told[1].split(", ")] == drawn
