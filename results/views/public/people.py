"""A team and a wrestler."""

from dataclasses import dataclass

from django.http import HttpRequest

from results.queries.gates import Gates
from results.queries.people import People, Person
from results.queries.race import Earned, Standing, earned, races
from results.queries.ruled import Ruled, Voided
from results.queries.seen import Seen
from results.queries.sheets import Sheet, sheets
from results.views.public.page import Page, public
from seeding.entries import queries
from seeding.entries.models import Tournament
from seeding.journal.core.errors import NotFound


@dataclass(frozen=True, slots=True)
class Way:
    """A wrestler's way through a weight: the bouts he stands in, his place, what he earned."""

    person: Person
    drawn: bool
    bouts: tuple[Seen, ...]
    place: int | None
    parts: tuple[Earned, ...]
    rulings: tuple[Ruled, ...]
    void: tuple[Voided, ...]

    @property
    def total(self) -> object:
        return sum(part.points for part in self.parts)

    @property
    def next(self) -> Seen | None:
        return next((bout for bout in self.bouts if bout.open), None)


@public
def team(request: HttpRequest, tournament: Tournament, gates: Gates, team: str) -> Page:
    """A team's wrestlers and its points."""
    if not (gates.entries or gates.points):
        raise NotFound(what="team", name=team)
    row = queries.team(tournament, team)
    people = People.of(tournament, gates)
    entered = [one for one in people.where(team=row.pk) if not one.scratched]
    told = [
        (race.division, standing)
        for race in races(tournament, gates, people)
        for standing in race.teams
        if standing.team.pk == row.pk
    ]
    gained = _earned([standing for _, standing in told])
    drawn = sheets(tournament, gates, people, *(one.weight for one in entered))
    ways = _ways(drawn, entered, gained)
    context = {"team": row, "ways": ways, "standings": told}
    return Page("results/team.html", "results/_team.html", context)


@public
def wrestler(request: HttpRequest, tournament: Tournament, gates: Gates, uid: str) -> Page:
    """A wrestler's way, bout by bout, and what he earned for his team."""
    people = People.of(tournament, gates)
    found = people.where(handle=uid)
    if not found:
        raise NotFound(what="wrestler", name=uid)
    drawn = sheets(tournament, gates, people, *(one.weight for one in found))
    ways = _ways(drawn, found, earned([one.entry for one in found], gates))
    context = {"name": found[0].name, "ways": ways}
    return Page("results/wrestler.html", "results/_wrestler.html", context)


def _earned(standings: list[Standing]) -> dict[int, tuple[Earned, ...]]:
    return {one.person.entry: one.parts for standing in standings for one in standing.earners}


def _ways(
    drawn: list[Sheet], persons: list[Person], gained: dict[int, tuple[Earned, ...]]
) -> list[Way]:
    by_weight = {sheet.weight.pk: sheet for sheet in drawn}
    return [_way(by_weight.get(one.weight.pk), one, gained) for one in persons]


def _way(sheet: Sheet | None, person: Person, gained: dict[int, tuple[Earned, ...]]) -> Way:
    bouts = sheet.bouts.values() if sheet else ()
    places = sheet.places if sheet else ()
    return Way(
        person=person,
        drawn=sheet is not None,
        bouts=tuple(bout for bout in bouts if bout.has(person.entry)),
        place=next((place for place, who in places if who.entry == person.entry), None),
        parts=gained.get(person.entry, ()),
        rulings=sheet.ruled_of(person.key) if sheet else (),
        void=sheet.void_of(person.key) if sheet else (),
    )
