"""What tests of corrections and rulings share."""

import json
from decimal import Decimal

from brackets.core.replay import Choice
from brackets.core.sources import BoutKey
from brackets.models import Bout, Drawn, Placing
from brackets.queries import numbered
from results.core.outcomes import Kind, Outcome
from results.queries.points import team_table
from results.queries.preview import preview
from results.serializers.document import check_document, dump
from results.services import correct_result
from seeding.entries.models import Division, Organisation, Tournament
from tests.results.championship import CALL, document, load, wrestle

OTHER = Outcome(Kind.DECISION, 1, (5, 3))
REASON = "the score was turned round"


def at(key: str) -> Bout:
    parsed = BoutKey.parse(key)
    rows = Bout.objects.select_related("drawn__weight_class__division")
    return rows.get(round=parsed.round, position=parsed.position)


def seeds(key: str) -> list[int | None]:
    row = at(key)
    return [side.seed if side else None for side in (row.top, row.bottom)]


def places() -> dict[int, list[int]]:
    found: dict[int, list[int]] = {}
    for row in Placing.objects.order_by("place", "entry__seed"):
        found.setdefault(row.place, []).append(row.entry.seed or 0)
    return found


def drawn() -> Drawn:
    return Drawn.objects.select_related("weight_class__division").get()


def chosen(key: str, outcome: Outcome | None, **choices: Choice) -> None:
    """Choose for every bout affected, by its round, until nothing is left, and correct."""
    made: dict[BoutKey, Choice] = {}
    for _ in range(20):
        seen = preview(at(key), outcome, made)
        if not seen.wrestled:
            break
        row = seen.wrestled[0]
        made[row.key] = choices.get(row.round, choices["other"])
    correct_result(
        call=CALL, bout=at(key), outcome=outcome, choices=made, mark=seen.mark, reason=REASON
    )


def comes_back(tournament: Tournament) -> None:
    """A dump passes its schema, loads, and dumps the same."""
    first = json.loads(json.dumps(dump(tournament)))
    check_document(first)
    Organisation.objects.update(slug="before")
    Tournament.objects.update(slug="before")
    assert json.loads(json.dumps(dump(load(first)))) == first


def total(of: Tournament, seed: int) -> Decimal:
    rows = team_table(Division.objects.get(tournament=of))
    return next(row.line.total for row in rows if row.team.name == f"Team {seed}")


def wrestled_through() -> Tournament:
    """Eight entries, all wrestled, every bout won by its top side."""
    tournament = load(document(entries=8))
    while ready := numbered(tournament).filter(status=Bout.Status.READY).first():
        wrestle(ready, 0)
    return tournament
