"""A season file: read by a job, looked at, kept in one step."""

import json
from collections.abc import Callable
from typing import Any

import pytest
from celery import current_app
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from seeding.entries.models import Tournament, Wrestler
from seeding.journal.models import Act, Job, Outbox
from seeding.models import PriorBout, StagedBout
from seeding.services.season import READ, staging
from tests.seeding.entries.desks import enter, owner, signed_in, spring

pytestmark = [pytest.mark.django_db, pytest.mark.postgres]

SEASON = """Date,Weight,Winner,Winner team,Loser,Loser team,Result,Score,Time,Event
2025-12-06,125,Ira Holm,Team Holm,Tom Reed,Team Reed,Dec,5-3,,Winter Classic
2026-01-10,125,Tom Reed,Ree,Lou Umber,Far Away,Fall,,2:28,River Duals
2026-01-11,133,Lou Umber,Far Away,Ira Holm,Hol,TF,19-4,4:25,River Duals
"""


@pytest.fixture
def tournament() -> Tournament:
    made = spring()
    enter(made, "125", "Ira Holm", "Tom Reed")
    return made


@pytest.fixture
def client(tournament: Tournament) -> Client:
    return owner(tournament)


def work() -> None:
    """Do what waits in the outbox, each task with its arguments as the broker carries them."""
    current_app.loader.import_default_modules()
    for row in Outbox.objects.filter(sent_at=None).order_by("pk"):
        current_app.tasks[row.task].apply(kwargs=json.loads(json.dumps(row.payload)), throw=True)
        row.delete()


def send(client: Client, text: str) -> str:
    """Upload a season and let the worker read it; the address of its page."""
    file = SimpleUploadedFile("season.csv", text.encode())
    answer = client.post(reverse("desk-intake", args=["spring"]), {"file": file})
    assert answer.status_code == 302, answer.content.decode()
    work()
    return answer.headers["Location"]


def report() -> Any:
    return Job.objects.latest("pk").report


def counts() -> list[int]:
    found = report()["counts"]
    return [found[name] for name in ("new", "contradicted", "known", "repeated")]


def test_a_season_is_read_looked_at_and_kept(client: Client) -> None:
    page = send(client, SEASON)
    assert counts() == [3, 0, 0, 0]
    assert [one[1:] for one in report()["wrestlers"]] == [["Lou", "Umber", "Far Away"]]
    assert not PriorBout.objects.exists()
    assert Wrestler.objects.count() == 2
    client.post(page, {"do": "keep", "key": "k1"})
    rows = PriorBout.objects.values_list("winner__family", "loser__family", "kind", "score")
    assert list(rows) == [
        ("Holm", "Reed", "decision", [5, 3]),
        ("Reed", "Umber", "fall", None),
        ("Umber", "Holm", "technical fall", [19, 4]),
    ]
    assert Wrestler.objects.get(family="Umber").home == "Far Away"
    work()
    assert not StagedBout.objects.exists()
    assert "Taken in." in client.get(page).content.decode()


def test_the_button_pressed_twice_keeps_once_and_later_is_refused(client: Client) -> None:
    page = send(client, SEASON)
    assert client.post(page, {"do": "keep", "key": "k1"}).status_code == 302
    assert client.post(page, {"do": "keep", "key": "k1"}).status_code == 302
    assert Act.objects.filter(verb="season.committed").count() == 1
    text = client.post(page, {"do": "keep", "key": "k2"}).content.decode()
    assert "This file was taken in already." in text


def test_the_same_file_twice_adds_nothing_twice(client: Client) -> None:
    client.post(send(client, SEASON), {"do": "keep"})
    page = send(client, SEASON)
    assert counts() == [0, 0, 3, 0]
    assert report()["wrestlers"] == []
    assert "Every bout of this file is known already." in client.get(page).content.decode()
    client.post(page, {"do": "keep"})
    assert (PriorBout.objects.count(), Wrestler.objects.count()) == (3, 3)


def known_event() -> Any:
    return PriorBout.objects.get(event="Winter Classic").score


def test_another_result_of_a_known_bout_is_shown_and_the_known_one_stays(client: Client) -> None:
    client.post(send(client, SEASON), {"do": "keep"})
    page = send(client, SEASON.replace("Dec,5-3", "Dec,6-3"))
    assert counts() == [0, 1, 2, 0]
    (said,) = report()["contradicted"]
    assert said["where"] == "row 2"
    assert said["known"] == "Ira Holm over Tom Reed: decision 5-3, Winter Classic, 2025-12-06"
    assert said["reported"] == "Ira Holm over Tom Reed: decision 6-3, Winter Classic, 2025-12-06"
    text = client.get(page).content.decode()
    assert said["known"] in text
    assert said["reported"] in text
    client.post(page, {"do": "keep", "word": "known"})
    assert PriorBout.objects.count() == 3
    assert known_event() == [5, 3]


def test_the_file_corrects_where_it_is_said_to_be_right(client: Client) -> None:
    client.post(send(client, SEASON), {"do": "keep"})
    page = send(client, SEASON.replace("Dec,5-3", "Dec,6-3"))
    client.post(page, {"do": "keep", "word": "file"})
    assert PriorBout.objects.count() == 3
    assert known_event() == [6, 3]


def test_one_contradiction_is_decided_otherwise_than_the_rest(client: Client) -> None:
    client.post(send(client, SEASON), {"do": "keep"})
    changed = SEASON.replace("Dec,5-3", "Dec,6-3").replace("TF,19-4", "TF,20-4")
    page = send(client, changed)
    first, second = report()["contradicted"]
    mark = first["identity"]
    client.post(page, {"do": "keep", "word": "known", f"row-{mark}": "file"})
    assert known_event() == [6, 3]
    assert PriorBout.objects.get(kind="technical fall").score == [19, 4]
    assert second["where"] == "row 4"


def test_who_does_not_say_who_is_right_is_asked(client: Client) -> None:
    client.post(send(client, SEASON), {"do": "keep"})
    page = send(client, SEASON.replace("Dec,5-3", "Dec,6-3"))
    assert client.post(page, {"do": "keep"}).status_code == 200
    assert known_event() == [5, 3]
    assert not Job.objects.latest("pk").report.get("kept")


def test_times_line_ups_and_divisions_are_kept_and_what_was_not_told_is_filled_in(
    client: Client,
) -> None:
    client.post(send(client, SEASON.replace(",2:28,", ",,")), {"do": "keep"})
    heads, *rows = SEASON.splitlines()
    told = [f"{heads},Level,Winner division,Loser division", *(f"{row},JV,AA,A" for row in rows)]
    page = send(client, "\n".join(told))
    assert (counts(), report()["counts"]["more"]) == ([0, 0, 0, 0], 3)
    client.post(page, {"do": "keep"})
    fall = PriorBout.objects.get(kind="fall")
    assert (fall.time, fall.level, fall.how) == ("2:28", "junior varsity", "fall 2:28")
    assert (fall.winner_division, fall.loser_division) == ("AA", "A")
    assert str(fall.value) == "fall 2:28, River Duals, 2026-01-10"
    assert PriorBout.objects.get(kind="technical fall").how == "technical fall 19-4 4:25"


def test_a_known_bout_that_changed_since_the_file_was_read_is_not_written_over(
    client: Client,
) -> None:
    client.post(send(client, SEASON), {"do": "keep"})
    first = send(client, SEASON.replace("Dec,5-3", "Dec,6-3"))
    second = send(client, SEASON.replace("Dec,5-3", "Dec,7-3"))
    client.post(first, {"do": "keep", "word": "file"})
    text = client.post(second, {"do": "keep", "word": "file"}).content.decode()
    assert "Wrestlers or bouts were added or changed since this file was read." in text
    assert known_event() == [6, 3]


def test_every_problem_is_listed_and_nothing_is_staged(client: Client) -> None:
    wrong = (
        SEASON + "yesterday,125,Ira Holm,,Tom Reed,,Dec,5-3,,\n2026-01-12,125,A B,,C D,,won,,,\n"
    )
    page = send(client, wrong)
    wheres = [problem["where"] for problem in report()["problems"]]
    assert wheres == ["row 5, column Date", "row 6, column Result"]
    assert all(where in client.get(page).content.decode() for where in wheres)
    assert not StagedBout.objects.exists()
    text = client.post(page, {"do": "keep"}).content.decode()
    assert "Nothing of it can be kept." in text
    assert not PriorBout.objects.exists()


def test_a_name_that_may_mean_two_asks_for_the_team(client: Client, tournament: Tournament) -> None:
    Wrestler.objects.create(
        organisation=tournament.organisation, given="Ira", family="Holm", home="Elsewhere"
    )
    send(client, "Date,Weight,Winner,Loser,Result\n2026-01-10,125,Ira Holm,Tom Reed,Fall 2:28\n")
    (problem,) = report()["problems"]
    assert problem["where"] == "row 2, column Winner"
    assert problem["message"] == (
        "“Ira Holm” may be Ira Holm of Team Holm or Ira Holm of Elsewhere; name the team in its "
        "column"
    )


def test_a_new_wrestler_who_looks_like_another_is_pointed_out(client: Client) -> None:
    send(client, SEASON.replace("Ira Holm,Team Holm", "Ira Hollm,Team Holm"))
    (warning,) = report()["warnings"]
    assert warning["where"] == "row 2, column Winner"
    assert "Ira Hollm of Team Holm is new, and looks like Ira Holm of Team Holm" in str(warning)


def test_wrestlers_added_in_between_are_noticed_and_the_file_is_read_again(
    client: Client, tournament: Tournament
) -> None:
    page = send(client, SEASON)
    Wrestler.objects.create(
        organisation=tournament.organisation, given="Lou", family="Umber", home="Far Away"
    )
    text = client.post(page, {"do": "keep"}).content.decode()
    assert "Wrestlers or bouts were added or changed since this file was read." in text
    assert not PriorBout.objects.exists()
    again = client.post(page, {"do": "again"}).headers["Location"]
    work()
    client.post(again, {"do": "keep"})
    assert (PriorBout.objects.count(), Wrestler.objects.count()) == (3, 3)


def test_a_task_that_comes_twice_does_its_work_once(client: Client) -> None:
    send(client, SEASON)
    uid = str(Job.objects.get().uid)
    current_app.tasks[READ].apply(kwargs={"job": uid}, throw=True)
    assert StagedBout.objects.count() == 3


def test_a_task_that_was_cut_off_begins_anew(client: Client) -> None:
    send(client, SEASON)
    Job.objects.update(state=Job.State.RUNNING)
    uid = str(Job.objects.get().uid)
    current_app.tasks[READ].apply(kwargs={"job": uid}, throw=True)
    assert StagedBout.objects.count() == 3
    assert Job.objects.get().state == Job.State.DONE


def test_the_page_follows_the_job(client: Client) -> None:
    file = SimpleUploadedFile("season.csv", SEASON.encode())
    answer = client.post(reverse("desk-intake", args=["spring"]), {"file": file})
    page = answer.headers["Location"]
    first = client.get(page)
    assert 'data-seq="queued-0-0"' in first.content.decode()
    assert client.get(page, {"after": "queued-0-0"}).status_code == 204
    work()
    part = client.get(page, {"after": "queued-0-0"})
    assert part.headers["X-Seq"] == "done-3-3"
    assert "<html" not in part.content.decode()
    assert "Take the season in" in part.content.decode()


def test_the_outbox_hands_the_task_on_when_the_file_is_kept(
    client: Client, django_capture_on_commit_callbacks: Callable[..., Any]
) -> None:
    file = SimpleUploadedFile("season.csv", SEASON.encode())
    with django_capture_on_commit_callbacks(execute=True):
        client.post(reverse("desk-intake", args=["spring"]), {"file": file})
    assert Job.objects.get().state == Job.State.DONE
    assert counts() == [3, 0, 0, 0]


def test_staging_reports_its_progress(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[tuple[int, int]] = []
    monkeypatch.setattr(staging, "CHUNK", 2)

    def tell(*, job: Job, done: int, total: int) -> None:
        told.append((done, total))

    monkeypatch.setattr(staging, "job_progress", tell)
    send(client, SEASON)
    assert told == [(0, 3), (2, 3), (3, 3)]


@pytest.mark.parametrize("role", ["committee", "table", "reader"])
def test_only_who_directs_takes_files_in(role: str, tournament: Tournament) -> None:
    client = signed_in(role, tournament)
    assert client.get(reverse("desk-intake", args=["spring"])).status_code == 403


def test_a_file_that_is_no_table_is_refused_at_once(client: Client) -> None:
    file = SimpleUploadedFile("season.pdf", b"%PDF-1.7")
    answer = client.post(reverse("desk-intake", args=["spring"]), {"file": file})
    assert "The file season.pdf is a PDF." in answer.content.decode()
    assert not Job.objects.exists()


def test_the_blank_season_is_read_as_it_is_written(client: Client) -> None:
    address = reverse("desk-season-blank", args=["spring", "csv"])
    blank = client.get(address).content.decode("utf-8-sig")
    send(client, blank + SEASON.partition("\n")[2])
    assert counts() == [3, 0, 0, 0]
