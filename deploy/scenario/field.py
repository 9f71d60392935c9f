"""Who is entered in the invented championship, and the strength that only the scenario knows."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from deploy.scenario.chance import Chance
from deploy.scenario.names import TEAMS, VISITORS, TeamName, people

WEIGHTS = ("125", "133", "141", "149", "157", "165", "174", "184", "197", "285")
SIZES = (33, 33, 28, 24, 33, 20, 33, 16, 12, 5)
SEEDED = (33, 33, 16, 16, 33, 12, 33, 16, 8, 5)
"""How many entries a weight has, and how many of them are seeded; the rest is drawn by lot."""

TEAM_SPREAD = 0.45
SECOND_ENTRY = -0.6
VISITOR = -0.3
SEED_NOISE = 0.4
RANK_NOISE = 0.5
QUALIFYING_NOISE = 0.7
QUALIFYING_EVENTS = 4


@dataclass(frozen=True, slots=True)
class Person:
    """One wrestler. `strength` is his worth in log odds; an outsider wrestled the season only."""

    id: str
    given: str
    family: str
    team: str
    weight: str
    strength: float
    outsider: bool = False
    scoring: bool = True
    seed: int | None = None
    rank: int | None = None
    qualifying_place: int | None = None
    publish: str = "full"
    scratched: bool = False


def field(seed: str) -> tuple[Person, ...]:
    """Everybody: the entries weight by weight, teams in order, then the outsiders."""
    chance = Chance(seed, "field")
    worth = {team.name: chance.normal(0.0, TEAM_SPREAD) for team in TEAMS}
    places = [*_entered(chance), *_outsiders()]
    names = people(Chance(seed, "names"), len(places))
    everybody = []
    for number, (place, (given, family)) in enumerate(zip(places, names, strict=True), 1):
        mean = worth.get(place.team, VISITOR) + (0.0 if place.scoring else SECOND_ENTRY)
        everybody.append(
            Person(
                id=f"w{number}" if place.outsider else f"e{number}",
                given=given,
                family=family,
                team=place.team,
                weight=place.weight,
                strength=chance.normal(mean),
                outsider=place.outsider,
                scoring=place.scoring,
            )
        )
    return tuple(_special(_ranked(Chance(seed, "committee"), everybody)))


@dataclass(frozen=True, slots=True)
class _Place:
    """A place to be filled: for which team, at which weight, and as what."""

    team: str
    weight: str
    outsider: bool = False
    scoring: bool = True


def _entered(chance: Chance) -> Iterator[_Place]:
    """One entry per team as far as they are needed, then second ones, which do not score."""
    for weight, size in zip(WEIGHTS, SIZES, strict=True):
        order = chance.shuffled(TEAMS)
        firsts, seconds = order[:size], chance.shuffled(TEAMS)[: max(0, size - len(TEAMS))]
        yield from (_Place(team.name, weight) for team in _sorted(firsts))
        yield from (_Place(team.name, weight, scoring=False) for team in _sorted(seconds))


def _sorted(teams: Sequence[TeamName]) -> list[TeamName]:
    return sorted(teams, key=lambda team: team.name)


def _outsiders() -> Iterator[_Place]:
    for team in VISITORS:
        yield from (_Place(team, weight, outsider=True) for weight in WEIGHTS)


def _ranked(chance: Chance, everybody: Sequence[Person]) -> Iterator[Person]:
    """Everybody, the entries with seeds, ranks and qualifying places by strength and error."""
    weights: dict[str, list[Person]] = defaultdict(list)
    for person in everybody:
        weights["" if person.outsider else person.weight].append(person)
    for weight, seeded in zip(WEIGHTS, SEEDED, strict=True):
        entries = weights[weight]
        seeds = _order(chance, entries, SEED_NOISE)
        ranks = _order(chance, entries, RANK_NOISE)
        events = chance.shuffled(entries)
        places = {
            key: place
            for at in range(QUALIFYING_EVENTS)
            for key, place in _order(
                chance, events[at::QUALIFYING_EVENTS], QUALIFYING_NOISE
            ).items()
        }
        for person in entries:
            yield replace(
                person,
                seed=seeds[person.id] if seeds[person.id] <= seeded else None,
                rank=ranks[person.id],
                qualifying_place=places[person.id],
            )
    yield from weights[""]


def _order(chance: Chance, entries: Sequence[Person], noise: float) -> Mapping[str, int]:
    """The place of each, 1 the strongest, as somebody sees it who errs by `noise`."""
    seen = {person.id: person.strength + chance.normal(0.0, noise) for person in entries}
    return {key: at for at, key in enumerate(sorted(seen, key=lambda key: -seen[key]), 1)}


def _special(everybody: Iterator[Person]) -> Iterator[Person]:
    """One entry shown by its initials, one hidden, and one more who missed weight."""
    marked = {("141", 5): "initials", ("157", 12): "hidden"}
    for person in everybody:
        yield replace(person, publish=marked.get((person.weight, person.seed or 0), "full"))
        if (person.weight, person.seed) == ("184", 16):
            yield Person(
                id="e999",
                given="Emeric",
                family="Saltonby",
                team=next(team.name for team in TEAMS if team.name != person.team),
                weight="184",
                strength=0.0,
                scoring=False,
                scratched=True,
            )
