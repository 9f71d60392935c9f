"""Public documents: gates, names, caches, and how many questions the database is asked."""

from typing import Any

import pytest
from django.test import Client
from pytest_django import DjangoAssertNumQueries

from seeding.entries.models import Entry, Tournament
from seeding.entries.services import set_gates
from tests.results.championship import CALL
from tests.results.interface import Api, with_role
from tests.results.published import GATES, decide, published

pytestmark = pytest.mark.django_db
HERE = "/tournaments/spring"
KINDS = {
    "entries": [f"{HERE}/entries/", f"{HERE}/wrestlers/{{wrestler}}/"],
    "seeds": [f"{HERE}/weights/106/seeds/"],
    "draw": [f"{HERE}/weights/106/bracket/", f"{HERE}/bouts/", f"{HERE}/bouts/1/"],
    "results": [f"{HERE}/places/"],
    "team_points": [f"{HERE}/team-points/", f"{HERE}/teams/t1/points/", f"{HERE}/adjustments/"],
}
FRAME = [
    "/tournaments/",
    f"{HERE}/",
    f"{HERE}/divisions/",
    f"{HERE}/divisions/open/",
    f"{HERE}/weights/",
    f"{HERE}/weights/106/",
    f"{HERE}/teams/",
    f"{HERE}/teams/t1/",
]


def wrestler() -> str:
    """The id of somebody whose name is published in full."""
    return Entry.objects.filter(publish="full", weight_class__key="106")[0].wrestler.uid


def paths(*kinds: str) -> list[str]:
    return [path.format(wrestler=wrestler()) for kind in kinds for path in KINDS[kind]]


@pytest.mark.parametrize("closed", GATES)
def test_a_closed_gate_is_not_found_and_says_which_kind(closed: str) -> None:
    published([gate for gate in GATES if gate != closed], share=0.2)
    public = Api()
    for path in paths(closed):
        (error,) = public.get(path, 404)["errors"]
        assert error["code"] == "not-published"
    for path in FRAME:
        public.get(path)


def test_with_results_closed_nothing_tells_that_anybody_has_wrestled() -> None:
    """What the draw alone makes is told, the same before the first bout and after the last."""
    tournament = published(["entries", "seeds", "draw"], share=0)
    listed = [*paths("entries", "seeds", "draw"), *FRAME[2:]]
    listed += [f"{HERE}/weights/{key}/bracket/" for key in ("113", "120")]
    before = _without_seq(listed)
    decide(tournament, 1)
    assert _without_seq(listed) == before


def _without_seq(listed: list[str]) -> list[Any]:
    public = Api()
    return [{**public.get(path), "seq": 0} for path in listed]


def test_with_entries_closed_nobody_is_named_anywhere() -> None:
    tournament = published(share=0.6)
    uids = set(tournament.entries.values_list("wrestler__uid", flat=True))
    everything = paths(*KINDS)
    set_gates(call=CALL, tournament=tournament, gates={"entries": False})
    text = _bytes(everything + FRAME)
    assert "family" not in text
    assert not [uid for uid in uids if uid in text]


def _bytes(listed: list[str]) -> str:
    public = Api()
    answers = [public.ask("get", path) for path in listed]
    return "".join(f"{one.content.decode()}{one.headers}" for one in answers)


def test_hidden_names_and_initials_are_in_no_public_byte() -> None:
    tournament = published(share=0.6)
    listed = [*FRAME, *paths(*KINDS)]
    listed += [f"{HERE}/weights/{key}/bracket/" for key in ("113", "120")]
    listed += [f"{HERE}/weights/{key}/seeds/" for key in ("113", "120")]
    listed += [f"{HERE}/teams/{team.key}/points/" for team in tournament.teams.all()]
    public = Api()
    people = public.get(f"{HERE}/entries/")["items"]
    listed += [f"{HERE}/wrestlers/{one['wrestler']}/" for one in people]
    text = _bytes(listed)
    assert "Fullfamily" in text
    veiled = tournament.entries.exclude(publish="full").select_related("wrestler")
    planted = {
        word
        for row in veiled
        for word in (row.wrestler.given, row.wrestler.family, row.wrestler.uid, row.key)
    }
    assert planted
    assert not [word for word in planted if word in text]
    assert '"weigh_in"' not in text
    assert '"missed"' not in text


def test_a_role_sees_closed_kinds_and_full_names_in_private() -> None:
    tournament = published([])
    reader = with_role(tournament, "reader")
    for path in [*paths(*KINDS), *FRAME]:
        answer = reader.ask("get", path)
        assert answer.status_code == 200
        assert answer["Cache-Control"] == "private, no-cache"
        assert {"Authorization", "Cookie"} <= {one.strip() for one in answer["Vary"].split(",")}
    people = reader.get(f"{HERE}/entries/")["items"]
    assert {one["publish"] for one in people} == {"full", "initials", "hidden"}
    assert all("family" in one["name"] for one in people)


def test_a_document_is_kept_by_caches_until_the_next_act() -> None:
    tournament = published(share=0.2)
    client = Client()
    for path in [*paths(*KINDS), *FRAME[1:]]:
        first = client.get(f"/api/v1{path}", headers={"Origin": "https://elsewhere.example"})
        assert first["Cache-Control"] == (
            "public, max-age=2, stale-while-revalidate=30, stale-if-error=600"
        )
        assert first["Access-Control-Allow-Origin"] == "*"
        assert not first.cookies
        again = client.get(f"/api/v1{path}", headers={"If-None-Match": first["ETag"]})
        assert (again.status_code, again.content) == (304, b"")
        assert again["ETag"] == first["ETag"]
        assert f"seq{first.json()['seq']}." in first["ETag"]
    set_gates(call=CALL, tournament=tournament, gates={"entries": True})
    last = client.get(f"/api/v1{HERE}/", headers={"If-None-Match": again["ETag"]})
    assert last.status_code == 200


def test_the_list_of_tournaments_is_kept_until_one_of_them_changes() -> None:
    tournament = published(share=0)
    client = Client()
    first = client.get("/api/v1/tournaments/")
    known = {"If-None-Match": first["ETag"]}
    assert client.get("/api/v1/tournaments/", headers=known).status_code == 304
    set_gates(call=CALL, tournament=tournament, gates={"entries": True})
    assert client.get("/api/v1/tournaments/", headers=known).status_code == 200


def test_who_follows_is_told_that_nothing_is_newer() -> None:
    published(share=0.2)
    public = Api()
    seq = public.get(f"{HERE}/")["seq"]
    for path in [*paths(*KINDS), *FRAME[1:]]:
        answer = public.ask("get", f"{path}?after={seq}")
        assert (answer.status_code, answer.content, answer["X-Seq"]) == (204, b"", str(seq))
        assert public.ask("get", f"{path}?after={seq - 1}").status_code == 200


def test_unknown_parameters_are_refused_and_those_allowed_named() -> None:
    published(share=0)
    for path in [*paths(*KINDS), *FRAME]:
        (error,) = Api().get(f"{path}?colour=red", 400)["errors"]
        assert error["attr"] == "colour"
    (error,) = Api().get(f"{HERE}/bouts/?colour=red", 400)["errors"]
    for allowed in ("mat", "weight", "status", "limit", "offset", "after"):
        assert allowed in error["detail"]
    assert Api().get(f"{HERE}/bouts/?format=xml", 400)["errors"][0]["attr"] == "format"


def test_bouts_come_by_mat_weight_and_status_a_part_at_a_time() -> None:
    published(share=0.3)
    public = Api()
    every = public.get(f"{HERE}/bouts/")
    assert every["count"] == len(every["items"])
    of_mat = public.get(f"{HERE}/bouts/?mat=2")["items"]
    assert of_mat
    assert {bout["mat"] for bout in of_mat} == {"2"}
    of_weight = public.get(f"{HERE}/bouts/?weight=113&status=decided")["items"]
    assert {(bout["weight"], bout["status"]) for bout in of_weight} == {("113", "decided")}
    found: list[Any] = []
    following = f"{HERE}/bouts/?limit=7"
    while following:
        part = public.get(following.removeprefix("/api/v1"))
        found += part["items"]
        following = part["next"]
    assert found == every["items"]
    public.get(f"{HERE}/bouts/?weight=999", 404)


def test_points_are_plain_and_times_are_written_as_on_the_clock() -> None:
    published(share=1)
    public = Api()
    told = public.get(f"{HERE}/team-points/")["divisions"][0]["teams"]
    texts = [line[name] for line in told for name in ("total", "placement", "advancement")]
    assert all(isinstance(text, str) and not text.endswith(("0.0", ".00")) for text in texts)
    results = [bout["result"] for bout in public.get(f"{HERE}/bouts/")["items"]]
    assert any(results)
    assert all(one["received_at"].endswith("Z") for one in results if one and not one["implied"])


def test_a_bracket_asks_the_same_number_of_questions_at_any_size(
    django_assert_max_num_queries: DjangoAssertNumQueries,
) -> None:
    tournament = published(share=0.5)
    client, reader = Client(), with_role(tournament, "reader").client
    for key in ("106", "113", "120"):
        with django_assert_max_num_queries(10):
            client.get(f"/api/v1{HERE}/weights/{key}/bracket/")
        with django_assert_max_num_queries(14):
            reader.get(f"/api/v1{HERE}/weights/{key}/bracket/")
    with django_assert_max_num_queries(10):
        client.get(f"/api/v1{HERE}/bouts/")
    tag = client.get(f"/api/v1{HERE}/bouts/")["ETag"]
    with django_assert_max_num_queries(1):
        client.get(f"/api/v1{HERE}/bouts/", headers={"If-None-Match": tag})


def test_what_is_nowhere_is_said_in_json() -> None:
    for path in (
        "/api/v1/nothing/",
        "/api/v1/tournaments/none/",
        "/api/v2/",
        "/api/v1/tournaments",
    ):
        answer = Client().get(path)
        assert answer.status_code == 404
        assert answer["Content-Type"] == "application/json"
        assert answer.json()["errors"][0]["code"] == "not-found"
    assert Client().post("/api/v1/nothing/", {}).status_code == 404


def test_the_gates_of_a_tournament_are_told() -> None:
    published(["draw"], share=0)
    told = Api().get(f"{HERE}/")
    assert told["published"]["draw"]
    assert not told["published"]["entries"]
    assert "rights" not in told
    assert Tournament.objects.get().slug == told["slug"]
