"""The tournament file that a case begins with: nothing drawn yet."""

from collections.abc import Iterator
from dataclasses import dataclass
from random import Random
from typing import Any

from tests.audit.case import Case

WEIGHT, BESIDE = "125", "133"
"""The weight that the case is about, and a second one that sometimes stands beside it."""


@dataclass(frozen=True, slots=True)
class Field:
    """The entries of a weight: how many, how many of them seeded, who does not score."""

    weight: str
    entrants: int
    seeds: int
    teams: int


def begin(case: Case, chance: Random, more: int) -> dict[str, Any]:
    """The file of a case; `more` entries beyond its field, to be scratched before the draw."""
    teams = max(2, (case.entrants + more) // chance.choice((1, 1, 2, 3)))
    count = case.entrants + more
    fields = [Field(WEIGHT, count, chance.choice((0, count // 2, count, count)), teams)]
    if chance.random() < 0.25:
        fields.append(Field(BESIDE, chance.choice((2, 3, 4, 5)), 2, teams))
    return {
        "format": "tournament-file",
        "version": 1,
        "tournament": {
            "slug": f"t{case.number}",
            "name": f"Tournament {case.number}",
            "starts_on": "2026-03-19",
            "time_zone": "America/Chicago",
            "mats": ["1", "2"],
        },
        "divisions": [
            {
                "id": "open",
                "name": "Open",
                "rulebook": case.book,
                "settings": {name: _plain(value) for name, value in case.settings.items()},
            }
        ],
        "teams": [
            {"id": f"t{number}", "name": f"Team {number}", "short": f"T{number}"}
            for number in range(1, teams + 1)
        ],
        "weight_classes": [
            {"id": one.weight, "division": "open", "label": one.weight, "places": case.places}
            for one in fields
        ],
        "entries": [item for one in fields for item in _entries(one, chance)],
        "brackets": [],
    }


def _plain(value: object) -> object:
    return list(value) if isinstance(value, tuple) else value


def _entries(field: Field, chance: Random) -> Iterator[dict[str, Any]]:
    """Who is seeded is not who comes first in the file."""
    order = chance.sample(range(1, field.entrants + 1), field.entrants)
    for number, rank in enumerate(order, start=1):
        seed = {"seed": rank} if rank <= field.seeds else {}
        yield {
            "id": f"{field.weight}-{number}",
            "weight_class": field.weight,
            "team": f"t{chance.randint(1, field.teams)}",
            "given": f"Given{number}",
            "family": f"Family{field.weight}",
            "scoring": chance.random() > 0.08,
            **seed,
        }
