"""How often the database is asked: not once more for each withdrawal, ruling or void bout."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from brackets.core.drafting import WantedPlace
from brackets.models import Bout
from brackets.queries import drawn, numbered
from results.queries.gates import Gates
from results.queries.papers import OPEN
from results.queries.people import People
from results.queries.sheets import sheets
from results.services import rule, withdraw
from seeding.entries.models import Entry, Tournament
from tests.results.championship import CALL, document, load, wrestle
from tests.results.late import at, entry
from tests.seeding.entries.desks import signed_in

pytestmark = pytest.mark.django_db
WEIGHTS = ("125", "133", "141")


def _asked(tournament: Tournament, gates: Gates = OPEN) -> int:
    people = People.of(tournament, gates)
    with CaptureQueriesContext(connection) as asked:
        assert len(sheets(tournament, gates, people)) == len(WEIGHTS)
    return len(asked)


def test_sheets_ask_once_about_all_who_are_out() -> None:
    file = document(WEIGHTS, 8) | {"brackets": [{"weight_class": one} for one in WEIGHTS]}
    tournament = load(file)
    counts = []
    for weight in WEIGHTS:
        gone: Entry = entry(tournament, f"{weight}-1")
        withdraw(call=CALL, entry=gone, kind="medical")
        counts.append(_asked(tournament))
    assert len(set(counts)) == 1


def test_the_page_of_rulings_asks_the_same_for_any_number() -> None:
    tournament = load(document(WEIGHTS, 4, {"bracket.round_robin_up_to": 0}))
    while ready := numbered(tournament).filter(status=Bout.Status.READY).first():
        wrestle(ready, 0)
    client = signed_in("director", tournament)
    counts = []
    for weight in WEIGHTS:
        wanted = WantedPlace(f"{weight}-2", 1, shared=False)
        rule(call=CALL, drawn=drawn(at(tournament, weight)), wanted=wanted, reason="why")
        with CaptureQueriesContext(connection) as asked:
            assert client.get("/desk/spring/rulings/").status_code == 200
        counts.append(len(asked))
    assert len(set(counts)) == 1
