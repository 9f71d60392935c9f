"""A high school event whose teams bring several wrestlers to a weight, for tests of draws."""

from typing import Any

from tests.results.championship import document

WEIGHTS = ("120", "126")


def event(
    settings: dict[str, Any] | None = None, seeded: int = 4, entries: int = 14
) -> dict[str, Any]:
    """Two weights of so many from four teams, `seeded` of them seeded; nothing is drawn."""
    file = document(WEIGHTS, entries, settings, "high-school-2025")
    for item in file["entries"]:
        number = item["seed"]
        item["team"] = f"t{number % 4 + 1}"
        item["wrestler"] = f"w{item['id'][2:]}".replace("-", "")
        if number > seeded:
            item["seed"] = None
    file["tournament"]["publish"] = dict.fromkeys(
        ("entries", "seeds", "draw", "results", "team_points"), True
    )
    return file | {"brackets": []}


def met(one: str, other: str, kind: str = "decision", date: str = "2026-01-10") -> dict[str, Any]:
    """A bout of the season before."""
    return {"date": date, "weight": "120", "winner": one, "loser": other, "kind": kind}
