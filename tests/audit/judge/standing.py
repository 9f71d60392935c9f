"""How the bouts of a weight stand."""

from __future__ import annotations

from dataclasses import dataclass, field

from tests.audit.judge.model import UNKNOWN, Key, Plan, Seat


@dataclass
class State:
    """A bout as it stands. `drawn`: a bye, or a vacant bout, that the draw made.

    `meant`: the sides before whom rulings bring to both of them was left on one.
    """

    sides: tuple[Seat, Seat]
    status: str
    winner: Seat = UNKNOWN
    loser: Seat = UNKNOWN
    implied: bool = False
    ruled: bool = False
    drawn: bool = False
    lost_both: tuple[str, ...] = ()
    meant: tuple[Seat, Seat] = (None, None)


@dataclass
class Standing:
    """All bouts of a weight; `order`: of each pool, best first, those still tied together.

    `pending`: whose line is still open after a bout that nobody won, and that bout.
    """

    plan: Plan
    states: dict[Key, State] = field(default_factory=dict)
    order: list[list[list[str]]] = field(default_factory=list)
    pending: dict[str, Key] = field(default_factory=dict)
