"""The writers of brackets."""

from brackets.services.commitment import commit_draw, reveal_secret, reveal_when_drawn
from brackets.services.draw import make_draw, set_lines, undo_draw
from brackets.services.lines import change_lines
from brackets.services.number import number_bouts, send_to_mat
from brackets.services.progress import advance, lock_bracket

__all__ = [
    "advance",
    "change_lines",
    "commit_draw",
    "lock_bracket",
    "make_draw",
    "number_bouts",
    "reveal_secret",
    "reveal_when_drawn",
    "send_to_mat",
    "set_lines",
    "undo_draw",
]
