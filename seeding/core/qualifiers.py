"""Who comes to the next level from the events of its regions, before anything is written.

Only certain places count. Who is here already, under the same id, is not entered twice; whose
name or team only looks like somebody's here is told as a doubt, and people decide.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from seeding.entries.core.spelling import alike, folded
from seeding.journal.core.errors import Problem


class How(StrEnum):
    """How an entry is in the field, or waits beside it."""

    PLACE = "place"
    WILD_CARD = "wild card"
    ALTERNATE = "alternate"
    CANDIDATE = "candidate"


@dataclass(frozen=True, slots=True)
class Placed:
    """A place won at a region's event. `weight`: the label here; `entry`: the id of the entry
    there, `wrestler` that of the person.
    """

    region: str
    weight: str
    place: int
    entry: int
    wrestler: str
    name: str
    team: str

    @property
    def spot(self) -> str:
        return f"{self.region}{self.place}"

    @property
    def where(self) -> str:
        return f"{self.weight} {self.spot}"


@dataclass(frozen=True, slots=True)
class Here:
    """An entry of the next level as it stands; `how` None: nobody said how it came."""

    entry: int
    weight: str
    wrestler: str
    name: str
    team: str
    entered: bool
    how: How | None = None
    region: str = ""
    place: int = 0


@dataclass(frozen=True, slots=True)
class Coming:
    """Somebody who comes in anew, or (`here`) whose place is another than was known."""

    placed: Placed
    how: How
    here: Here | None = None


@dataclass(frozen=True, slots=True)
class Intake:
    """What taking the places in would do. `known`: how many stand as they should already."""

    coming: tuple[Coming, ...]
    known: int
    missing: tuple[Problem, ...]
    doubts: tuple[Problem, ...]
    teams: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is taken: so many places of each region at each of the weights that are open."""

    places: int
    regions: Sequence[str]
    weights: Sequence[str]
    closed: frozenset[str] = frozenset()


def intake(
    wanted: Wanted, placed: Iterable[Placed], here: Iterable[Here], teams: Iterable[str]
) -> Intake:
    """Compare the places won with who is here; the same whatever the order of either.

    A place that two share is nobody's until it is decided. Who did not advance comes in as a
    candidate. Nothing of a weight that is closed (drawn) is touched.
    """
    every = sorted(placed, key=lambda one: (one.weight, one.region, one.place, one.wrestler))
    shared = _shared(every)
    sure = [one for one in every if one.where not in shared]
    known = {(one.weight, one.wrestler): one for one in here}
    moves = [_coming(one, known.get((one.weight, one.wrestler)), wanted) for one in sure]
    coming = [one for one in moves if one and one.placed.weight not in wanted.closed]
    closed = [one for one in moves if one and one.placed.weight in wanted.closed]
    here_already = list(known.values())
    return Intake(
        coming=tuple(coming),
        known=sum(one is None for one in moves),
        missing=tuple(_missing(wanted, sure, shared, closed)),
        doubts=tuple(_doubts(wanted, sure, coming, here_already, list(teams))),
        teams=tuple(_new_teams(coming, teams)),
    )


def _shared(placed: Sequence[Placed]) -> dict[str, list[str]]:
    holders: dict[str, list[str]] = defaultdict(list)
    for one in placed:
        holders[one.where].append(one.name)
    return {where: names for where, names in holders.items() if len(names) > 1}


def _coming(one: Placed, here: Here | None, wanted: Wanted) -> Coming | None:
    """What has to be done for somebody who placed, or None where he stands as he should."""
    how = How.PLACE if one.place <= wanted.places else How.CANDIDATE
    if here is None:
        return Coming(one, how)
    if how is How.CANDIDATE:
        if here.how is None:
            return None
        how = How.CANDIDATE if here.how is How.PLACE else here.how
    stands = (here.how, here.region, here.place) == (how, one.region, one.place)
    return None if stands else Coming(one, how, here)


def _missing(
    wanted: Wanted,
    sure: Sequence[Placed],
    shared: Mapping[str, list[str]],
    closed: Sequence[Coming],
) -> Iterator[Problem]:
    taken = {one.where for one in sure}
    for weight in wanted.weights:
        for region in wanted.regions:
            spots = [f"{region}{place}" for place in range(1, wanted.places + 1)]
            open_spots = [
                spot
                for spot in spots
                if f"{weight} {spot}" not in taken and f"{weight} {spot}" not in shared
            ]
            if open_spots:
                listed = ", ".join(open_spots)
                yield Problem(weight, f"nobody has placed as {listed} yet")
    for where, names in sorted(shared.items()):
        yield Problem(where, f"shared by {' and '.join(sorted(names))}: enter one of them by hand")
    for one in closed:
        yield Problem(one.placed.where, f"{one.placed.name} is not taken in: the weight is drawn")


def _doubts(
    wanted: Wanted,
    sure: Sequence[Placed],
    coming: Sequence[Coming],
    here: Sequence[Here],
    teams: Sequence[str],
) -> Iterator[Problem]:
    for one in coming:
        if one.here is None:
            yield from _looks_known(one.placed, here)
    yield from _held_by_another(coming, here)
    yield from _gone(wanted, sure, here)
    for team in _new_teams(coming, teams):
        for other in alike(team, teams):
            yield Problem(team, f"this new team is spelled almost like “{other}”")
    by_id = {(one.weight, one.wrestler): one for one in here if one.how is None and one.entered}
    for placed in sure:
        if placed.place > wanted.places and (placed.weight, placed.wrestler) in by_id:
            told = f"{placed.name} did not advance and is entered by hand; he stays entered"
            yield Problem(placed.where, told)


def _looks_known(placed: Placed, here: Sequence[Here]) -> Iterator[Problem]:
    for other in here:
        if other.wrestler == placed.wrestler:
            yield Problem(placed.where, f"{placed.name} is entered at {other.weight} too")
        elif folded(other.team) == folded(placed.team) and other.weight == placed.weight:
            same = folded(other.name) == folded(placed.name)
            if same or alike(placed.name, [other.name]):
                told = f"{placed.name} looks like {other.name} of the same team, entered already"
                yield Problem(placed.where, told)


def _held_by_another(coming: Sequence[Coming], here: Sequence[Here]) -> Iterator[Problem]:
    moving = {one.here.entry for one in coming if one.here}
    held = {
        f"{one.weight} {one.region}{one.place}": one.name
        for one in here
        if one.region and one.entry not in moving
    }
    for one in coming:
        if one.placed.where in held:
            told = f"{one.placed.name} comes in, and {held[one.placed.where]} holds it already"
            yield Problem(one.placed.where, told)


def _gone(wanted: Wanted, sure: Sequence[Placed], here: Sequence[Here]) -> Iterator[Problem]:
    won = {(one.weight, one.wrestler) for one in sure}
    for one in here:
        came = one.how is How.PLACE and one.region in wanted.regions and one.entered
        if came and (one.weight, one.wrestler) not in won:
            where = f"{one.weight} {one.region}{one.place}"
            yield Problem(where, f"{one.name} holds it, and has no such place at the event")


def _new_teams(coming: Sequence[Coming], teams: Iterable[str]) -> list[str]:
    known = {folded(team) for team in teams}
    new = {
        one.placed.team for one in coming if not one.here and folded(one.placed.team) not in known
    }
    return sorted(new)
