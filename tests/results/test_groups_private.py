"""What was measured is told to those who direct, and to nobody else in any byte."""

import re
from collections.abc import Iterator
from typing import Any

import pytest
from django.test import Client

from results.queries.gates import Gates
from results.queries.people import People
from results.serializers.document import dump
from results.services import draw_every, regroup
from seeding.entries.models import Division, Measured, Tournament
from seeding.entries.services.groups import Figures
from seeding.journal.models import Act, Job, Outbox
from tests.results.championship import CALL, document, load
from tests.results.interface import Api, published_schema, with_role
from tests.results.published import GATES, told
from tests.results.young import CELLS, GROUP, HERE, MOVE, WEIGHED, YOUNG, grouped
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db

REASON = "Plantedreason 97.73"
FIGURES = [weight for weight, _age, _years in WEIGHED]
PLANTED = [*FIGURES, "Plantedreason"]
OTHERS = ("committee", "table", "reader")
AGE, YEARS = 71, 83  # of nobody who wrestles: where one stands, it leaked
DESK = "/desk/spring/"


@pytest.fixture
def division() -> Division:
    file = document(entries=2) | {"brackets": []}
    file["tournament"]["publish"] = dict.fromkeys(GATES, True)
    tournament = load(file)
    limits = {"weights.groups.age_spread": 99}
    made = grouped(tournament, settings=limits)
    regroup(
        call=CALL,
        group=tournament.weights.get(key="young-waiting"),
        entries=["young-9"],
        target=tournament.weights.get(key="group-2"),
        reason=REASON,
    )
    draw_every(call=CALL, tournament=tournament)
    return made


def leaks(text: str) -> list[str]:
    return [one for one in PLANTED if one in text]


def public_pages(tournament: Tournament) -> list[str]:
    home = f"/t/{tournament.slug}/"
    opened = Gates(entries=True, seeds=True, draw=True, results=True, points=True)
    handles = sorted(one.handle for one in People.of(tournament, opened).by_pk.values())
    return [
        "/",
        home,
        f"{home}bouts/",
        f"{home}points/",
        *(f"{home}weights/{row.key}/" for row in tournament.weights.all()),
        *(f"{home}teams/{row.key}/" for row in tournament.teams.all()),
        *(f"{home}wrestlers/{handle}/" for handle in handles),
    ]


def test_no_public_page_has_a_figure_or_changes_with_one(division: Division) -> None:
    pages = public_pages(division.tournament)
    before = told(pages)
    assert {status for status, _text in before.values()} <= {200}
    assert "Familyyoung1" in "".join(text for _status, text in before.values())
    assert not [page for page, (_status, text) in before.items() if leaks(text)]
    Measured.objects.update(weight="55.55", age=AGE, experience=YEARS)
    assert told(pages) == before


def readings(tournament: Tournament) -> Iterator[str]:
    """Every address of the API that is read, for this tournament."""
    names = {
        "slug": tournament.slug,
        "key": "young-1",
        "weight": "group-1",
        "team": "youngteam-1",
        "uid": tournament.entries.get(key="young-1").wrestler.uid,
        "bout": "1",
    }
    for path, methods in published_schema()["paths"].items():
        if "get" in methods and path.startswith("/api/v1/tournaments/{slug}/"):
            here = names | {"key": "young"} if "/divisions/" in path else names
            if set(re.findall(r"\{(\w+)\}", path)) <= set(here):
                yield path.removeprefix("/api/v1").format(**here)


def test_no_answer_of_the_api_has_a_figure_for_others(division: Division) -> None:
    people = {"public": Api()} | {name: with_role(division.tournament, name) for name in OTHERS}
    pages = list(readings(division.tournament))
    assert f"{YOUNG}/groups/" in pages
    assert len(pages) > 25
    found = {
        (name, page): leaks(api.ask("get", page).content.decode())
        for name, api in people.items()
        for page in pages
    }
    assert not [where for where, said in found.items() if said]


def test_who_does_not_direct_is_refused_before_anything_is_told(division: Division) -> None:
    people = {"public": Api()} | {name: with_role(division.tournament, name) for name in OTHERS}
    for name, api in people.items():
        for operation, (_right, path, body) in CELLS.items():
            method = next(one for one in ("get", "put", "post") if operation.startswith(one))
            answer = api.ask(method, path, body)
            assert answer.status_code in (401, 403), (name, path)
            assert not leaks(answer.content.decode())


def test_who_directs_reads_all_of_it(division: Division) -> None:
    api = with_role(division.tournament, "director")
    found = api.get(f"{YOUNG}/groups/")
    shown = [one["weight"] for group in found["groups"] for one in group["members"]]
    assert sorted(shown) == sorted(FIGURES)
    seen = api.act("post", f"{GROUP}/preview/", MOVE)
    assert "61.83" in str(seen)
    assert seen["needs_reason"] is True


@pytest.mark.parametrize("role", OTHERS)
def test_no_page_of_the_desk_has_a_figure_for_others(division: Division, role: str) -> None:
    client = signed_in(role, division.tournament)
    pages = ["", "entries/", "entries/group-1/", "entries/young-waiting/", "log/", "bouts/"]
    pages += ["points/", "sheets/", "seeding/group-1/", "groups/young/", "groups/young/change/"]
    for page in pages:
        text = client.get(DESK + page, follow=True).content.decode()
        assert not leaks(text), page


def test_the_log_and_what_stands_by_it_has_no_figure(division: Division) -> None:
    text = "".join(str(row) for model in (Act, Job, Outbox) for row in model.objects.values_list())
    assert "entries.measured" in text
    assert not leaks(text)
    client = signed_in("owner", division.tournament)
    assert not leaks(client.get(f"{DESK}log/").content.decode())


def test_the_tournament_file_has_no_figure(division: Division) -> None:
    before = dump(division.tournament)
    assert not leaks(str(before))
    Measured.objects.update(weight="55.55", age=AGE, experience=YEARS)
    assert dump(division.tournament) == before
    api = with_role(division.tournament, "owner")
    assert not leaks(api.ask("get", f"{HERE}/file/").content.decode())


def test_the_same_figures_leave_different_marks_on_different_machines(
    division: Division, settings: Any
) -> None:
    """A log of arguments is made by the machine's secret: trying all weights tells nothing."""
    figures = Figures(None, 8, 1)
    here = repr(figures)
    settings.SECRET_KEY = "another"
    assert repr(figures) != here
    assert repr(figures) != repr(Figures(None, 9, 1))


def test_a_page_of_groups_is_kept_by_no_shared_cache(division: Division) -> None:
    api = with_role(division.tournament, "director")
    answer = api.ask("get", f"{YOUNG}/groups/")
    assert answer.headers["Cache-Control"] == "private, no-cache"


def test_the_public_is_asked_to_sign_in(division: Division) -> None:
    answer = Client().get(f"{DESK}groups/young/")
    assert answer.status_code == 302
