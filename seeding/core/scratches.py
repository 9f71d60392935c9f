"""What a scratch before the draw does to the seeds below it.

No source found that bodies agree on one of these: it is the setting `scratched` of the rule
book's section `[seeding]`.
"""

from collections.abc import Mapping
from enum import StrEnum


class Scratched(StrEnum):
    """MOVE_UP: who is seeded below moves up one. HOLE: the number stays empty, and so does its
    rank in the draw (a bye). REDRAW: no seed stands; the order is adopted anew.
    """

    MOVE_UP = "move-up"
    HOLE = "hole"
    REDRAW = "redraw"


def after_scratch(seeds: Mapping[str, int], gone: int, policy: Scratched) -> dict[str, int]:
    """The seeds of those who are left, after whoever held seed `gone` is scratched.

    >>> after_scratch({"a": 1, "c": 3, "d": 4}, 2, Scratched.MOVE_UP)
    {'a': 1, 'c': 2, 'd': 3}
    >>> after_scratch({"a": 1, "c": 3, "d": 4}, 2, Scratched.HOLE)
    {'a': 1, 'c': 3, 'd': 4}
    >>> after_scratch({"a": 1, "c": 3, "d": 4}, 2, Scratched.REDRAW)
    {}
    """
    match policy:
        case Scratched.MOVE_UP:
            return {who: seed - (seed > gone) for who, seed in seeds.items()}
        case Scratched.HOLE:
            return dict(seeds)
        case Scratched.REDRAW:
            return {}
