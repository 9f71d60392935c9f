"""The writers of brackets."""

from brackets.services.draw import draw_weight, set_lines, take_back_draw
from brackets.services.number import number_bouts, send_to_mat
from brackets.services.progress import advance, lock_bracket

__all__ = [
    "advance",
    "draw_weight",
    "lock_bracket",
    "number_bouts",
    "send_to_mat",
    "set_lines",
    "take_back_draw",
]
