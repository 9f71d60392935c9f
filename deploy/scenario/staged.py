"""The demo: the invented championship in the database, part-way through its day."""

import hashlib
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from typing import Any

from brackets.core.commitment import commitment
from brackets.models import Bout
from brackets.queries import numbered, numbered_bout
from brackets.services import number_bouts
from deploy.scenario.tournament import SEED, SLUG, OpenBout, Scenario, scenario
from results.models import Result
from results.services import confirm_result, draw_weight, enter_result, load_tournament
from seeding.entries.models import Tournament, WeightClass
from seeding.entries.services import found_organisation
from seeding.journal.services import OPERATOR, Call
from seeding.queries import order_of
from seeding.services import adopt_order, move_seed

BEGINS = datetime(2025, 3, 15, 14, 0, tzinfo=UTC)
COMMITTED = BEGINS - timedelta(days=2)
BETWEEN = timedelta(seconds=75)  # from one result to the next, over all mats
LAST = 270  # the quarterfinals are over, the second consolation round is on
OFFICIAL = 120
OVERRULED = "149"


def load_demo(seed: str = SEED, last: int = LAST) -> Tournament:
    """Load the scenario, seed and draw it, and wrestle it up to bout `last`, by the services."""
    invented = scenario(seed)
    organisation = found_organisation(slug="longwater", name="Longwater Wrestling")
    document = _unseeded(invented) | {"draw_commitment": _commitment(seed)}
    load_tournament(call=_call(0), organisation=organisation, document=document)
    tournament = Tournament.objects.get(slug=SLUG)
    for weight in tournament.weights.select_related("division", "tournament__log"):
        _overrule(weight)
        adopt_order(call=_call(0), weight=weight)
        draw_weight(call=_call(0), weight=weight)
    number_bouts(call=_call(0), tournament=tournament)
    _wrestle(tournament, invented, last)
    return tournament


def _unseeded(invented: Scenario) -> dict[str, Any]:
    """The file before the seeding meeting: no seeds, no brackets."""
    document = invented.document() | {"brackets": []}
    entries = [
        item | {"seed": None, "wrestler": _opaque(item["id"])} for item in document["entries"]
    ]
    return document | {"entries": entries}


def _commitment(seed: str) -> dict[str, str]:
    """The draw was committed to two days ago; its secret is told with the draw."""
    secret = hashlib.sha256(f"{seed}/draw".encode()).hexdigest()
    times = {"at": COMMITTED.isoformat(), "revealed_at": BEGINS.isoformat()}
    return {"digest": commitment(secret), "secret": secret, **times}


def _opaque(name: str) -> str:
    """The same id at every start, so that lots fall the same way; it says nothing of the person."""
    return hashlib.sha256(f"{SEED}/{name}".encode()).hexdigest()[:12]


def _overrule(weight: WeightClass) -> None:
    """One decision of the committee, to show what such a decision looks like."""
    if weight.key == OVERRULED:
        order = order_of(weight)
        entry = order.entries[order.order[4]]
        move_seed(call=_call(0), entry=entry, to=4, reason="Won the last meeting of the two.")


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
