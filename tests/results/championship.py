"""A championship of 33-entry weights as a tournament file, for tests."""

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from typing import Any

from brackets.models import Bout
from results.core.outcomes import Kind, Outcome
from results.services.load import load_tournament
from results.services.record import enter_result
from seeding.entries.models import Tournament
from seeding.entries.services import found_organisation
from seeding.journal.services import OPERATOR, Call

NOW = datetime(2026, 3, 19, 15, 0, tzinfo=UTC)
CALL = Call(OPERATOR, NOW)
WEIGHTS = ("125", "133", "141", "149", "157", "165", "174", "184", "197", "285")


def document(
    weights: Sequence[str] = ("125",),
    entries: int = 33,
    settings: Mapping[str, Any] | None = None,
    rulebook: str = "college-2025",
) -> dict[str, Any]:
    """Entries `125-1`, `125-2`, ... seeded in that order; each wrestles for a team of his own."""
    division = {
        "id": "open",
        "name": "Open",
        "rulebook": rulebook,
        "settings": dict(settings or {"team_points.byes": "none"}),
    }
    return {
        "format": "tournament-file",
        "version": 1,
        "tournament": dict(TOURNAMENT),
        "divisions": [division],
        "teams": [
            {"id": f"t{seed}", "name": f"Team {seed}", "short": f"T{seed}"}
            for seed in range(1, entries + 1)
        ],
        "weight_classes": [{"id": one, "division": "open", "label": one} for one in weights],
        "entries": [_entry(weight, seed) for weight in weights for seed in range(1, entries + 1)],
    }


TOURNAMENT = {
    "slug": "spring",
    "name": "Spring Championships",
    "starts_on": "2026-03-19",
    "time_zone": "America/Chicago",
    "mats": ["1", "2", "3", "4", "5", "6", "7", "8"],
}


def _entry(weight: str, seed: int) -> dict[str, Any]:
    return {
        "id": f"{weight}-{seed}",
        "weight_class": weight,
        "team": f"t{seed}",
        "given": f"Given{seed}",
        "family": f"Family{weight}",
        "seed": seed,
    }


def load(file: Mapping[str, Any]) -> Tournament:
    """The tournament of a file."""
    organisation = found_organisation(slug="home", name="Home")
    load_tournament(call=CALL, organisation=organisation, document=file)
    return Tournament.objects.get(slug=file["tournament"]["slug"])


def seed_of(bout: Bout, side: int) -> int:
    """The seed on a side, 0 the top one."""
    entry = bout.bottom if side else bout.top
    assert entry
    assert entry.seed
    return entry.seed


def wrestle(bout: Bout, winner: int, outcome: Outcome | None = None) -> None:
    """Enter a decision (or another outcome) won by a side, through the service."""
    enter_result(
        call=CALL, bout=bout, outcome=outcome or Outcome(Kind.DECISION, side(winner), (5, 3))
    )


def side(number: int) -> Any:
    """0 or 1 as the core types it."""
    return 1 if number else 0
