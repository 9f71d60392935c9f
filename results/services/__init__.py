"""The writers of results and points."""

from results.services.draw import draw_every, draw_weight, take_back_draw
from results.services.load import load_tournament
from results.services.record import confirm_result, correct_result, enter_result
from results.services.teams import (
    adjust,
    merge_teams,
    move_entry,
    split_team,
    take_back_adjustment,
)
from results.services.withdraw import reinstate, withdraw

__all__ = [
    "adjust",
    "confirm_result",
    "correct_result",
    "draw_every",
    "draw_weight",
    "enter_result",
    "load_tournament",
    "merge_teams",
    "move_entry",
    "reinstate",
    "split_team",
    "take_back_adjustment",
    "take_back_draw",
    "withdraw",
]
