"""How snapshots of earlier schemas come to the present one: each as it always was."""

from collections.abc import Callable, Mapping
from typing import Any

Snapshot = dict[str, Any]


def more_of_seeding(old: Snapshot) -> Snapshot:
    """Schema 1 to 2: what a list of criteria may say besides, with what was done without it."""
    seeding = dict(old["seeding"])
    name = f"{old['book']['name']}"
    added = {
        "list": name,
        "source": "the rule book",
        "final": "lot",
        "scratched": "move-up",
        "fill": "seeds",
        "committee": {
            "largest_move": 0,
            "own_wrestlers": "say",
            "challenges": "anyone",
            "challenge_hours": 24,
            "challenge_needs": [],
        },
    }
    counting = {
        "days": 300,
        "cut_off_days": 0,
        "line_up": "any",
        "team_mates": "count",
        "divisions": [],
        "medical_forfeits": "every",
        **seeding["counting"],
    }
    criteria = [_criterion(line) for line in seeding["criteria"]]
    ties = [_criterion(line) if isinstance(line, Mapping) else line for line in seeding["ties"]]
    new = {**added, **seeding, "counting": counting, "criteria": criteria, "ties": ties}
    return {**old, "seeding": new}


def _criterion(line: Mapping[str, Any]) -> dict[str, Any]:
    new = dict(line)
    if line["criterion"] == "common-opponents":
        new.setdefault("own_bouts", "left-out")
    elif line["criterion"] == "rpi":
        new.setdefault("reading", "without-the-wrestler")
    elif line["criterion"] == "quality-wins":
        keys = ("ranking", "top", "percentage") + (
            ("minimum_bouts",) if line["over"] == "winning" else ()
        )
        new["over"] = {"of": line["over"], **{key: new.pop(key) for key in keys if key in new}}
    return new


def larger_brackets(old: Snapshot) -> Snapshot:
    """Schema 1 to 2: brackets of 256 lines, which no earlier field could fill."""
    bracket = old["bracket"]
    crossings = {"256": "latest", **bracket["crossings"]}
    return {**old, "bracket": {**bracket, "crossings": crossings}}


def more_formats(old: Snapshot) -> Snapshot:
    """Schema 1 to 2: small fields and ways back have settings; before, there was one of each."""
    added = {
        "of_two": "one-bout",
        "two_pools": [],
        "always_lines": 0,
        "thirds": "wrestled",
        "true_places": [],
    }
    return {**old, "bracket": {**added, **old["bracket"]}}


def nobody_kept_apart(old: Snapshot) -> Snapshot:
    """Schema 1 to 2: a draw can keep team-mates apart; before, nobody was."""
    return {**old, "bracket": {"keep_apart": [], **old["bracket"]}}


def groups_of_weights(old: Snapshot) -> Snapshot:
    """Schema 1 to 2: groups after weigh-in, which no earlier division had."""
    groups = {
        "formed": "never",
        "unit": "lb",
        "size": 4,
        "least": 2,
        "most": 5,
        "largest_spread": 10,
        "spread_in": "percent",
        "age_spread": 99,
        "experience_spread": 99,
    }
    return {**old, "weights": {"groups": groups, **old["weights"]}}


STEPS: Mapping[int, Callable[[Snapshot], Snapshot]] = {
    1: lambda old: groups_of_weights(
        nobody_kept_apart(more_formats(larger_brackets(more_of_seeding(old))))
    )
}
