"""Two regions wrestled to the end, and the next level that takes its field from them."""

from dataclasses import replace
from datetime import timedelta
from typing import Any

from brackets.models import Bout
from brackets.queries import numbered
from results.core.outcomes import Kind, Outcome
from results.services import enter_result
from results.services.qualifying import take_places
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.services import (
    scratch_entry,
)
from seeding.models import Berth
from seeding.queries.qualifying import field_of
from seeding.services.qualifying import (
    Numbers,
    accept_candidates,
    set_plan,
    set_region,
)
from tests.results.championship import CALL, NOW, document, load, side

BOOK = "high-school-2025"
BEFORE = replace(CALL, now=NOW - timedelta(days=14))
UNTIL = NOW + timedelta(hours=2)


def region(slug: str, name: str) -> Tournament:
    """Eight wrestlers of a region, wrestled to the end; the better seed always wins."""
    file = document(entries=8, rulebook=BOOK, settings={})
    file["tournament"] |= {"slug": slug, "name": f"{name} Region", "starts_on": "2026-03-05"}
    for team in file["teams"]:
        team["name"] = f"{name} {team['name']}"
    for entry in file["entries"]:
        entry["family"] = f"{name}{entry['seed']}"
    tournament = load(file)
    finish(tournament)
    return tournament


def finish(tournament: Tournament) -> None:
    while bout := numbered(tournament).filter(status=Bout.Status.READY).first():
        sides = [bout.top, bout.bottom]
        seeds = [side.seed or 99 for side in sides if side]
        won = Outcome(Kind.DECISION, side(seeds.index(min(seeds))), (5, 3))
        enter_result(call=BEFORE, bout=bout, outcome=won)


def state(**settings: Any) -> Tournament:
    """The next level, without entries."""
    file = document(entries=0, rulebook=BOOK, settings=settings)
    file["tournament"] |= {"slug": "state", "name": "State Championships"}
    return load(file)


def plan(tournament: Tournament, **numbers: Any) -> None:
    given = {"places": 4, "wild_cards": 0, "alternates": 2, "alternates_until": UNTIL, **numbers}
    set_plan(call=CALL, tournament=tournament, numbers=Numbers(**given))


def weight(tournament: Tournament) -> WeightClass:
    return WeightClass.objects.select_related("division", "tournament").get(tournament=tournament)


def by_spot(tournament: Tournament, text: str) -> Entry:
    return Entry.objects.select_related("wrestler", "weight_class", "tournament").get(
        tournament=tournament,
        pk=Berth.objects.get(
            entry__tournament=tournament, region__letter=text[0], place=int(text[1:])
        ).entry_id,
    )


def names(tournament: Tournament, **status: str) -> list[str]:
    rows = Entry.objects.filter(tournament=tournament, **status)
    return sorted(rows.values_list("wrestler__family", flat=True))


def two_regions() -> Tournament:
    """The next level with two wrestled regions: four of each advance, two wild cards."""
    north, south = region("north", "North"), region("south", "South")
    tournament = state(**{"seeding.fill": "regions"})
    plan(tournament)
    for letter, source in (("A", north), ("B", south)):
        set_region(call=CALL, tournament=tournament, letter=letter, name=source.name, source=source)
    return tournament


def ready(meet: Tournament, **numbers: Any) -> tuple[WeightClass, Entry, Entry]:
    """Taken in and accepted; the weight, a scratched qualifier, and the first alternate."""
    plan(meet, **numbers)
    take_places(call=CALL, tournament=meet)
    at = weight(meet)
    accept_candidates(call=CALL, weight=at)
    gone = by_spot(meet, "A2")
    scratch_entry(call=CALL, entry=gone)
    first = field_of(at).first
    assert first
    return at, gone, first.entry
