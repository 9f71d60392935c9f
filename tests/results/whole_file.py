"""A tournament file with every key that there is, for the tests of its schema."""

import json
from typing import Any

# The example of the reference page of the tournament file, word for word.
EXAMPLE: dict[str, Any] = json.loads("""
{
  "format": "tournament-file", "version": 1,
  "tournament": {"slug": "lakes-open", "name": "Lakes Open", "starts_on": "2026-01-10",
                 "time_zone": "America/Chicago", "mats": ["1", "2", "3"]},
  "divisions": [{"id": "open", "name": "Open", "rulebook": "college-2025",
                 "settings": {"team_points.byes": "none"}}],
  "teams": [{"id": "alder", "name": "Alder Valley", "short": "ALD"}],
  "weight_classes": [{"id": "125", "division": "open", "label": "125", "places": 8}],
  "entries": [{"id": "e1", "weight_class": "125", "team": "alder", "given": "Ira", "family": "Holm",
               "publish": "full", "scoring": true, "seed": 1, "status": "entered"}],
  "wrestlers": [{"id": "w77", "given": "Noa", "family": "Berg", "team": "Birch Hollow"}],
  "prior_bouts": [{"date": "2025-12-06", "weight": "125", "winner": "e1", "loser": "w77",
                   "kind": "decision", "score": [7, 3], "event": "dual"}],
  "brackets": [{"weight_class": "125", "format": "…", "lines": ["e1", "e33"],
                "draw": {"seed": "…", "commitment": "…"}}],
  "results": [{"weight_class": "125", "bout": 11, "winner": "e1", "kind": "decision",
               "score": [8, 1]},
              {"weight_class": "125", "between": ["e4", "e29"], "winner": "e4", "kind": "fall",
               "time": "2:28"},
              {"weight_class": "125", "between": ["e2", "e31"], "winner": "e2", "kind": "decision",
               "score": [4, 1], "overtime": "SV-1"}],
  "adjustments": [{"team": "alder", "points": "-1", "reason": "unsportsmanlike conduct"}]
}
""")

# What a dump adds, and every key that the example does not show.
FULL: dict[str, Any] = {
    **EXAMPLE,
    "tournament": EXAMPLE["tournament"]
    | {"publish": dict.fromkeys(("entries", "seeds", "draw", "results", "team_points"), True)},
    "divisions": [
        EXAMPLE["divisions"][0]
        | {"snapshot": {"schema": 1, "book": {"name": "any"}, "bracket": {}}}
    ],
    "teams": [
        {"id": "a", "name": "Alder and Birch", "short": "AB", "members": ["Alder", "Birch"]},
        {"id": "b", "name": "Birch", "short": "B", "merged_into": "a"},
    ],
    "weight_classes": [
        {
            "id": "125",
            "division": "open",
            "label": "125",
            "places": 8,
            "seeding": {
                "lot_seed": "a1",
                "adopted": True,
                "adopted_at": "2026-01-09T20:00:00Z",
                "adopted_by": "ann",
                "overrides": [
                    {"entry": "e1", "before": 1, "to": 2, "reason": "injured", "author": "ann"}
                    | {"at": "2026-01-09T19:00:00Z"}
                ],
                "challenges_until": "2026-01-09T18:00:00Z",
                "challenges": [
                    {"entry": "e2", "over": "e1", "by": "Coach Bly", "reason": "beat him"}
                    | {"author": "ann", "at": "2026-01-09T17:00:00Z", "state": "granted"}
                    | {"answer": "yes", "answered_by": "ann", "move": 0}
                    | {"answered_at": "2026-01-09T19:00:00Z"}
                ],
                "inputs": [
                    {"entry": "e1", "kind": "places", "table": "state", "value": 0}
                    | {"weight": "133"}
                ],
                "ballots": [
                    {"voter": "Coach Bly", "team": "a", "ranks": [{"entry": "e1", "rank": 1}]}
                ],
                "signatures": [
                    {"user": "ann", "name": "Ann Lee", "digest": "0f" * 32}
                    | {"at": "2026-01-09T20:05:00Z"}
                ],
            },
        }
    ],
    "entries": [
        EXAMPLE["entries"][0]
        | {"weighed_in": "made", "wrestler": "0f3a", "home": "Birch", "rank": 3}
        | {"qualifying_place": 1, "seed": None}
    ],
    "prior_bouts": [
        EXAMPLE["prior_bouts"][0]
        | {"time": "2:28", "level": "varsity", "winner_division": "AA", "loser_division": "A"}
    ],
    "rulings": [
        {"weight_class": "125", "kind": "sides", "bout": "SF-1", "reason": "wrongly drawn"}
        | {"author": "ann", "at": "2026-01-10T12:00:00Z"}
        | {
            "ways": [
                {"bout": "SF-1", "side": "top", "entry": "e1"},
                {"bout": "5th-1", "exit": "loser", "entry": None},
            ]
        },
        {"weight_class": "125", "kind": "result", "bout": "SF-1", "reason": "protest"}
        | {"sides": ["e1", "e2"], "winner": None},
        {"weight_class": "125", "kind": "place", "reason": "ruled"}
        | {"places": [{"entry": "e1", "place": 3}], "shared": False},
    ],
    "void_bouts": [
        {"weight_class": "125", "round": "SF", "position": 1, "number": 5, "mat": "1"}
        | {"sides": ["e1", "e2"], "winner": "e1", "kind": "decision", "score": [3, 1]}
        | {"time": "7:00", "overtime": "SV-1", "decided_by": None, "near_fall": True}
        | {"misconduct": False, "occurred_at": "2026-01-10T11:00:00Z", "reason": "corrected"}
        | {"voided_by": "ann", "voided_at": "2026-01-10T12:00:00Z"}
    ],
    "draw_commitment": {
        "digest": "0f" * 32,
        "at": "2026-01-01T09:00:00Z",
        "secret": "ab" * 32,
        "revealed_at": "2026-01-09T21:00:00Z",
        "taken_back": [
            {"weight_class": "125", "number": 1, "reason": "late scratch"}
            | {"at": "2026-01-09T20:30:00Z"}
        ],
    },
    "brackets": [
        {
            "weight_class": "125",
            "lines": ["e1", None, ["e32", "e33"]],
            "drawn_lines": ["e1", None, ["e33", "e32"]],
            "crossings": [[2, 1]],
            "line_changes": [
                {"kind": "swapped", "lines": [1, 2], "reason": "slip", "author": "ann"}
                | {"at": "2026-01-10T08:00:00Z"},
                {"kind": "replaced", "gone": "e1", "came": "e2", "reason": "missed weight"}
                | {"at": "2026-01-10T08:00:00Z"},
                {"kind": "filled", "lines": [2], "came": "e3", "reason": "late"}
                | {"among": [2, 5], "lot_seed": "1912", "at": "2026-01-10T08:00:00Z"},
            ],
            "draw": {
                "version": 1,
                "at": "2026-01-09T20:50:00Z",
                "number": 2,
                "draw_version": 1,
                "kept": [{"criterion": "team", "pairs": [0, 1], "bound": [0, 0]}],
                "patterns": "42",
                "basis": "0f" * 32,
                "anew_because": "late scratch",
                "as_drawn": {
                    "entries": [
                        {"entry": "e1", "seed": 2, "team": "a", "region": "A", "spot": "A1"}
                        | {"met": ["e2"]},
                        {"entry": "e2", "entered": False},
                    ],
                    "holes": [3],
                },
            },
        }
    ],
    "results": [
        *EXAMPLE["results"],
        {
            "weight_class": "125",
            "bout": 12,
            "winner": "e2",
            "kind": "technical fall",
            "score": [19, 4],
            "time": "4:25",
            "near_fall": False,
            "state": "official",
            "occurred_at": "2026-01-10T16:02:31+00:00",
        },
        {"weight_class": "125", "bout": 13, "winner": None, "kind": "double forfeit"},
        {"weight_class": "125", "bout": 14, "winner": "e1", "kind": "decision", "score": [6, 6]}
        | {"overtime": "TB-2", "decided_by": "riding time"},
        {"weight_class": "125", "bout": 15, "winner": "e1", "kind": "disqualification"}
        | {"misconduct": True},
    ],
    "qualifying": {
        "plan": {"places": 4, "wild_cards": 1, "alternates": 2}
        | {"alternates_until": "2026-01-10T16:00:00Z"},
        "regions": [{"letter": "A", "name": "North", "source": "north-2026"}],
        "berths": [
            {"entry": "e1", "how": "place", "region": "A", "place": 1},
            {"entry": "e2", "how": "alternate", "order": 1}
            | {"stepped_in_at": "2026-01-10T15:00:00Z", "stepped_in_for": "e1"},
        ],
    },
    "cut_offs": [
        {"at": "2026-01-10T08:30:00Z"},
        {"division": "open", "at": "2026-01-10T09:00:00Z"},
    ],
    "own_teams": [{"user": "ann", "teams": ["alder"]}],
    "withdrawals": [{"entry": "e1", "kind": "medical", "after": "R1-9", "reason": "knee"}],
    "bouts": [
        {
            "weight_class": "125",
            "number": None,
            "round": "R1",
            "position": 9,
            "sides": ["e1", None],
            "mat": "2",
            "status": "bye",
            "implied": False,
            "ruled": False,
            "winner": "e1",
        }
    ],
    "places": [{"weight_class": "125", "place": 1, "entry": "e1"}],
    "team_points": [
        {"division": "open", "team": "alder", "placement": "16", "advancement": "4.5"}
        | {"bonus": "0.5", "adjustments": "-1", "total": "20", "place": 1}
    ],
}
