"""The season before the championship: duals and open events from November to February."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import cycle, islice

from deploy.scenario.bouts import wrestled
from deploy.scenario.chance import Chance
from deploy.scenario.field import WEIGHTS, Person
from results.core.outcomes import Outcome

FIRST_DUALS = date(2024, 11, 16)
DUAL_DAYS = 13
DUALS_A_DAY = 7
OPENS = (
    ("Lantern Open", date(2024, 11, 10)),
    ("Millstone Invitational", date(2024, 12, 8)),
    ("Frost Lake Open", date(2025, 1, 4)),
    ("Quarry Classic", date(2025, 2, 2)),
)
OPEN_FIELD = 14
OPEN_ROUNDS = 3


@dataclass(frozen=True, slots=True)
class Met:
    """One prior bout, by ids."""

    date: date
    event: str
    weight: str
    winner: str
    loser: str
    outcome: Outcome


def season(seed: str, everybody: Sequence[Person]) -> tuple[Met, ...]:
    """Every prior bout, by date."""
    met = [*_duals(seed, everybody), *_opens(seed, everybody)]
    return tuple(sorted(met, key=lambda one: (one.date, one.event, int(one.weight))))


def _bout(seed: str, event: str, day: date, top: Person, bottom: Person) -> Met:
    chance = Chance(seed, f"season/{day}/{event}/{top.id}/{bottom.id}")
    outcome = wrestled(chance, top.strength, bottom.strength)
    if outcome.decided_by:
        outcome = replace(outcome, score=None)
    winner, loser = (top, bottom) if outcome.winner == 0 else (bottom, top)
    return Met(day, event, top.weight, winner.id, loser.id, outcome)


def _duals(seed: str, everybody: Sequence[Person]) -> Iterator[Met]:
    squads: dict[str, dict[str, list[Person]]] = defaultdict(lambda: defaultdict(list))
    for person in everybody:
        if not person.scratched:
            squads[person.team][person.weight].append(person)
    for number in range(DUAL_DAYS):
        day = FIRST_DUALS + timedelta(weeks=number)
        chance = Chance(seed, f"duals/{day}")
        teams = chance.shuffled(sorted(squads))
        for one, other in zip(teams[:DUALS_A_DAY], teams[DUALS_A_DAY:], strict=False):
            for weight in WEIGHTS:
                if squads[one][weight] and squads[other][weight]:
                    top, bottom = (_sent(chance, squads[team][weight]) for team in (one, other))
                    yield _bout(seed, f"{one} v {other}", day, top, bottom)


def _sent(chance: Chance, squad: Sequence[Person]) -> Person:
    """Whom a team sends out: mostly its first man."""
    return squad[0] if chance.yes(0.65) else chance.pick(squad)


def _opens(seed: str, everybody: Sequence[Person]) -> Iterator[Met]:
    """Each event takes the next of a fixed order, so that all come to one before any to two."""
    for weight in WEIGHTS:
        here = [one for one in everybody if one.weight == weight and not one.scratched]
        turn = cycle(Chance(seed, f"opens/{weight}").shuffled(here))
        for event, day in OPENS:
            field = list(islice(turn, min(OPEN_FIELD, len(here))))
            yield from open_event(seed, event, day, field)


def open_event(seed: str, event: str, day: date, there: Sequence[Person]) -> Iterator[Met]:
    """Rounds in which those with equally many wins meet, nobody twice and no team-mates."""
    chance = Chance(seed, f"pairing/{event}/{there[0].weight}")
    wins = dict.fromkeys((one.id for one in there), 0)
    met: set[frozenset[str]] = set()
    for _ in range(OPEN_ROUNDS):
        free = sorted(chance.shuffled(there), key=lambda one: -wins[one.id])
        while free:
            top = free.pop(0)
            may = (one for one in free if frozenset((one.id, top.id)) not in met)
            bottom = next((one for one in may if one.team != top.team), None)
            if bottom:
                free.remove(bottom)
                met.add(frozenset((top.id, bottom.id)))
                bout = _bout(seed, event, day, top, bottom)
                wins[bout.winner] += 1
                yield bout
