"""Small seasons for tests, and random ones for laws."""

import tomllib
from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from seeding.core.ledger import Ledger
from seeding.core.rules import SeedingRules
from seeding.core.season import At, Counted, Placing, PriorBout, ResultKind, Season
from seeding.entries.core.rulebook import plain

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


WRESTLERS = "ABCDEFG"
OTHERS = "UVWXYZ"


@st.composite
def bouts(draw: st.DrawFn) -> PriorBout:
    winner = draw(st.sampled_from(WRESTLERS + OTHERS))
    loser = draw(st.sampled_from([one for one in WRESTLERS + OTHERS if one != winner]))
    return bout(
        winner,
        loser,
        draw(st.integers(0, 6)),
        draw(st.sampled_from(list(ResultKind))),
        draw(st.sampled_from([WEIGHT, WEIGHT, "141"])),
    )


@st.composite
def seasons(draw: st.DrawFn) -> Season:
    """A season of few wrestlers and many bouts, so that circles and splits are common."""
    events = ("state last season", "district", "qualifying event")
    ranks = st.dictionaries(st.sampled_from(WRESTLERS), st.integers(1, 9))
    placings = st.builds(
        Placing,
        event=st.sampled_from(events),
        wrestler=st.sampled_from(WRESTLERS),
        place=st.integers(0, 8),
        weight=st.sampled_from([WEIGHT, "141"]),
    )
    return Season(
        WEIGHT,
        tuple(draw(st.lists(bouts(), max_size=40))),
        rankings={"coaches": draw(ranks)},
        placings=tuple(draw(st.lists(placings, max_size=8))),
    )
