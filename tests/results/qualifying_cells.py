"""Qualifying's part of the matrix of rights by the API."""

from collections.abc import Callable
from typing import Any

from results.queries.qualifying import look
from seeding.core.qualifying import Spot
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right
from seeding.entries.queries import weight
from seeding.entries.services import scratch_entry
from seeding.models import Berth
from seeding.queries.qualifying import candidates
from seeding.services.alternates import step_in
from seeding.services.qualifying import Numbers, needed_plan, set_places, set_plan, set_region
from tests.results.championship import CALL

HERE = "/tournaments/spring"
FIELD = f"{HERE}/weights/157/field/"
PLAN = {"places": 1, "wild_cards": 0, "alternates": 2, "alternates_until": None}
REGION = {"letter": "B", "name": "South", "event": None}
CELLS: dict[str, tuple[Right, str, Any]] = {
    "getQualifying": (Right.READ, f"{HERE}/qualifying/", None),
    "putQualifying": (Right.DIRECT, f"{HERE}/qualifying/", PLAN),
    "postRegions": (Right.DIRECT, f"{HERE}/regions/", {**REGION, "letter": "C"}),
    "putOneRegion": (Right.DIRECT, f"{HERE}/regions/B/", REGION),
    "deleteOneRegion": (Right.DIRECT, f"{HERE}/regions/B/", None),
    "getWeightField": (Right.READ, FIELD, None),
    "putFieldPlaces": (
        Right.DIRECT,
        f"{FIELD}places/",
        {"items": [{"entry": "157-1", "region": "A", "place": 2}]},
    ),
    "postCandidates": (Right.SEED, f"{FIELD}candidates/", "candidates"),
    "postEntryAlternate": (
        Right.DIRECT,
        f"{HERE}/entries/157-2/alternate/",
        {"alternate": "157-4"},
    ),
    "deleteEntryAlternate": (Right.DIRECT, f"{HERE}/entries/157-3/alternate/", None),
    "postQualifiersPreview": (Right.DIRECT, f"{HERE}/qualifiers/preview/", None),
    "postQualifiers": (Right.DIRECT, f"{HERE}/qualifiers/", "qualifiers"),
}


def prepare(tournament: Tournament) -> None:
    """At 157 two by place, both scratched, and two alternates, of whom the first stepped in."""
    set_plan(call=CALL, tournament=tournament, numbers=Numbers(1, 0, 2, None))
    for letter in ("A", "B"):
        set_region(call=CALL, tournament=tournament, letter=letter, name=f"Region {letter}")
    rows = {row.key: row for row in tournament.entries.filter(weight_class__key="157")}
    places = {rows[f"157-{place}"].pk: Spot("A", place) for place in range(1, 5)}
    places[rows["157-2"].pk] = Spot("A", 1)
    set_places(call=CALL, weight=weight(tournament, "157"), places=places)
    for order, key in enumerate(("157-3", "157-4"), start=1):
        rows = {row.key: row for row in tournament.entries.filter(weight_class__key="157")}
        Berth.objects.filter(entry=rows[key]).update(how="alternate", order=order)
    for key in ("157-1", "157-2"):
        scratch_entry(call=CALL, entry=rows[key])
    step_in(call=CALL, entry=rows["157-1"], alternate=rows["157-3"])


def bodies(tournament: Tournament) -> dict[str, Callable[[], Any]]:
    """What is sent where it depends on how things stand."""
    at, plan = weight(tournament, "157"), needed_plan(tournament)
    return {
        "candidates": lambda: {"mark": candidates(at, plan).mark},
        "qualifiers": lambda: {"mark": look(tournament).mark},
    }
