"""The writers of results and points."""

from results.services.draw import draw_every, draw_weight, take_back_draw
from results.services.giving_back import give_back
from results.services.groups import regroup
from results.services.late import (
    apply_weigh_in,
    enter_late,
    redraw,
    set_cut_off,
    swap_lines,
    take_out,
)
from results.services.load import load_tournament
from results.services.papers import order_sheets
from results.services.record import (
    confirm_result,
    correct_result,
    enter_result,
    make_official,
)
from results.services.rulings import rule, take_back_ruling
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
    "apply_weigh_in",
    "confirm_result",
    "correct_result",
    "draw_every",
    "draw_weight",
    "enter_late",
    "enter_result",
    "give_back",
    "load_tournament",
    "make_official",
    "merge_teams",
    "move_entry",
    "order_sheets",
    "redraw",
    "regroup",
    "reinstate",
    "rule",
    "set_cut_off",
    "split_team",
    "swap_lines",
    "take_back_adjustment",
    "take_back_draw",
    "take_back_ruling",
    "take_out",
    "withdraw",
]
