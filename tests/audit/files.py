"""The tournament file that a case begins with: nothing drawn yet."""

from collections.abc import Iterator
from dataclasses import dataclass
from random import Random
from typing import Any

from tests.audit.case import Case, Form

WEIGHT, BESIDE = "125", ("133", "141", "149", "157")
"""The weight that the case is about, and those that sometimes stand beside it."""


@dataclass(frozen=True, slots=True)
class Field:
    """A weight, and its entries: how many, and how many of them seeded."""

    weight: str
    division: str
    places: int
    entrants: int
    seeds: int


def begin(case: Case, chance: Random, more: int) -> dict[str, Any]:
    """The file of a case; `more` entries beyond its field, to be scratched before the draw."""
    count = case.form.entrants + more
    teams = max(2, count // chance.choice((1, 1, 2, 3)))
    seeds = chance.choice((0, count // 2, count, count))
    fields = [Field(WEIGHT, "open", case.form.places, count, seeds)]
    for weight, form in zip(BESIDE, case.beside, strict=False):
        seeds = chance.randint(0, form.entrants)
        fields.append(Field(weight, f"of-{weight}", form.places, form.entrants, seeds))
    if not case.beside and chance.random() < 0.2:
        fields.append(Field(BESIDE[0], "open", case.form.places, chance.choice((2, 3, 4, 5)), 2))
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
        "divisions": list(_divisions(case)),
        "teams": [
            {"id": f"t{number}", "name": f"Team {number}", "short": f"T{number}"}
            for number in range(1, teams + 1)
        ],
        "weight_classes": [
            {
                "id": one.weight,
                "division": one.division,
                "label": one.weight,
                "places": one.places,
            }
            for one in fields
        ],
        "entries": [item for one in fields for item in _entries(one, teams, chance)],
        "brackets": [],
    }


def _plain(value: object) -> object:
    return list(value) if isinstance(value, tuple) else value


def _divisions(case: Case) -> Iterator[dict[str, Any]]:
    yield _division("open", case.form)
    for weight, form in zip(BESIDE, case.beside, strict=False):
        yield _division(f"of-{weight}", form)


def _division(key: str, form: Form) -> dict[str, Any]:
    settings = {name: _plain(value) for name, value in form.settings.items()}
    return {"id": key, "name": key.title(), "rulebook": form.book, "settings": settings}


def _entries(field: Field, teams: int, chance: Random) -> Iterator[dict[str, Any]]:
    """Who is seeded is not who comes first in the file; some do not score."""
    order = chance.sample(range(1, field.entrants + 1), field.entrants)
    for number, rank in enumerate(order, start=1):
        seed = {"seed": rank} if rank <= field.seeds else {}
        yield {
            "id": f"{field.weight}-{number}",
            "weight_class": field.weight,
            "team": f"t{chance.randint(1, teams)}",
            "given": f"Given{number}",
            "family": f"Family{field.weight}",
            "scoring": chance.random() > 0.08,
            **seed,
        }
