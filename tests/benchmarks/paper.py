"""Sheets on paper: 14 brackets of 33, from values to PDF."""

from collections.abc import Iterator
from datetime import date
from statistics import median
from time import process_time

from brackets.core.graph import BoutKey, Bracket
from brackets.core.progress import play
from brackets.core.standing import BoutState
from results.paper.sheet import printed
from results.queries.coming import Coming
from results.queries.drawing import drawings
from results.queries.papers import HIGH, WIDE, Paper
from results.queries.people import Person
from results.queries.seen import Seen, Side
from results.queries.sheets import Sheet
from seeding.entries.models import Division, Team, Tournament, WeightClass
from tests.benchmarks.row import Row
from tests.brackets.core.books import bracket, rules

SHEETS, ENTRIES, LIMIT, ROUNDS = 14, 33, 0.5, 5
NUMBERS: dict[BoutKey, int] = {}


def rows() -> Iterator[Row]:
    """The sheets of a day of 14 weights; their geometry is worked out anew each time."""
    tournament = Tournament(name="Spring Championships", slug="spring", starts_on=date(2026, 3, 19))
    built = bracket(ENTRIES)
    found = [sheet(tournament, f"{100 + 10 * at}", built) for at in range(SHEETS)]
    every = [_seconds(tournament, found) for _ in range(ROUNDS + 1)][1:]
    ours = median(every)
    yield Row(
        f"paper: {SHEETS} sheets of {ENTRIES}, seconds",
        ours,
        LIMIT,
        ours / LIMIT,
        f"<= {LIMIT} s",
        ours <= LIMIT,
    )


def _seconds(tournament: Tournament, found: list[Sheet]) -> float:
    begun = process_time()
    for one in found:
        printed(tournament, Paper(one, drawings(one, high=HIGH, wide=WIDE), ()), 1, "letter")
    return process_time() - begun


def sheet(tournament: Tournament, label: str, built: Bracket) -> Sheet:
    """A drawn weight before its first bout, everybody with a name of his own."""
    weight = WeightClass(
        label=label, key=label, division=Division(name="Open"), tournament=tournament
    )
    people = {key: _person(key, weight) for key in built.entries()}
    states = play(built, {}, rules()).bouts
    bouts = {
        key: _seen(at, built, weight, states[key], people)
        for at, key in enumerate(built.sources, start=1)
    }
    return Sheet(weight, built, bouts, (), (), ())


def _person(key: str, weight: WeightClass) -> Person:
    team = Team(key=f"t{key}", name=f"Team {key}", short=f"T{key}")
    name = f"Wrestler Number{key}{weight.label}"
    return Person(
        int(key), key, weight, key, name, name[9:], (name[9:],), int(key), team, True, False, False
    )


def _seen(
    at: int, built: Bracket, weight: WeightClass, state: BoutState, people: dict[str, Person]
) -> Seen:
    names = [people.get(side) if isinstance(side, str) else None for side in state.sides]
    top, bottom = (
        Side(
            slot=slot,
            person=who,
            taken=who is not None,
            empty=False,
            won=False,
            came=built.sources[state.key][slot],
            coming=Coming.of(built, state.key, slot, NUMBERS.get),
        )
        for slot, who in enumerate(names)
    )
    return Seen(
        pk=at,
        key=state.key,
        weight=weight,
        round=built.round_of(state.key),
        number=at,
        mat="1",
        status=state.status,
        sides=(top, bottom),
        result="",
        overruled=None,
        official=False,
        at="",
        winner_to=None,
        loser_to=None,
        loser_may_to=None,
        rulings=(),
    )
