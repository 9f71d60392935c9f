"""Who may do what by the API: every operation of the schema for every role, each cell asserted."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import transaction
from django.utils import timezone

from brackets.models import Bout
from results.models import Adjustment
from results.services import adjust
from seeding.entries.models import Role, Tournament, WeightClass
from seeding.entries.permissions import GRANTS, Right
from seeding.journal.models import Job
from seeding.models import Challenge, Override
from seeding.queries.minutes import signable
from seeding.services import challenge, move_seed, open_challenges
from tests.results import late_cells, qualifying_cells, ruling_cells, season_cells, young
from tests.results.cells import CELLS, HERE, MEMBER, OPERATOR, PUBLIC, ROSTER, SIGNED, Who
from tests.results.championship import CALL, document, load, wrestle
from tests.results.interface import Api, published_schema, user

pytestmark = pytest.mark.django_db
LIVE = replace(CALL, now=timezone.now())


def csv(text: str) -> dict[str, Any]:
    return {"file": SimpleUploadedFile("file.csv", text.encode())}


ROLES = (*Role.Name.values, "stranger", "anonymous")


@dataclass
class Hall:
    """A tournament with one weight wrestled and one not drawn, and a person of every role."""

    tournament: Tournament
    people: dict[str, Api]
    names: dict[str, str]

    @property
    def weight(self) -> WeightClass:
        """The weight that is not drawn."""
        return self.tournament.weights.get(key="141")


@pytest.fixture
def hall() -> Hall:
    file = document(("125", "141", "157"), 4)
    gates = ("entries", "seeds", "draw", "results", "team_points")
    file["tournament"]["publish"] = dict.fromkeys(gates, True)
    file["brackets"] = [{"weight_class": "125"}]
    tournament = load(file)
    wrestle(Bout.objects.get(number=1), 0)
    division, team = tournament.divisions.get(), tournament.teams.get(key="t1")
    adjust(call=CALL, division=division, team=team, points=Decimal(1), reason="x")
    move_seed(call=CALL, entry=tournament.entries.get(key="141-3"), to=1, reason="x")
    weight = tournament.weights.get(key="141")
    open_challenges(call=LIVE, weight=weight, until=None)
    low, high = (tournament.entries.get(key=key) for key in ("141-2", "141-3"))
    challenge(call=LIVE, entry=low, over=high, by="Coach Bly", reason="x")
    job = Job.objects.create(log=tournament.log, task="x", actor=0, created_at=CALL.now)
    season = Job.objects.create(
        log=tournament.log, task="seeding.tasks.read_season", actor=0, created_at=CALL.now
    )
    qualifying_cells.prepare(tournament)
    made = season_cells.prepare(tournament)
    young.grouped(tournament)
    people = {"anonymous": Api(), "stranger": Api(user("stranger", organisation="away"))}
    for name in Role.Name.values:
        person = user(name)
        Role.objects.create(tournament=tournament, user=person, name=name)
        people[name] = Api(person)
    names = {**made, **ruling_cells.prepare()} | {
        "job": str(job.uid),
        "season": str(season.uid),
        "move": str(Override.objects.get().pk),
        "challenge": str(Challenge.objects.get().pk),
        "adjustment": str(Adjustment.objects.get().pk),
        "wrestler": tournament.entries.get(key="125-1").wrestler.uid,
    }
    return Hall(tournament, people, names)


def operations() -> Iterator[tuple[str, str]]:
    for methods in published_schema()["paths"].values():
        for method, operation in methods.items():
            yield operation["operationId"], method


def test_the_matrix_has_every_operation() -> None:
    assert {name for name, _ in operations()} == set(CELLS)


def may(role: str, who: Who) -> bool:
    if who == PUBLIC:
        return True
    if isinstance(who, Right):
        return role in Role.Name.values and who in GRANTS[role]
    if who == MEMBER:
        return role in Role.Name.values
    return who == SIGNED and role != "anonymous"


def send(hall: Hall, role: str, name: str, method: str) -> Any:
    _, path, body = CELLS[name]
    files: dict[str, Callable[[], Any]] = {
        "roster": lambda: csv(ROSTER),
        "season": lambda: csv("Date,Weight,Winner,Loser,Result\n"),
        "file": lambda: {
            "document": {**document(("125",), 2), "tournament": {**TOURNAMENT, "slug": "two"}},
            "organisation": "home",
        },
    }
    files |= qualifying_cells.bodies(hall.tournament) | season_cells.bodies()
    files["signature"] = lambda: {"name": "x", "digest": signable(hall.weight).digest}
    sent = files[body]() if isinstance(body, str) else body
    with transaction.atomic():
        answer = hall.people[role].ask(method, path.format(**hall.names), sent)
        transaction.set_rollback(True)
    return answer


TOURNAMENT = document(("125",), 2)["tournament"]


def test_every_operation_for_every_role(hall: Hall) -> None:
    wrong = []
    for name, method in operations():
        for role in ROLES:
            answer = send(hall, role, name, method)
            refused = answer.status_code in (401, 403)
            if refused == may(role, CELLS[name][0]) or answer.status_code >= 500:
                wrong.append((name, role, answer.status_code, answer.content[:200]))
    assert not wrong


# What is refused to everybody as things stand, and what is found by nobody.
NOT_NOW = (season_cells.NOT_NOW | young.NOT_NOW | late_cells.NOT_NOW) | {
    "postAdoption",  # a challenge waits
    *("deleteOneDivision", "deleteOneWeight", "deleteWeightDraw"),
    *("postWeightDrawTakenBack", "postCommitment", "postCommitmentSecret"),
    *("postKeptSeason", "getJobProduct", "postDivisionWeightSets", "postSeason", "putDivisionList"),
}


def test_whoever_may_is_answered_and_not_only_let_through(hall: Hall) -> None:
    wrong = []
    for name, method in operations():
        if name in NOT_NOW or CELLS[name][0] == OPERATOR:
            continue
        answer = send(hall, "owner", name, method)
        if answer.status_code not in (200, 201, 202):
            wrong.append((name, answer.status_code, answer.content[:200]))
    assert not wrong


def test_a_tournament_that_publishes_nothing_is_not_there_for_strangers(hall: Hall) -> None:
    shown = [f"shows_{kind}" for kind in ("entries", "seeds", "draw", "results", "team_points")]
    Tournament.objects.update(**dict.fromkeys(shown, False))
    wrong = []
    for name, method in operations():
        if not CELLS[name][1].startswith(HERE):
            continue
        for role in ("stranger", "anonymous"):
            answer = send(hall, role, name, method)
            wanted = 403 if role == "anonymous" and method != "get" else 404
            if answer.status_code != wanted:
                wrong.append((name, role, answer.status_code, answer.content[:200]))
    assert not wrong


def test_an_official_result_is_the_directors(hall: Hall) -> None:
    state = f"{HERE}/bouts/1/result/state/"
    assert hall.people["table"].ask("put", state, {"state": "official"}).status_code == 403
    hall.people["director"].act("put", state, {"state": "official"})
    assert hall.people["table"].ask("delete", f"{HERE}/bouts/1/result/").status_code == 403
