"""The demo: the invented championship in the database, part-way through its day."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta

from brackets.models import Bout
from brackets.queries import numbered, numbered_bout
from deploy.scenario.tournament import SEED, OpenBout, Scenario, scenario
from results.models import Result
from results.services import confirm_result, enter_result, load_tournament
from seeding.entries.models import Tournament
from seeding.entries.services import found_organisation
from seeding.journal.services import OPERATOR, Call

BEGINS = datetime(2025, 3, 15, 14, 0, tzinfo=UTC)
BETWEEN = timedelta(seconds=75)  # from one result to the next, over all mats
LAST = 270  # the quarterfinals are over, the second consolation round is on
OFFICIAL = 120


def load_demo(seed: str = SEED, last: int = LAST) -> Tournament:
    """Load the scenario and wrestle it up to bout `last`, through the services."""
    invented = scenario(seed)
    document = invented.document()
    organisation = found_organisation(slug="longwater", name="Longwater Wrestling")
    load_tournament(call=_call(0), organisation=organisation, document=document)
    tournament = Tournament.objects.get(slug=document["tournament"]["slug"])
    _wrestle(tournament, invented, last)
    return tournament


def _wrestle(tournament: Tournament, invented: Scenario, last: int) -> None:
    def ready() -> Iterator[OpenBout]:
        return _ready(tournament)

    for at, (one, outcome) in enumerate(invented.day(ready, last), start=1):
        bout = numbered_bout(tournament, one.number)
        enter_result(call=_call(at), bout=bout, outcome=outcome)
        if one.number <= OFFICIAL:
            confirm_result(call=_call(at), bout=bout, state=Result.State.OFFICIAL)


def _ready(tournament: Tournament) -> Iterator[OpenBout]:
    for row in numbered(tournament).filter(status=Bout.Status.READY):
        if row.top and row.bottom and row.number:
            weight = row.drawn.weight_class.key
            yield OpenBout(weight, row.key, row.number, (row.top.key, row.bottom.key))


def _call(at: int) -> Call:
    return Call(OPERATOR, BEGINS + at * BETWEEN)
