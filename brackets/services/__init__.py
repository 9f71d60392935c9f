"""The writers of brackets."""

from brackets.services.draw import make_draw, set_lines, undo_draw
from brackets.services.number import number_bouts, send_to_mat
from brackets.services.progress import advance, lock_bracket

__all__ = [
    "advance",
    "lock_bracket",
    "make_draw",
    "number_bouts",
    "send_to_mat",
    "set_lines",
    "undo_draw",
]
