"""A row of the table that `sh deploy/manage benchmark` prints, and how its times are taken."""

from collections.abc import Callable
from dataclasses import dataclass
from statistics import median
from time import process_time


@dataclass(frozen=True, slots=True)
class Row:
    """What was measured against what: `ours` and `reference` in seconds of CPU or as the goal says.

    `ratio` is the figure that the goal speaks of, and `met` whether it is reached.
    """

    name: str
    ours: float
    reference: float
    ratio: float
    goal: str
    met: bool


@dataclass(frozen=True, slots=True)
class Times:
    """Median seconds of CPU of both sides."""

    ours: float
    reference: float

    @property
    def times_faster(self) -> float:
        return self.reference / self.ours


def in_turn(
    ours: Callable[[], object], reference: Callable[[], object], rounds: int, each: int = 1
) -> Times:
    """Both sides in one process, one after the other, `rounds` times after one unmeasured call.

    `each`: how often ours is called in a round, for what is too short to be measured once.
    """
    ours(), reference()
    mine, theirs = [], []
    for _ in range(rounds):
        mine += [_seconds(ours) for _ in range(each)]
        theirs.append(_seconds(reference))
    return Times(median(mine), median(theirs))


def _seconds(call: Callable[[], object]) -> float:
    begun = process_time()
    call()
    return process_time() - begun
