"""The season's and the put-in's part of the matrix of rights by the API."""

from collections.abc import Callable
from datetime import date
from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile

from seeding.core.identity import bout_identity
from seeding.core.put_in import Voted
from seeding.entries.models import Tournament, Wrestler
from seeding.entries.permissions import Right
from seeding.entries.queries import weight
from seeding.models import Ballot, PriorBout
from seeding.services.put_in import set_ballot
from tests.results.championship import CALL

HERE = "/tournaments/spring"
ORDER = f"{HERE}/weights/141/order"
FILE = "Weight,Wrestler,Table,Kind,Value\n141,Given1 Family141,coaches,rank,1\n"
TABLES = {
    "tables": [{"kind": "ranking", "name": "coaches"}],
    "items": [{"entry": "141-1", "kind": "ranking", "table": "coaches", "value": 1}],
}
PAIR = {"one": "here1", "other": "here2"}
CELLS: dict[str, tuple[Right, str, Any]] = {
    "getSeasonDoubles": (Right.DIRECT, f"{HERE}/season/doubles/", None),
    "postSeasonApart": (Right.DIRECT, f"{HERE}/season/apart/", PAIR),
    "postSeasonMerges": (
        Right.DIRECT,
        f"{HERE}/season/merges/",
        {"keep": "here1", "gone": "here2"},
    ),
    "getSeasonRepeats": (Right.DIRECT, f"{HERE}/season/repeats/", None),
    "postSeasonTwoBouts": (Right.DIRECT, f"{HERE}/season/two-bouts/", "two-bouts"),
    "postSeasonStrikes": (Right.DIRECT, f"{HERE}/season/strikes/", "strike"),
    "deleteSeasonStrike": (Right.DIRECT, f"{HERE}/season/strikes/{{struck}}/", None),
    "putSeasonResults": (Right.DIRECT, f"{HERE}/season/results/", None),
    "getWeightTables": (Right.READ, f"{ORDER}/tables/", None),
    "putWeightTables": (Right.SEED, f"{ORDER}/tables/", TABLES),
    "putBallots": (
        Right.SEED,
        f"{ORDER}/ballots/",
        {"voter": "Coach Elm", "team": "t1", "ranks": [{"entry": "141-2", "rank": 1}]},
    ),
    "deleteOneBallot": (Right.SEED, f"{ORDER}/ballots/{{ballot}}/", None),
    "postPutInPlan": (Right.SEED, f"{HERE}/put-in/plan/", "put-in"),
    "postPutIn": (Right.SEED, f"{HERE}/put-in/", "put-in"),
}
NOT_NOW = {"putSeasonResults"}
"""Refused to everybody while bouts are to come."""


def prepare(tournament: Tournament) -> dict[str, str]:
    """Two wrestlers of one name, two bouts of a day of which a third is struck, a ballot."""
    home = tournament.organisation
    one, other, third = (
        Wrestler.objects.create(
            organisation=home, uid=f"here{number}", given="Ira", family=name, home=f"Home {number}"
        )
        for number, name in enumerate(("Holm", "Holm", "Reed"), start=1)
    )
    for event in ("Dual", "Duel"):
        _bout(one, third, event)
    struck = _bout(other, third, "Meet")
    PriorBout.objects.filter(pk=struck.pk).update(struck_at=CALL.now, struck_reason="x")
    ballot = Voted("141", "Coach Ash", "", {"141-1": 1})
    set_ballot(call=CALL, weight=weight(tournament, "141"), ballot=ballot)
    return {"struck": str(struck.pk), "ballot": str(Ballot.objects.get().pk)}


def _bout(winner: Wrestler, loser: Wrestler, event: str) -> PriorBout:
    day = date(2026, 1, 10)
    return PriorBout.objects.create(
        organisation=winner.organisation,
        identity=bout_identity(day, winner.uid, loser.uid, "141", event),
        date=day,
        weight="141",
        winner=winner,
        loser=loser,
        kind="fall",
        event=event,
    )


def bodies() -> dict[str, Callable[[], Any]]:
    """What is sent where it depends on how things stand."""
    first, second = PriorBout.objects.filter(struck_at=None).order_by("pk")[:2]
    return {
        "two-bouts": lambda: {"one": first.pk, "other": second.pk},
        "strike": lambda: {"bout": first.pk, "reason": "told twice"},
        "put-in": lambda: {"file": SimpleUploadedFile("ranks.csv", FILE.encode())},
    }
