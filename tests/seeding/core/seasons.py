"""Small seasons for tests, and random ones for laws."""

import random
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any, TypeVar

from hypothesis import strategies as st

from seeding.core.ledger import Ledger
from seeding.core.rules import SeedingRules
from seeding.core.season import At, Ballot, Counted, Placing, PriorBout, ResultKind, Season
from seeding.entries.core.rulebook import plain
from seeding.rulebooks import section_of, text_of

T = TypeVar("T")
ROOT = Path(__file__).resolve().parents[3]
BOOKS = ROOT / "seeding" / "entries" / "rulebooks"
FIRST = date(2024, 11, 1)
WEIGHT = "133"
EVERY = Counted(frozenset(ResultKind), At.ANY_WEIGHT)
HERE = Counted(frozenset(ResultKind), At.THIS_WEIGHT)
LEDGER = Ledger(EVERY, EVERY)


def bout(
    winner: str,
    loser: str,
    day: int = 0,
    kind: str = "decision",
    weight: str = WEIGHT,
    event: str = "Harbour Open",
) -> PriorBout:
    return PriorBout(FIRST + timedelta(day), weight, winner, loser, kind, "5-3", event)


def season(
    *bouts: PriorBout,
    entrants: str = "",
    rankings: Mapping[str, Mapping[str, int]] | None = None,
    places: Mapping[str, Mapping[str, int]] | None = None,
) -> Season:
    placings = [
        Placing(event, wrestler, place, WEIGHT)
        for event, table in (places or {}).items()
        for wrestler, place in table.items()
    ]
    return Season(WEIGHT, bouts, frozenset(entrants), rankings or {}, tuple(placings))


def met(pairs: Sequence[Sequence[str]]) -> tuple[PriorBout, ...]:
    """One bout a day, winner first."""
    return tuple(bout(winner, loser, day) for day, (winner, loser) in enumerate(pairs))


def section(book: str) -> dict[str, Any]:
    """The section `[seeding]` of a rule book in the tree, as its snapshot holds it."""
    read = tomllib.loads((BOOKS / f"{book}.toml").read_text("utf-8"))
    values: dict[str, Any] = plain(read["seeding"], "seeding")
    return values


def rules(book: str, **changed: object) -> SeedingRules:
    return SeedingRules.from_section(section(book) | changed)


def list_section(name: str) -> dict[str, Any]:
    """The section of a list in the tree, as a snapshot holds it."""
    return dict(section_of(f"{name}.toml", text_of(name)))


def list_rules(name: str, **changed: object) -> SeedingRules:
    return SeedingRules.from_section(list_section(name) | changed)


def ballot(voter: str, ranked: str, own: str = "") -> Ballot:
    """A ballot that ranks these wrestlers, best first."""
    return Ballot(voter, {one: at for at, one in enumerate(ranked, 1)}, frozenset(own))


WRESTLERS = "ABCDEFG"
OTHERS = "UVWXYZ"


EVENTS = (
    *("state last season", "regional last season", "district last season", "region last season"),
    *("sectional last season", "conference last season", "another state last season"),
    *("district", "sectional", "region", "qualifying event"),
    *("holiday tournament", "conference tournament"),
)
WEIGHTS = ("125", WEIGHT, "141", "149")
HOMES = dict(zip(WRESTLERS + OTHERS, "abcabcdabcdef", strict=True))


@st.composite
def bouts(draw: st.DrawFn) -> PriorBout:
    winner = draw(st.sampled_from(WRESTLERS + OTHERS))
    loser = draw(st.sampled_from([one for one in WRESTLERS + OTHERS if one != winner]))
    found = bout(
        winner,
        loser,
        draw(st.integers(0, 6)),
        draw(st.sampled_from(list(ResultKind))),
        draw(st.sampled_from([WEIGHT, WEIGHT, "141", "149"])),
    )
    level = draw(st.sampled_from(["", "varsity", "reserve"]))
    division = draw(st.sampled_from(["", "Division I", "Division II"]))
    return replace(found, level=level, winner_division=division)


def placings(events: Sequence[str] = EVENTS) -> st.SearchStrategy[Placing]:
    return st.builds(
        Placing,
        event=st.sampled_from(events),
        wrestler=st.sampled_from(WRESTLERS),
        place=st.integers(0, 8),
        weight=st.sampled_from([WEIGHT, WEIGHT, "141", "149"]),
    )


@st.composite
def ballots(draw: st.DrawFn, voter: str) -> Ballot:
    """A voter ranks some; his own are those of a team, as in the season's homes."""
    ranked = draw(st.lists(st.sampled_from(WRESTLERS), unique=True, max_size=7))
    own = draw(st.sampled_from("abcdz"))
    return Ballot(
        voter,
        {one: at for at, one in enumerate(ranked, 1)},
        frozenset(one for one in WRESTLERS if HOMES[one] == own),
    )


@st.composite
def seasons(draw: st.DrawFn) -> Season:
    """A season of few wrestlers and many bouts, so that circles and splits are common."""
    ranks = st.dictionaries(st.sampled_from(WRESTLERS), st.integers(1, 9))
    voters = draw(st.lists(st.sampled_from("pqrst"), unique=True))
    return Season(
        WEIGHT,
        tuple(draw(st.lists(bouts(), max_size=40))),
        rankings={"coaches": draw(ranks)},
        placings=tuple(draw(st.lists(placings(), max_size=14))),
        ballots=tuple(draw(ballots(voter)) for voter in voters),
        homes=HOMES,
        weights=WEIGHTS,
    )


@st.composite
def dated_seasons(draw: st.DrawFn) -> Season:
    """The same before a tournament, for which some of the bouts may be too long ago."""
    return replace(draw(seasons()), starts=FIRST + timedelta(draw(st.integers(7, 310))))


def shuffled(season: Season, chance: random.Random) -> Season:
    """The same season, everything in it put in in another order."""

    def mixed(table: Mapping[str, T]) -> dict[str, T]:
        return {key: table[key] for key in chance.sample(sorted(table), len(table))}

    cast = [replace(one, ranks=mixed(one.ranks)) for one in season.ballots]
    return replace(
        season,
        bouts=tuple(chance.sample(season.bouts, len(season.bouts))),
        placings=tuple(chance.sample(season.placings, len(season.placings))),
        rankings={name: mixed(table) for name, table in mixed(season.rankings).items()},
        ballots=tuple(chance.sample(cast, len(cast))),
        homes=mixed(season.homes),
    )


def renamed(season: Season, names: Mapping[str, str]) -> Season:
    """The same season under other ids."""
    return replace(
        season,
        bouts=tuple(
            replace(one, winner=names[one.winner], loser=names[one.loser]) for one in season.bouts
        ),
        placings=tuple(replace(one, wrestler=names[one.wrestler]) for one in season.placings),
        rankings={
            name: {names[one]: rank for one, rank in table.items()}
            for name, table in season.rankings.items()
        },
        ballots=tuple(
            Ballot(
                one.voter,
                {names[who]: rank for who, rank in one.ranks.items()},
                frozenset(names[who] for who in one.own),
            )
            for one in season.ballots
        ),
        homes={names[one]: home for one, home in season.homes.items()},
    )
