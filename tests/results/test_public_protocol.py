"""How public pages are served: validators, freshness, the live update, no session, few queries."""

import re
from collections.abc import Callable
from contextlib import AbstractContextManager
from typing import Any

import pytest
from django.test import Client

from seeding.entries.models import Tournament, User
from seeding.journal.queries import seq_of
from tests.results.championship import document, load
from tests.results.published import addresses, decide, published

pytestmark = pytest.mark.django_db
Counting = Callable[[int], AbstractContextManager[Any]]
FRESH = "public, max-age=2, stale-while-revalidate=30, stale-if-error=600"


@pytest.fixture
def tournament() -> Tournament:
    return published()


def test_pages_carry_a_validator_and_may_be_kept(client: Client, tournament: Tournament) -> None:
    for page in addresses(tournament):
        answer = client.get(page)
        assert answer["Cache-Control"] == FRESH
        again = client.get(page, headers={"if-none-match": answer["ETag"]})
        assert again.status_code == 304
        assert not again.content


def test_an_act_changes_the_validator(client: Client, tournament: Tournament) -> None:
    before = client.get("/t/spring/")["ETag"]
    decide(tournament, 1)
    answer = client.get("/t/spring/", headers={"if-none-match": before})
    assert answer.status_code == 200
    assert answer["ETag"] != before


def test_a_closed_gate_changes_the_validator(client: Client, tournament: Tournament) -> None:
    before = client.get("/t/spring/")["ETag"]
    Tournament.objects.update(shows_results=False)
    assert client.get("/t/spring/", headers={"if-none-match": before}).status_code == 200


def test_nothing_newer_is_204(client: Client, tournament: Tournament) -> None:
    seq = seq_of(tournament.log_id)
    for page in addresses(tournament)[1:]:
        answer = client.get(page, {"after": seq} | ({"mat": "1"} if "mat=" in page else {}))
        assert (answer.status_code, answer.content) == (204, b"")


def test_what_is_newer_is_the_inside_of_main(client: Client, tournament: Tournament) -> None:
    seq = seq_of(tournament.log_id)
    for page in ("", "weights/106/", "bouts/", "points/", "teams/t1/"):
        answer = client.get(f"/t/spring/{page}", {"after": seq - 1})
        part, whole = answer.content.decode(), client.get(f"/t/spring/{page}").content.decode()
        assert answer["X-Seq"] == str(seq)
        assert "<html" not in part
        assert "<main" not in part
        assert part.strip() in whole
        assert f'data-follow="/t/spring/{page}" data-seq="{seq}"' in whole
        assert "stale-while-revalidate" not in answer["Cache-Control"]


@pytest.mark.parametrize("after", ["x", "", "-1", "9" * 5000])
def test_a_senseless_after_gets_the_partial(
    client: Client, tournament: Tournament, after: str
) -> None:
    answer = client.get("/t/spring/", {"after": after})
    assert answer.status_code == 200
    assert b"<html" not in answer.content


def test_pages_are_the_same_for_everybody(tournament: Tournament) -> None:
    stranger, known = Client(), Client()
    known.force_login(User.objects.create_user("ada"))
    strip = re.compile(r"\d\d:\d\d:\d\d")
    for page in addresses(tournament)[:9]:
        one, two = stranger.get(page), known.get(page)
        assert strip.sub("", one.content.decode()) == strip.sub("", two.content.decode())
        assert "Cookie" not in two.get("Vary", "")
        assert not two.cookies


def test_pages_ask_neither_session_nor_user(
    client: Client, tournament: Tournament, django_assert_max_num_queries: Counting
) -> None:
    client.force_login(User.objects.create_user("ada"))
    for page in addresses(tournament)[:9]:
        with django_assert_max_num_queries(15) as asked:
            client.get(page)
        statements = " ".join(one["sql"] for one in asked.captured_queries)
        assert "django_session" not in statements
        assert "entries_user" not in statements


def test_pages_only_read(client: Client, tournament: Tournament) -> None:
    assert client.post("/t/spring/").status_code == 405


def test_queries_do_not_grow_with_the_field(
    client: Client, django_assert_max_num_queries: Counting
) -> None:
    file = document(("125", "133", "141"))
    file["tournament"]["publish"] = dict.fromkeys(
        ("entries", "seeds", "draw", "results", "team_points"), True
    )
    decide(load(file), 0.2)
    for page in ("", "weights/125/", "bouts/", "bouts/?mat=1", "points/", "teams/t1/"):
        with django_assert_max_num_queries(15):
            assert client.get(f"/t/spring/{page}").status_code == 200


@pytest.mark.parametrize(
    "page",
    ["nowhere/", "spring/weights/999/", "spring/teams/none/", "spring/wrestlers/none/"],
)
def test_what_is_not_there_is_404(client: Client, tournament: Tournament, page: str) -> None:
    assert client.get(f"/t/{page}").status_code == 404
