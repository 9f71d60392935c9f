"""One weight's sheet: the drawing, and the same as a list by round."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.http import HttpRequest

from brackets.core.graph import Round
from results.queries.cross import ALL_POOL, crosses
from results.queries.drawing import drawings
from results.queries.draws import draw_told
from results.queries.gates import Gates
from results.queries.pages import listed, weights
from results.queries.people import People, Person
from results.queries.seen import Seen
from results.queries.sheets import Sheet, sheets
from results.views.public.page import Page, public
from seeding.entries.models import Tournament, WeightClass
from seeding.journal.core.errors import NotFound


@dataclass(frozen=True, slots=True)
class Listed:
    """A round of the list; `now`: the day is there; `ahead`: unfolded."""

    round: Round
    bouts: list[Seen]
    now: bool
    ahead: bool


@public
def sheet(request: HttpRequest, tournament: Tournament, gates: Gates, weight: str) -> Page:
    """The sheet of a weight; before the draw, who is entered."""
    if not gates.published:
        raise NotFound(what="weight", name=weight)
    every = list(weights(tournament))
    row = next((one for one in every if one.key == weight), None)
    if row is None:
        raise NotFound(what="weight", name=weight)
    people = People.of(tournament, gates)
    found = next(iter(sheets(tournament, gates, people, row)), None)
    context = {
        "weight": row,
        "weights": listed(every),
        "sheet": found,
        "field": _field(people, row),
    }
    if found:
        context |= _drawn(found, gates) | {"told": draw_told(row)}
    return Page("results/sheet.html", "results/_sheet.html", context)


def _field(people: People, weight: WeightClass) -> list[Person]:
    """Who is entered: by published seed, then by what is published of team and name."""
    entered = [one for one in people.where(weight=weight.pk) if not one.scratched]
    return sorted(entered, key=lambda one: (one.seed or 1000, one.team.name, one.name))


def _drawn(found: Sheet, gates: Gates) -> dict[str, object]:
    pools = crosses(found)
    return {
        "rounds": _listed(found, gates),
        "drawings": () if found.bracket.format in ALL_POOL else drawings(found),
        "pools": pools,
    }


def _listed(found: Sheet, gates: Gates) -> list[Listed]:
    """Rounds from the current one on are unfolded and come first, then those behind it; once all
    is over, those that gave places.
    """
    now = found.now if gates.results else ""
    at = next((one.column for one in found.bracket.rounds if one.code == now), 0)
    over = gates.results and not now and found.bracket.format not in ALL_POOL
    listed = [
        Listed(one, here, one.code == now, bool(one.places) if over else one.column >= at)
        for one, here in _rounds(found)
    ]
    return sorted(listed, key=lambda one: not one.ahead)


def _rounds(sheet: Sheet) -> Iterator[tuple[Round, list[Seen]]]:
    """The rounds with their bouts in running order: real ones and the byes of the draw."""
    shown = sheet.bracket.byes.union(sheet.bracket.bouts)
    for one in sheet.bracket.rounds:
        here = [bout for key, bout in sheet.bouts.items() if key in shown and key.round == one.code]
        if here:
            yield one, here
