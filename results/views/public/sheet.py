"""One weight's sheet: the drawing, and the same as a list by round."""

from dataclasses import dataclass

from django.http import HttpRequest

from brackets.core.graph import Format, Round
from results.queries.drawing import drawing
from results.queries.draws import draw_told
from results.queries.gates import Gates
from results.queries.pages import weights
from results.queries.people import People, Person
from results.queries.sheets import Seen, Sheet, Side, rounds, sheets
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
class Cell:
    """What a wrestler of a round robin has to do with another: their bout, and whether he won."""

    against: str
    bout: Seen | None
    won: bool


@dataclass(frozen=True, slots=True)
class Met:
    """A wrestler of a round robin: a cell for each of the others and one for himself."""

    person: Person | None
    line: int
    cells: list[Cell]
    place: int | None

    @property
    def won(self) -> int:
        return sum(cell.won for cell in self.cells)

    @property
    def wrestled(self) -> int:
        return sum(bool(cell.bout and cell.bout.decided) for cell in self.cells)


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
        context |= _drawn(found, gates) | {"told": draw_told(row)}
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
    """Rounds from the current one on are unfolded; once all is over, those that gave places."""
    now = found.now if gates.results else ""
    at = next((one.column for one in found.bracket.rounds if one.code == now), 0)
    over = gates.results and not now and found.bracket.format is Format.ELIMINATION
    return [
        Listed(one, here, one.code == now, bool(one.places) if over else one.column >= at)
        for one, here in rounds(found)
    ]


def _pool(found: Sheet) -> list[Met]:
    """The cross table in the order of the lines."""
    sides: dict[tuple[int, int], tuple[Seen, Side]] = {}
    for bout in found.bouts.values():
        top, bottom = bout.sides
        sides[top.line or 0, bottom.line or 0] = bout, top
        sides[bottom.line or 0, top.line or 0] = bout, bottom
    seats = {mine: side.person for (mine, _), (_, side) in sides.items()}
    place = {who.entry: place for place, who in found.places}
    return [
        Met(
            person=who,
            line=line,
            cells=[_cell(sides.get((line, other)), other, seats[other]) for other in sorted(seats)],
            place=place.get(who.entry) if who else None,
        )
        for line, who in sorted(seats.items())
    ]


def _cell(met: tuple[Seen, Side] | None, line: int, other: Person | None) -> Cell:
    against = other.name if other else str(line)
    return Cell(against, met[0], met[1].won) if met else Cell(against, None, False)
