"""The values that say how a weight stands."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from enum import Enum, StrEnum
from typing import Literal

from brackets.core.sources import BoutKey


class Vacancy(Enum):
    """A side of a bout without a wrestler: not known yet, or nobody will come."""

    OPEN = "open"
    EMPTY = "empty"


OPEN, EMPTY = Vacancy.OPEN, Vacancy.EMPTY

Occupant = str | Vacancy
Sides = tuple[Occupant, Occupant]


class Status(StrEnum):
    """Where a bout stands.

    A bye has its winner; a vacant bout will never have anybody; a spared one is not needed.
    """

    WAITING = "waiting"
    READY = "ready"
    DECIDED = "decided"
    BYE = "bye"
    VACANT = "vacant"
    SPARED = "spared"


AHEAD = (Status.READY, Status.WAITING)


def to_wrestle(status: Status, *, planned: bool) -> bool:
    """Whether a bout counts as one: it is to be wrestled as things stand, or it was decided.

    `planned`: the bracket as its lines are now has it among its `bouts`. One that waits and is not
    will be a bye, though an earlier line-up may have given it a number; one that a ruling fills
    counts once both are there.

    >>> to_wrestle(Status.WAITING, planned=False), to_wrestle(Status.BYE, planned=True)
    (False, False)
    """
    return planned if status is Status.WAITING else status in (Status.READY, Status.DECIDED)


Leavers = Collection[str] | Mapping[str, BoutKey | None]
"""Entries who will not wrestle again: as a mapping, each with the last bout or bye that he had
behind him when he left (None: none; see `Standing.behind`), so that forfeits given to him before
still stand."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """What the bracket needs to know of a result: which side won, None when nobody did."""

    winner: Literal[0, 1] | None


@dataclass(frozen=True, slots=True)
class BoutState:
    """A bout as it stands.

    `implied`: decided without a verdict, because a side is out. `drawn`: a bye that the draw
    made, of the entry himself or of the man who beat him; any other bye stems from a bout that
    nobody won. `ruled`: decided by a ruling, whatever its verdict. A spared bout has sides, but
    neither winner nor loser.
    """

    key: BoutKey
    sides: Sides
    status: Status
    winner: str | None = None
    loser: str | None = None
    implied: bool = False
    drawn: bool = False
    ruled: bool = False

    @property
    def takes_result(self) -> bool:
        """Whether a result can be given: it is ready, or decided without one.

        Without one: only because somebody is out, or by a ruling.
        """
        return self.status is Status.READY or self.implied or self.ruled


@dataclass(frozen=True)
class Standing:
    """A weight as it stands.

    `bouts`: every node, in running order. `places`: final places only, more than one entry where
    a place is shared. `guaranteed`: entry to the worst place that can still happen to him, only
    where some place is certain; the final place once there is one. Who may not place is in
    neither. `ruled`: whose place is set by a ruling. `in_full`: who has his place in full though
    others have it too: he lost a bout that nobody won, and the place is not shared.
    """

    bouts: Mapping[BoutKey, BoutState]
    places: Mapping[int, tuple[str, ...]]
    guaranteed: Mapping[str, int]
    ruled: frozenset[str] = frozenset()
    in_full: frozenset[str] = frozenset()

    def walked(self) -> Mapping[str, tuple[BoutState, ...]]:
        """Each entry's way so far: the bouts and byes he stands in, in running order."""
        ways: dict[str, list[BoutState]] = {}
        for state in self.bouts.values():
            for side in state.sides:
                if isinstance(side, str):
                    ways.setdefault(side, []).append(state)
        return {entry: tuple(way) for entry, way in ways.items()}

    def behind(self, entry: str, *, reported: bool = True) -> BoutKey | None:
        """The last bout or bye that an entry has behind him, None when there is none.

        In a pool, whose bouts may be wrestled in any order, the last one before his first that is
        open. Who did not report (`reported` false) and has not wrestled was given nothing: a
        forfeit needs somebody who is there.
        """
        found, here = None, reported
        for state in self.bouts.values():
            if entry not in state.sides:
                continue
            if state.status in AHEAD:
                break
            here |= state.status is Status.DECIDED and not state.implied
            if state.status is not Status.SPARED:
                found = state.key
        return found if here else None
