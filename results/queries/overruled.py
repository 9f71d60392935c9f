"""Bouts that a ruling decided without their result, or against it."""

from dataclasses import dataclass

from brackets.models import Bout
from results.core.outcomes import MANNERS, Kind, notation
from results.models import Result


@dataclass(frozen=True, slots=True)
class Overruled:
    """The result that a ruling went before: how it is written, "" where there is none; the side
    that it says won; and whether it was wrestled, as no forfeit is.
    """

    written: str
    winner: int | None
    wrestled: bool

    @classmethod
    def of(cls, bout: Bout, result: Result | None) -> "Overruled | None":
        """None where a bout is open, or decided as its result says, or because somebody is out."""
        if bout.status != Bout.Status.DECIDED or bout.implied:
            return None
        if result is None:
            return cls("", None, wrestled=False)
        side = result.winner_side
        won = None if side is None else (bout.top_id, bout.bottom_id)[side]
        if won == bout.winner_id:
            return None
        return cls(notation(result.outcome), side, MANNERS[Kind(result.kind)].begun)
