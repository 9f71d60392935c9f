"""The whole tournament file: read and checked against its schema, or written from the tables."""

import json
from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError

from brackets.models import Bout
from brackets.serializers.document import bout_items, drawn_sections, places_section
from results.core.outcomes import Kind
from results.models import Adjustment, Result, Withdrawal
from results.queries.figures import plain
from results.queries.implied import implied_kinds
from results.queries.points import team_table
from results.queries.weigh_in import cut_offs
from results.serializers.consistency import inconsistencies
from results.serializers.ruled_file import ending_of, ruled_sections, ruled_sides
from seeding.entries.models import Division, Tournament, WeightClass
from seeding.entries.serializers.people import moment
from seeding.journal.core.errors import Invalid, Problem
from seeding.serializers.document import order_section

Item = dict[str, Any]
SCHEMA = Path(__file__).parent.parent / "tournament_file.schema.json"


@lru_cache(maxsize=1)
def schema() -> Item:
    """The published JSON Schema of the tournament file."""
    found: Item = json.loads(SCHEMA.read_text())
    return found


def read_document(data: bytes) -> Item:
    """The document in a file; refuses what is no JSON, and every breach of the schema by path."""
    try:
        document = json.loads(data)
    except ValueError as error:
        raise Invalid([Problem("", f"This is no JSON: {error}.")]) from error
    check_document(document)
    found: Item = document
    return found


def check_document(document: Any) -> None:
    """Refuse a document that breaks its schema or itself, naming the path of every fault."""
    faults = sorted(Draft202012Validator(schema()).iter_errors(document), key=lambda one: one.path)
    if faults:
        raise Invalid([Problem(_path(fault), fault.message) for fault in faults])
    if problems := list(inconsistencies(document)):
        raise Invalid(problems)


def _path(fault: ValidationError) -> str:
    return fault.json_path.removeprefix("$").removeprefix(".")


def dump(tournament: Tournament) -> Item:
    """The tournament as a document, with what the program worked out."""
    drawn = drawn_sections(tournament)
    rows = WeightClass.objects.filter(tournament=tournament)
    for item, row in zip(drawn["weight_classes"], rows, strict=True):
        if order := order_section(row):
            item["seeding"] = order
    results = {row.bout_id: row for row in _results(tournament)}
    bouts = bout_items(tournament)
    implied = implied_kinds(row for row, _ in bouts)
    against = ruled_sections(tournament)
    ruled = ruled_sides(against)
    return {
        "format": "tournament-file",
        "version": 1,
        **drawn,
        "results": [_result(row, results[row.pk]) for row, _ in bouts if row.pk in results],
        **against,
        "withdrawals": list(_withdrawals(tournament)),
        **_cut_offs(tournament),
        "adjustments": list(_adjustments(tournament)),
        "bouts": [
            item | {"ruled": True}
            if ruled.get((item["weight_class"], str(row.key))) == item["sides"]
            else item | _ending(results.get(row.pk), implied.get(row.pk), row)
            for row, item in bouts
        ],
        "places": places_section(tournament),
        "team_points": list(_team_points(tournament)),
    }


def _results(tournament: Tournament) -> Iterable[Result]:
    rows = Result.objects.filter(bout__drawn__weight_class__tournament=tournament)
    return rows.select_related("bout__drawn__weight_class", "bout__top", "bout__bottom")


def _result(bout: Bout, row: Result) -> Item:
    sides = (bout.top, bout.bottom)
    winner = None if row.winner_side is None else sides[row.winner_side]
    item: Item = {"weight_class": bout.drawn.weight_class.key}
    if bout.number:
        item["bout"] = bout.number
    else:
        item["between"] = [side.key for side in sides if side]
    return item | {"winner": winner.key if winner else None} | _facts(row)


def _facts(row: Result) -> Item:
    state = {} if row.state == Result.State.ENTERED else {"state": row.state}
    return ending_of(row) | state


def _ending(row: Result | None, implied: Kind | None, bout: Bout) -> Item:
    if row:
        return _facts(row)
    return {"kind": implied or Kind.MEDICAL, "implied": True} if bout.implied else {}


def _withdrawals(tournament: Tournament) -> Iterable[Item]:
    rows = Withdrawal.objects.filter(entry__tournament=tournament).select_related("entry")
    for row in rows.order_by("entry__key"):
        after = row.behind or None
        yield {"entry": row.entry.key, "kind": row.kind, "after": after, "reason": row.reason}


def _cut_offs(tournament: Tournament) -> Item:
    items = [
        {"division": row.division.key, "at": moment(row.at)}
        if row.division
        else {"at": moment(row.at)}
        for row in cut_offs(tournament)
    ]
    return {"cut_offs": items} if items else {}


def _adjustments(tournament: Tournament) -> Iterable[Item]:
    rows = Adjustment.objects.filter(team__tournament=tournament)
    for row in rows.select_related("team", "division"):
        yield {
            "division": row.division.key,
            "team": row.team.key,
            "points": plain(row.points),
            "reason": row.reason,
        }


def _team_points(tournament: Tournament) -> Iterable[Item]:
    for division in Division.objects.filter(tournament=tournament):
        for row in team_table(division):
            line = row.line
            yield {
                "division": division.key,
                "team": row.team.key,
                "placement": plain(line.placement),
                "advancement": plain(line.advancement),
                "bonus": plain(line.bonus),
                "adjustments": plain(line.adjustments),
                "total": plain(line.total),
                "place": line.place,
            }
