"""The overview, team points, teams, withdrawals, the file of all sheets, and bounded queries."""

import io
import json
import re
import zipfile
from decimal import Decimal
from xml.etree import ElementTree as ET

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from pytest_django import DjangoCaptureOnCommitCallbacks

from brackets.models import Bout
from brackets.queries import numbered_bout
from results.core.outcomes import Kind, Outcome
from results.models import Adjustment, VoidBout, Withdrawal
from results.queries.points import team_table
from results.services import load_tournament
from seeding.entries.models import (
    Division,
    Entry,
    Organisation,
    Role,
    Team,
    Tournament,
    User,
)
from seeding.journal.models import Job
from tests.results.championship import CALL, document, load, side, wrestle
from tests.results.desk import buttons, form, press, text
from tests.seeding.entries.desks import signed_in, spring

pytestmark = pytest.mark.django_db

DESK = "/desk/spring/"


@pytest.fixture
def eight() -> Tournament:
    return load(document(entries=8))


@pytest.fixture
def director(eight: Tournament) -> Client:
    return signed_in("director", eight)


def following(client: Client) -> str:
    """The step that the overview points at."""
    page = text(client.get(DESK))
    before = page.index('class="next"')
    return page[page.rindex('id="step-', 0, before) + 9 : before].split('"')[0]


def test_the_overview_points_at_the_next_step_of_the_day() -> None:
    empty = spring(weights=False)
    assert following(signed_in("director", empty)) == "weights"


def test_the_steps_follow_each_other() -> None:
    event = load(document(entries=8) | {"brackets": []})
    client = signed_in("director", event)
    Entry.objects.update(seed=None)
    assert following(client) == "seeds"
    Entry.objects.filter(key="125-1").update(seed=1)
    assert following(client) == "draw"
    press(client, f"{DESK}draw/", "draw-all")
    assert following(client) == "numbers"
    press(client, f"{DESK}draw/", "number")
    assert following(client) == "bouts"
    while bout := Bout.objects.filter(status="ready").order_by("number").first():
        wrestle(bout, 0)
    assert following(client) == "official"
    press(client, f"{DESK}bouts/", "official")
    assert 'class="next"' not in text(client.get(DESK))


def test_a_director_takes_the_tournament_file_with_him(eight: Tournament, director: Client) -> None:
    address = re.search(r'href="([^"]+)" download="spring.json"', text(director.get(DESK)))
    assert address
    file = json.loads(director.get(address[1]).content)
    assert file["tournament"]["slug"] == eight.slug
    assert "download=" not in text(signed_in("table", eight).get(DESK))


def total(of: Tournament, name: str) -> Decimal:
    rows = team_table(Division.objects.get(tournament=of))
    return next(row.line.total for row in rows if row.team.name == name)


def test_points_are_given_with_a_reason_and_taken_back(eight: Tournament, director: Client) -> None:
    page = f"{DESK}points/"
    team = Team.objects.get(name="Team 3").pk
    answer = press(director, page, "adjust", team=team, points="-1", reason="")
    assert "This field is required." in text(answer)
    assert form(text(answer), "adjust")["points"] == "-1"
    press(director, page, "adjust", team=team, points="-1", reason="unsportsmanlike conduct")
    assert total(eight, "Team 3") == 2  # eighth place of eight is certain: 3
    sent = {**form(text(director.get(page)), "take-back"), "do": "take-back"}
    for _ in range(2):
        assert director.post(page, sent, follow=True).status_code == 200
    assert not Adjustment.objects.exists()


def test_every_part_of_a_total_can_be_opened(eight: Tournament, director: Client) -> None:
    wrestle(numbered_bout(eight, 1), 0, Outcome(Kind.FALL, side(0), time=61))
    page = text(director.get(f"{DESK}points/?team=t1"))
    assert "bout 1 (QF)" in page
    assert "certain so far" in page


def test_teams_merge_split_and_exchange_with_their_points(
    eight: Tournament, director: Client
) -> None:
    page = f"{DESK}points/teams/"
    first, second = (Team.objects.get(name=f"Team {n}") for n in (1, 2))
    press(director, page, "merge", team=first.pk, into=second.pk)
    assert total(eight, "Team 2") == 6
    again = press(director, page, "merge", team=second.pk, into=second.pk)
    assert "cannot be merged" in text(again)
    split = f"{page}?team={second.key}"
    press(director, split, "split", name="Team One", short="ONE", entries=["125-1"])
    assert total(eight, "Team One") == 3
    third = Team.objects.get(name="Team 3")
    press(director, split, "move", entry="125-2", team=third.pk)
    assert total(eight, "Team 3") == 6


def test_who_withdraws_sees_what_he_forfeits_and_may_return(
    eight: Tournament, director: Client
) -> None:
    page = f"{DESK}withdrawals/"
    assert "Licensed medical staff and the local code decide" in text(director.get(page))
    asked = text(director.get(f"{page}?entry=125-1"))
    assert "Show what follows" in asked
    assert "What follows" not in asked
    withdraw = f"{page}?entry=125-1&kind=injury"
    follows = text(director.get(withdraw))
    assert "1 (QF-1)" in follows
    assert not Withdrawal.objects.exists()
    late = {**form(follows, "do-it"), "do": "do-it", "mark": "of-another-look"}
    assert "not what you have seen" in text(director.post(withdraw, late))
    assert not Withdrawal.objects.exists()
    press(director, withdraw, "do-it", reason="told by the coach")
    assert Withdrawal.objects.get().author
    assert Withdrawal.objects.get().reason == "told by the coach"
    assert Bout.objects.get(number=1).implied
    assert f'href="{page}125-1/"' in text(director.get(page))
    press(director, f"{page}125-1/", "return")
    assert not Withdrawal.objects.exists()
    assert Bout.objects.get(number=1).status == "ready"


def test_a_finalist_who_withdraws_gives_the_final_away(eight: Tournament, director: Client) -> None:
    for code in ("QF", "SF"):
        for bout in Bout.objects.filter(status="ready", round=code):
            wrestle(numbered_bout(eight, bout.number or 0), 0)
    one = Bout.objects.get(round="1st").top
    assert one
    follows = text(director.get(f"{DESK}withdrawals/?entry={one.key}&kind=injury"))
    for told in ("1st-1", "Places that are certain", "Team points in this weight"):
        assert told in follows
    assert not Withdrawal.objects.exists()


def test_a_return_asks_what_becomes_of_later_bouts(eight: Tournament, director: Client) -> None:
    """8 and 4 have wrestled the semifinal that leads to the final; 1 comes back to his first."""
    press(director, f"{DESK}withdrawals/?entry=125-1&kind=injury", "do-it")
    for number in (2, 5):
        wrestle(numbered_bout(eight, number), 0)
    page = f"{DESK}withdrawals/125-1/"
    shown = text(director.get(page))
    assert "what becomes of each?" in shown
    assert "choice-SF-1" in shown
    assert "return" not in buttons(director, page)
    refused = director.post(page, {"do": "return"})
    assert "Later bouts that this would change have results: 5" in text(refused)
    chosen = {"choice-SF-1": "void", "reason": "cleared to wrestle"}
    looked = text(director.post(page, {"do": "look", **chosen}))
    assert "cleared to wrestle" in looked
    sent = {**form(looked, "return"), **chosen, "do": "return"}
    assert "not what you have seen" in text(director.post(page, {**sent, "mark": "old"}))
    assert Withdrawal.objects.exists()
    assert "may wrestle on" in text(director.post(page, sent, follow=True))
    assert not Withdrawal.objects.exists()
    assert VoidBout.objects.get().reason == "cleared to wrestle"
    assert Bout.objects.get(number=1).status == "ready"
    assert "is not out of the tournament" in text(director.get(page))


@pytest.mark.parametrize("entries", [8, 5])
def test_the_file_of_all_sheets(
    entries: int, django_capture_on_commit_callbacks: DjangoCaptureOnCommitCallbacks
) -> None:
    event = load(document(("125", "133"), entries=entries))
    Entry.objects.filter(key="125-2").update(publish="initials")
    wrestle(numbered_bout(event, 1), 0)
    reader = signed_in("reader", event)
    sent = {**form(text(reader.get(DESK)), "sheets"), "do": "sheets"}
    with django_capture_on_commit_callbacks(execute=True):
        for _ in range(2):
            reader.post(DESK, sent)
    job = Job.objects.get()
    assert (job.state, job.done, job.total) == ("done", 2, 2)
    assert "2 sheets as of act" in text(reader.get(f"{DESK}sheets/"))
    file = b"".join(reader.get(f"{DESK}sheets/{job.uid}/"))
    with zipfile.ZipFile(io.BytesIO(file)) as packed:
        assert packed.namelist() == ["01-125.svg", "02-133.svg"]
        drawn = packed.read("01-125.svg").decode()
    assert ET.fromstring(drawn).tag == "{http://www.w3.org/2000/svg}svg"
    assert "G. Family125" in drawn
    assert ">G. F.</text>" in drawn
    assert "Dec 5-3" in drawn


def test_a_job_that_fails_says_so(
    eight: Tournament,
    director: Client,
    monkeypatch: pytest.MonkeyPatch,
    django_capture_on_commit_callbacks: DjangoCaptureOnCommitCallbacks,
) -> None:
    def broken(*_: object) -> None:
        raise MemoryError

    monkeypatch.setattr("results.tasks.svg_drawings", broken)
    with pytest.raises(MemoryError), django_capture_on_commit_callbacks(execute=True):
        press(director, DESK, "sheets")
    assert Job.objects.get().state == "failed"
    assert "It failed (MemoryError)." in text(director.get(f"{DESK}sheets/"))


def queries(client: Client, page: str) -> int:
    client.get(page)
    with CaptureQueriesContext(
        connection,
    ) as seen:
        assert client.get(page).status_code == 200
    return len(seen)


PAGES = (
    *("", "bouts/", "bouts/?status=ready", "bouts/1/", "points/", "draw/", "draw/weights/125/"),
    *("draw/mats/?mat=1", "mats/1/", "withdrawals/", "points/teams/", "points/?team=t1"),
)


def test_queries_do_not_grow_with_the_tournament() -> None:
    small = load(document(("125",), entries=8))
    client = signed_in("director", small)
    counted = {page: queries(client, DESK + page) for page in PAGES}
    file = document(("125", "133", "141"), entries=33)
    file["tournament"]["slug"] = "large"
    load_tournament(call=CALL, organisation=Organisation.objects.get(), document=file)
    large = Tournament.objects.get(slug="large")
    Role.objects.create(
        tournament=large, user=User.objects.get(username="director"), name="director"
    )
    for page, count in counted.items():
        assert (page, queries(client, f"/desk/large/{page}")) == (page, count)
        assert count <= 20
