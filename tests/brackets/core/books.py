"""Rule books and line-ups for the tests of brackets."""

import json
import tomllib
from collections.abc import Collection, Mapping, Sequence
from pathlib import Path
from typing import Any

from brackets.core.apart.criteria import KeepApart
from brackets.core.apart.separated import separated_draw
from brackets.core.draw import Entrant
from brackets.core.formats import build
from brackets.core.graph import Bracket, LineUp
from brackets.core.rules import BracketRules
from seeding.core.lot import Lot

ROOT = Path(__file__).resolve().parents[3]
BOOKS = ROOT / "seeding" / "entries" / "rulebooks"

SECTION: Mapping[str, Any] = {
    "places": 8,
    "of_two": "one-bout",
    "two_pools": [],
    "always_lines": 0,
    "thirds": "wrestled",
    "true_places": [],
    "round_robin_up_to": 5,
    "pigtails_up_to": 1,
    "line_order": "mirrored",
    "wrestleback": "everyone",
    "double_loss": "out",
    "open_place": "open",
    "advancing_byes": "best-seeds",
    "keep_apart": [],
    "crossings": {
        "8": ["reversed"],
        "16": ["half-swap", "reversed"],
        "32": ["reversed", "within-half", "reversed"],
        "64": ["reversed", "half-swap", "within-half", "reversed"],
        "128": ["reversed", "within-half", "half-swap", "straight", "reversed"],
        "256": "latest",
    },
}


def rules(**changes: object) -> BracketRules:
    return BracketRules.from_section({**SECTION, **changes})


def book(name: str = "college-2025") -> BracketRules:
    text = (BOOKS / f"{name}.toml").read_text(encoding="utf-8")
    return BracketRules.from_section(tomllib.loads(text)["bracket"])


def published(name: str) -> list[dict[str, Any]]:
    cases: list[dict[str, Any]] = json.loads((ROOT / "fixtures" / name).read_text("utf-8"))
    return cases


def drawn(
    field: Sequence[Entrant], used: BracketRules, lot: Lot, holes: Collection[int] = ()
) -> LineUp:
    """The lines of a draw that keeps nobody apart."""
    return separated_draw(field, used, lot, KeepApart(()), holes).lines


def line_up(entrants: int, used: BracketRules) -> LineUp:
    """A field in which everybody is seeded: entry "7" is the seventh seed."""
    field = [Entrant(str(seed), seed, "") for seed in range(1, entrants + 1)]
    return drawn(field, used, Lot("1", "tests"))


def bracket(entrants: int, places: int = 8, used: BracketRules | None = None) -> Bracket:
    used = used or rules()
    return build(line_up(entrants, used), used, places)
