"""A whole small tournament run by the API alone, from its making to its team points."""

from collections.abc import Iterator
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from tests.results.interface import Api, user

pytestmark = pytest.mark.django_db
HERE = "/tournaments/spring"
ROSTER = """Given name,Family name,Weight,Team,Seed
Ada,Alder,125,Ash,1
Bo,Birch,125,Beech,2
Cy,Cedar,125,Ash,3
Di,Dogwood,125,Beech,4
Ed,Elm,133,Ash,1
Fay,Fir,133,Beech,
"""


@pytest.fixture
def owner() -> Api:
    return Api(user("owner"))


def roster(text: str = ROSTER) -> dict[str, Any]:
    return {"file": SimpleUploadedFile("roster.csv", text.encode()), "strict": "false"}


def frame(owner: Api) -> None:
    """A tournament with one division of two weights and a roster."""
    made = owner.act(
        "post",
        "/tournaments/",
        {"slug": "spring", "name": "Spring", "starts_on": "2026-03-19", "mats": ["1", "2"]},
    )
    assert made["address"] == "/api/v1/tournaments/spring/"
    owner.act("patch", f"{HERE}/", {"time_zone": "America/Chicago"})
    owner.act(
        "post",
        f"{HERE}/divisions/",
        {"name": "Open", "rulebook": "college-2025", "settings": {"team_points.byes": "none"}},
    )
    for label in ("125", "133", "141"):
        owner.act("post", f"{HERE}/weights/", {"division": "open", "label": label, "places": 4})
    owner.act("delete", f"{HERE}/weights/141/")
    assert owner.act("post", f"{HERE}/divisions/open/roster/", roster())["subject"]["added"] == 6


def entries(owner: Api) -> dict[str, dict[str, Any]]:
    return {item["name"]: item for item in owner.get(f"{HERE}/entries/")["items"]}


def test_from_its_making_to_its_team_points(owner: Api) -> None:
    frame(owner)
    by_hand(owner)
    owner.act("post", f"{HERE}/weights/125/draw/", {"lot_seed": "spring"})
    assert owner.act("post", f"{HERE}/draws/", {}) == {"count": 1}
    owner.act("post", f"{HERE}/numbers/")
    wrestled = list(wrestle(owner))
    assert len(wrestled) == 11  # two round robins: five entries (one a day's late one) and two
    points = owner.get(f"{HERE}/team-points/")["divisions"][0]["teams"]
    assert [line["team"] for line in points] == ["ash", "beech"]
    assert all("." not in line["total"] or line["total"][-1] != "0" for line in points)
    ledger = owner.get(f"{HERE}/teams/ash/points/")
    parts = [part for earner in ledger["divisions"][0]["earners"] for part in earner["parts"]]
    assert parts
    assert all(part["number"] or part["place"] for part in parts)
    places = owner.get(f"{HERE}/places/?weight=133")["items"]
    assert [(one["place"], one["wrestler"]["name"]) for one in places][:1] == [(1, "Ed Elm")]


def by_hand(owner: Api) -> None:
    """Everything that is done to entries before the draw."""
    new = {"given": "Gil", "family": "Gum", "team": "ash"}
    key = owner.act("post", f"{HERE}/weights/125/entries/", new)["key"]
    entry = f"{HERE}/entries/{key}"
    owner.act("patch", f"{entry}/", {"publish": "initials", "rank": 5})
    owner.act("put", f"{entry}/name/", {"given": "Gil", "family": "Gumtree"})
    owner.act("put", f"{entry}/weigh-in/", {"state": "made"})
    owner.act("post", f"{entry}/scratch/")
    owner.act("delete", f"{entry}/scratch/")
    assert owner.get(f"{entry}/")["family"] == "Gumtree"
    order = f"{HERE}/weights/125/order"
    move = {"entry": key, "to": 1, "reason": "Champion of the year before."}
    moved = owner.act("post", f"{order}/moves/", move)
    owner.act("post", f"{order}/adoption/")
    assert owner.get(f"{entry}/")["seed"] == 1
    owner.act("delete", f"{order}/moves/{moved['key']}/")
    owner.act(
        "put", f"{order}/inputs/", {"items": [{"entry": key, "rank": 3, "qualifying_place": 1}]}
    )
    owner.act("post", f"{order}/adoption/")
    assert owner.get(f"{order}/")["adopted"]


def wrestle(owner: Api) -> Iterator[dict[str, Any]]:
    """The top side wins every bout, by number; all is made official at the end."""
    bouts = owner.get(f"{HERE}/bouts/")["items"]
    for bout in bouts:
        won = {"kind": "major decision", "winner": "top", "score": [11, 1]}
        owner.act("post", f"{HERE}/bouts/{bout['number']}/result/", won)
        yield owner.get(f"{HERE}/bouts/{bout['id']}/")
    seen = [
        {"bout": bout["id"], "version": bout["version"]}
        for bout in owner.get(f"{HERE}/bouts/")["items"]
    ]
    assert owner.act("post", f"{HERE}/official/", {"bouts": seen}) == {"count": len(seen)}


def test_a_result_is_corrected_confirmed_and_undone(owner: Api) -> None:
    frame(owner)
    owner.act("post", f"{HERE}/draws/", {})
    owner.act("post", f"{HERE}/numbers/")
    bout = owner.get(f"{HERE}/bouts/?weight=133")["items"][0]
    here = f"{HERE}/bouts/{bout['number']}"
    owner.act("put", f"{here}/mat/", {"mat": "2"})
    result = f"{here}/result"
    owner.act("post", f"{result}/", {"kind": "fall", "winner": "top", "time": "1:05"})
    told = owner.get(f"{here}/")["result"]
    assert (told["text"], told["kind"], told["time"], told["state"]) == (
        "Fall 1:05", "fall", "1:05", "entered",
    )  # fmt: skip
    other = {"kind": "decision", "winner": "bottom", "score": [5, 3]}
    seen = owner.act("post", f"{result}/preview/", {"outcome": other})
    assert {team["team"] for team in seen["teams"]} == {"ash", "beech"}
    owner.act("put", f"{result}/", other)
    owner.act("put", f"{result}/state/", {"state": "official"})
    assert owner.get(f"{here}/")["result"]["official"]
    owner.act("post", f"{result}/preview/", {"outcome": None})
    owner.act("delete", f"{result}/")
    assert owner.get(f"{here}/")["result"] is None


def test_teams_merge_split_and_trade(owner: Api) -> None:
    frame(owner)
    owner.act("post", f"{HERE}/teams/", {"name": "Cherry", "members": ["East", "West"]})
    owner.act("patch", f"{HERE}/teams/cherry/", {"short": "CHY"})
    birch = entries(owner)["Bo Birch"]["entry"]
    owner.act("put", f"{HERE}/entries/{birch}/team/", {"team": "cherry"})
    alder = entries(owner)["Ada Alder"]["entry"]
    made = owner.act(
        "post", f"{HERE}/teams/ash/split/", {"name": "Oak", "short": "OAK", "entries": [alder]}
    )
    assert made["key"] == "oak"
    owner.act("post", f"{HERE}/teams/oak/merge/", {"into": "cherry"})
    closed = owner.act("put", f"{HERE}/entries/{birch}/team/", {"team": "oak"}, status=409)
    assert closed["errors"][0]["code"] == "team-closed"
    late = {"family": "Late", "team": "oak"}
    owner.act("post", f"{HERE}/weights/125/entries/", late, status=409)
    owner.act("patch", f"{HERE}/entries/{birch}/", {"team": "oak"}, status=409)
    given = {"division": "open", "team": "cherry", "points": "-1.5", "reason": "late"}
    adjusted = owner.act("post", f"{HERE}/adjustments/", given)
    assert owner.get(f"{HERE}/adjustments/")["items"][0]["points"] == "-1.5"
    owner.act("delete", f"{HERE}/adjustments/{adjusted['key']}/")
    assert {item["team"] for item in entries(owner).values()} == {"ash", "beech", "cherry"}


def test_who_withdraws_and_returns(owner: Api) -> None:
    frame(owner)
    owner.act("post", f"{HERE}/draws/", {})
    elm = entries(owner)["Ed Elm"]["entry"]
    out = f"{HERE}/entries/{elm}/withdrawal/"
    follows = owner.ask("post", f"{out}preview/", {"kind": "injury"}).json()
    assert follows["field"][0]["after"] == "out: injury"
    assert follows["mark"]
    owner.act("post", out, {"kind": "injury"})
    assert owner.get(f"{HERE}/withdrawals/")["items"][0]["entry"] == elm
    owner.act("delete", out)
    owner.act("delete", f"{HERE}/weights/133/draw/")


def test_a_roster_is_looked_at_before_it_is_taken_in(owner: Api) -> None:
    frame(owner)
    wrong = ROSTER + "Hal,Hazel,999,Ash,\n"
    plan = owner.act("post", f"{HERE}/divisions/open/roster/plan/", roster(wrong))
    assert [one["where"] for one in plan["problems"]] == ["row 8, column Weight"]
    refused = owner.act("post", f"{HERE}/divisions/open/roster/", roster(wrong), status=400)
    assert refused["errors"][0]["attr"] == "row 8, column Weight"
    again = owner.act("post", f"{HERE}/divisions/open/roster/", roster())
    assert again["subject"] == {"added": 0, "changed": 0}


def test_a_season_is_read_by_a_job_and_then_kept(
    owner: Api, django_capture_on_commit_callbacks: Any
) -> None:
    frame(owner)
    season = "Date,Weight,Winner,Winner team,Loser,Loser team,Result\n"
    season += "2026-01-10,125,Ada Alder,Ash,Bo Birch,Beech,Fall 2:28\n"
    file = {"file": SimpleUploadedFile("season.csv", season.encode())}
    with django_capture_on_commit_callbacks(execute=True):
        job = owner.act("post", f"{HERE}/season/", file, status=202)
    told = owner.get(f"{HERE}/jobs/{job['uid']}/")
    assert (told["state"], told["report"]["problems"]) == ("done", [])
    kept = owner.act("post", f"{HERE}/season/{job['uid']}/")
    assert kept["subject"]["bouts"] == 1
    assert owner.get(f"{HERE}/jobs/")["count"] == 1


def test_roles_are_given_and_taken(owner: Api) -> None:
    frame(owner)
    new = {"username": "tilda", "password": "quite-a-long-1", "role": "table"}
    owner.act("post", f"{HERE}/roles/", new)
    owner.act("put", f"{HERE}/roles/tilda/", {"role": "reader"})
    assert {"username": "tilda", "role": "reader"} in owner.get(f"{HERE}/roles/")["items"]
    owner.act("delete", f"{HERE}/roles/tilda/")
    last = owner.act("delete", f"{HERE}/roles/owner/", status=409)
    assert last["errors"][0]["code"] == "last-owner"


def test_a_file_is_dumped_and_loaded_under_another_address(owner: Api) -> None:
    frame(owner)
    document = owner.get(f"{HERE}/file/")
    document["tournament"]["slug"] = "again"
    made = owner.act("post", "/tournament-files/", {"document": document})
    assert made["address"] == "/api/v1/tournaments/again/"
    assert owner.get("/tournaments/again/entries/")["count"] == 6
    document["teams"] = 7
    refused = owner.act("post", "/tournament-files/", {"document": document}, status=400)
    assert refused["errors"][0]["attr"] == "teams"


def test_the_log_is_gapless_and_names_nobody(owner: Api) -> None:
    frame(owner)
    first = owner.get(f"{HERE}/acts/?limit=4")
    assert [act["seq"] for act in first["items"]] == [1, 2, 3, 4]
    rest = owner.get(first["next"].removeprefix("/api/v1"))
    assert [act["seq"] for act in rest["items"]] == list(range(5, first["seq"] + 1))
    assert "Alder" not in str(first) + str(rest)
