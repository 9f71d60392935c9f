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
from tests.results.championship import CALL, document, load, wrestle
from tests.results.interface import Api, published_schema, user

pytestmark = pytest.mark.django_db
LIVE = replace(CALL, now=timezone.now())
PUBLIC, SIGNED, MEMBER, OPERATOR = "public", "signed in", "of the organisation", "operator"
Who = Right | str
HERE = "/tournaments/spring"
FALL = {"kind": "fall", "winner": "top", "time": "1:05"}
FRAME = {"slug": "new", "name": "New", "starts_on": "2026-03-19", "mats": ["1"]}


def csv(text: str) -> dict[str, Any]:
    return {"file": SimpleUploadedFile("file.csv", text.encode())}


ROSTER = "Given name,Family name,Weight,Team\nAda,Alder,141,Team 1\n"
NEW_PERSON = {"username": "x", "password": "quite-a-long-1", "role": "table"}
D, S, R, O, V = Right.DIRECT, Right.SEED, Right.RECORD, Right.OWN, Right.READ  # noqa: E741
# Operation: who may, where, and what is sent. {..} is filled from the tournament.
CELLS: dict[str, tuple[Who, str, Any]] = {
    "getRuleBooks": (PUBLIC, "/rule-books/", None),
    "getOneRuleBook": (PUBLIC, "/rule-books/college-2025/", None),
    "getCriteriaLists": (PUBLIC, "/criteria-lists/", None),
    "getOneCriteriaList": (PUBLIC, "/criteria-lists/college-2024/", None),
    "putDivisionList": (D, f"{HERE}/divisions/open/list/", {"name": "college-2024"}),
    "deleteDivisionList": (D, f"{HERE}/divisions/open/list/", None),
    "getFileSchema": (PUBLIC, "/tournament-files/schema/", None),
    "postFiles": (MEMBER, "/tournament-files/", "file"),
    "getOrganisations": (SIGNED, "/organisations/", None),
    "postOrganisations": (OPERATOR, "/organisations/", {"name": "Away"}),
    "getTournaments": (PUBLIC, "/tournaments/", None),
    "postTournaments": (MEMBER, "/tournaments/", {**FRAME, "organisation": "home"}),
    "getOneTournament": (PUBLIC, f"{HERE}/", None),
    "patchOneTournament": (D, f"{HERE}/", {"name": "Other"}),
    "patchTournamentGates": (D, f"{HERE}/gates/", {"seeds": False}),
    "getActs": (V, f"{HERE}/acts/", None),
    "getJobs": (V, f"{HERE}/jobs/", None),
    "getOneJob": (V, f"{HERE}/jobs/{{job}}/", None),
    "getJobProduct": (V, f"{HERE}/jobs/{{job}}/product/", None),
    "getRoles": (O, f"{HERE}/roles/", None),
    "postRoles": (O, f"{HERE}/roles/", NEW_PERSON),
    "putOneRole": (O, f"{HERE}/roles/stranger/", {"role": "reader"}),
    "deleteOneRole": (O, f"{HERE}/roles/reader/", None),
    "getDivisions": (PUBLIC, f"{HERE}/divisions/", None),
    "postDivisions": (D, f"{HERE}/divisions/", {"name": "B", "rulebook": "college-2025"}),
    "getOneDivision": (PUBLIC, f"{HERE}/divisions/open/", None),
    "patchOneDivision": (D, f"{HERE}/divisions/open/", {"name": "All"}),
    "deleteOneDivision": (D, f"{HERE}/divisions/open/", None),
    "postDivisionWeightSets": (D, f"{HERE}/divisions/open/weight-sets/", {"name": "college"}),
    "postRoster": (D, f"{HERE}/divisions/open/roster/", "roster"),
    "postRosterPlan": (D, f"{HERE}/divisions/open/roster/plan/", "roster"),
    "getWeights": (PUBLIC, f"{HERE}/weights/", None),
    "postWeights": (D, f"{HERE}/weights/", {"division": "open", "label": "149"}),
    "getOneWeight": (PUBLIC, f"{HERE}/weights/125/", None),
    "patchOneWeight": (D, f"{HERE}/weights/125/", {"label": "126"}),
    "deleteOneWeight": (D, f"{HERE}/weights/125/", None),
    "postWeightEntries": (D, f"{HERE}/weights/141/entries/", {"family": "Elm", "team": "t1"}),
    "getWeightOrder": (V, f"{HERE}/weights/141/order/", None),
    "postMoves": (
        S,
        f"{HERE}/weights/141/order/moves/",
        {"entry": "141-2", "to": 1, "reason": "known"},
    ),
    "deleteOneMove": (S, f"{HERE}/weights/141/order/moves/{{move}}/", None),
    "postAdoption": (S, f"{HERE}/weights/141/order/adoption/", None),
    "putInputs": (
        S,
        f"{HERE}/weights/141/order/inputs/",
        {"items": [{"entry": "141-1", "rank": 2, "qualifying_place": None}]},
    ),
    "getOrderPair": (V, f"{HERE}/weights/141/order/pair/?a=141-1&b=141-2", None),
    "getOrderViolations": (V, f"{HERE}/weights/141/order/violations/", None),
    "getOrderChallenges": (V, f"{HERE}/weights/141/order/challenges/", None),
    "postOrderChallenges": (
        S,
        f"{HERE}/weights/141/order/challenges/",
        {"entry": "141-4", "over": "141-3", "by": "Coach Bly", "reason": "known"},
    ),
    "putChallengeWindow": (S, f"{HERE}/weights/141/order/challenges/window/", {"until": None}),
    "deleteChallengeWindow": (S, f"{HERE}/weights/141/order/challenges/window/", None),
    "deleteOneChallenge": (S, f"{HERE}/weights/141/order/challenges/{{challenge}}/", None),
    "putChallengeAnswer": (
        S,
        f"{HERE}/weights/141/order/challenges/{{challenge}}/answer/",
        {"granted": False, "answer": "no"},
    ),
    "getOrderMinutes": (V, f"{HERE}/weights/141/order/minutes/", None),
    "postMinutesSignatures": (
        S,
        f"{HERE}/weights/141/order/minutes/signatures/",
        "signature",
    ),
    "getOwnTeams": (V, f"{HERE}/own-teams/", None),
    "putOwnTeamsOf": (D, f"{HERE}/own-teams/committee/", {"teams": ["t1"]}),
    "getSeeds": (PUBLIC, f"{HERE}/weights/125/seeds/", None),
    "postSeason": (D, f"{HERE}/season/", "season"),
    "postKeptSeason": (D, f"{HERE}/season/{{season}}/", None),
    "getWeightBracket": (PUBLIC, f"{HERE}/weights/125/bracket/", None),
    "postWeightDraw": (D, f"{HERE}/weights/141/draw/", {}),
    "deleteWeightDraw": (D, f"{HERE}/weights/125/draw/", None),
    "postDraws": (D, f"{HERE}/draws/", None),
    "postNumbers": (D, f"{HERE}/numbers/", None),
    "getTeams": (PUBLIC, f"{HERE}/teams/", None),
    "postTeams": (D, f"{HERE}/teams/", {"name": "New"}),
    "getOneTeam": (PUBLIC, f"{HERE}/teams/t1/", None),
    "patchOneTeam": (D, f"{HERE}/teams/t1/", {"name": "New"}),
    "postTeamMerge": (D, f"{HERE}/teams/t1/merge/", {"into": "t2"}),
    "postTeamSplit": (
        D,
        f"{HERE}/teams/t1/split/",
        {"name": "New", "short": "N", "entries": ["125-1"]},
    ),
    "getTeamLedger": (PUBLIC, f"{HERE}/teams/t1/points/", None),
    "getEntries": (PUBLIC, f"{HERE}/entries/", None),
    "getOneEntry": (V, f"{HERE}/entries/141-1/", None),
    "patchOneEntry": (D, f"{HERE}/entries/141-1/", {"scoring": False}),
    "putEntryName": (D, f"{HERE}/entries/141-1/name/", {"given": "A", "family": "B"}),
    "putEntryWeighIn": (D, f"{HERE}/entries/141-1/weigh-in/", {"state": "made"}),
    "postEntryScratch": (D, f"{HERE}/entries/141-1/scratch/", None),
    "deleteEntryScratch": (D, f"{HERE}/entries/141-1/scratch/", None),
    "putEntryTeam": (D, f"{HERE}/entries/125-1/team/", {"team": "t2"}),
    "getWithdrawals": (V, f"{HERE}/withdrawals/", None),
    "postEntryWithdrawal": (D, f"{HERE}/entries/125-3/withdrawal/", {"kind": "injury"}),
    "deleteEntryWithdrawal": (D, f"{HERE}/entries/125-3/withdrawal/", None),
    "getWrestler": (PUBLIC, f"{HERE}/wrestlers/{{wrestler}}/", None),
    "getBouts": (PUBLIC, f"{HERE}/bouts/", None),
    "getOneBout": (PUBLIC, f"{HERE}/bouts/1/", None),
    "putBoutMat": (D, f"{HERE}/bouts/2/mat/", {"mat": "1"}),
    "postBoutResult": (R, f"{HERE}/bouts/2/result/", FALL),
    "putBoutResult": (R, f"{HERE}/bouts/1/result/", FALL),
    "deleteBoutResult": (R, f"{HERE}/bouts/1/result/", None),
    "putResultState": (R, f"{HERE}/bouts/1/result/state/", {"state": "confirmed"}),
    "postResultPreview": (R, f"{HERE}/bouts/1/result/preview/", {"outcome": FALL}),
    "postOfficial": (D, f"{HERE}/official/", {"bouts": []}),
    "getPlaces": (PUBLIC, f"{HERE}/places/", None),
    "getTeamPoints": (PUBLIC, f"{HERE}/team-points/", None),
    "getAdjustments": (PUBLIC, f"{HERE}/adjustments/", None),
    "postAdjustments": (
        D,
        f"{HERE}/adjustments/",
        {"division": "open", "team": "t1", "points": "1", "reason": "late"},
    ),
    "deleteOneAdjustment": (D, f"{HERE}/adjustments/{{adjustment}}/", None),
    "getOneFile": (D, f"{HERE}/file/", None),
    "postSheets": (V, f"{HERE}/sheets/", None),
}
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
    file = document(("125", "141"), 4)
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
    people = {"anonymous": Api(), "stranger": Api(user("stranger", organisation="away"))}
    for name in Role.Name.values:
        person = user(name)
        Role.objects.create(tournament=tournament, user=person, name=name)
        people[name] = Api(person)
    names = {
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
NOT_NOW = {
    "postAdoption",  # a challenge waits
    *("deleteOneDivision", "deleteOneWeight", "deleteEntryWithdrawal", "deleteWeightDraw"),
    *("postKeptSeason", "getJobProduct", "postDivisionWeightSets", "postSeason"),
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
