"""One weight's sheet: the drawing, and the same as a list by round."""

from dataclasses import dataclass

from brackets.core.graph import Format, Round
from django.http import HttpRequest

from results.queries.gates import Gates
from results.queries.pages import weights
from results.queries.people import People, Person
from results.queries.sheets import Seen, Sheet, rounds, sheets
from results.views.public.drawing import drawing
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


@dataclass(frozen=True, slots=True)
class Met:
    """A wrestler of a round robin: his bouts against each of the others, and how many he won."""

    person: Person | None
    line: int
    bouts: list[Seen | None]
    won: int
    wrestled: int
    place: int | None


@public
def sheet(request: HttpRequest, tournament: Tournament, gates: Gates, weight: str) -> Page:
    """The sheet of a weight; before the draw, who is entered."""
    if not gates.published:
        raise NotFound(what="weight", name=weight)
    listed = list(weights(tournament))
    row = next((one for one in listed if one.key == weight), None)
    if row is None:
        raise NotFound(what="weight", name=weight)
    people = People.of(tournament, gates)
    found = next(iter(sheets(tournament, gates, people, row)), None)
    context = {"weight": row, "weights": listed, "sheet": found, "field": _field(people, row)}
    if found:
        context |= _drawn(found, gates)
    return Page("results/sheet.html", "results/_sheet.html", context)


def _field(people: People, weight: WeightClass) -> list[Person]:
    """Who is entered: by published seed, then by what is published of team and name."""
    entered = [one for one in people.where(weight=weight.pk) if not one.scratched]
    return sorted(entered, key=lambda one: (one.seed or 1000, one.team.name, one.name))


def _drawn(found: Sheet, gates: Gates) -> dict[str, object]:
    pool = found.bracket.format is Format.ROUND_ROBIN
    return {
        "rounds": _listed(found, gates),
        "drawing": None if pool else drawing(found),
        "pool": _pool(found) if pool else None,
    }


def _listed(found: Sheet, gates: Gates) -> list[Listed]:
    """Rounds from the current one on are unfolded; all where it is over, or nothing is told."""
    now = found.now if gates.results else ""
    at = next((one.column for one in found.bracket.rounds if one.code == now), 0)
    return [Listed(one, here, one.code == now, one.column >= at) for one, here in rounds(found)]


def _pool(found: Sheet) -> list[Met]:
    """The cross table, best place first, else in the order of the lines."""
    seats: dict[int, Person | None] = {}
    against: dict[tuple[int, int], Seen] = {}
    wins: dict[int, int] = {}
    for bout in found.bouts.values():
        lines = [side.line or 0 for side in bout.sides]
        for side, line in zip(bout.sides, lines, strict=True):
            seats[line] = side.person
            wins[line] = wins.get(line, 0) + side.won
        against[lines[0], lines[1]] = against[lines[1], lines[0]] = bout
    place = {who.entry: place for place, who in found.places}
    met = [
        Met(
            person=who,
            line=line,
            bouts=[against.get((line, other)) for other in sorted(seats)],
            won=wins[line],
            wrestled=sum(one.decided for other in seats if (one := against.get((line, other)))),
            place=place.get(who.entry) if who else None,
        )
        for line, who in sorted(seats.items())
    ]
    return met
