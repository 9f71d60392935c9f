"""What is given and yet determined: settings in the book, kinds of results by their margins."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tests.audit.judge.facts import Doc, Facts


def settings(document: Doc) -> Iterator[str]:
    """Where a division's book as it stood has not the single values that were set."""
    for division in document["divisions"]:
        if "snapshot" not in division:
            continue
        for dotted, value in division.get("settings", {}).items():
            found: Any = division["snapshot"]
            for part in dotted.split("."):
                found = found.get(part) if isinstance(found, dict) else None
            if plain(found) != plain(value):
                yield f"{division['id']}: {dotted} is {found} in the book, and was set to {value}"


def plain(value: Any) -> Any:
    """A value without the way in which its numbers are written."""
    if isinstance(value, list):
        return [plain(one) for one in value]
    try:
        return value if isinstance(value, bool) else float(value)
    except (TypeError, ValueError):
        return value


def margins(document: Doc, facts: Facts) -> Iterator[str]:
    """Where the kind of a win by points is not that of its margin."""
    rules = facts.settings["results"]
    major, technical = rules["major_decision_from"], rules["technical_fall_from"]
    for raw in document.get("results", []):
        won_by_points = raw["kind"] in ("decision", "major decision", "technical fall")
        if raw["weight_class"] != facts.weight or not raw.get("score") or not won_by_points:
            continue
        margin = raw["score"][0] - raw["score"][1]
        kind = "decision" if margin < major else "major decision"
        kind = "technical fall" if margin >= technical else kind
        level = margin < 0 or (margin == 0 and raw.get("decided_by") != "riding time")
        if kind != raw["kind"] or level:
            yield f"{facts.label}: {raw['kind']} with {raw['score']}, by the margin {kind}: {raw}"
