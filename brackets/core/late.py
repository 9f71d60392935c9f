"""Late changes: what becomes of the lines after the draw.

Every change turns one line-up into another; the changes of a bracket, carried out one after
another on the lines as they were drawn, give the lines as they are.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, Self

from brackets.core.errors import LineChangeUnfit
from brackets.core.graph import Bracket
from brackets.core.rules import SIZES
from brackets.core.sources import Exit, Line, LineUp, Seat
from seeding.core.lot import Lot


class ChangeKind(StrEnum):
    """What is done to lines."""

    EMPTIED = "emptied"
    REPLACED = "replaced"
    FILLED = "filled"
    SWAPPED = "swapped"


@dataclass(frozen=True, slots=True)
class LineChange:
    """One change. Entries by their keys, lines counted from 1, top to bottom.

    EMPTIED: `gone` leaves, his line becomes a bye; in a round robin or pools it goes.
    REPLACED: `came` stands where `gone` stood; of both `lines` tells which it was. FILLED: `came`
    takes the bye of `lines[0]`; where `among` says the lines that could be had, it was chosen by
    the lot of `lot_seed` (see `late_line`). SWAPPED: what stands on the
    two `lines` changes places.
    """

    kind: ChangeKind
    lines: tuple[int, ...] = ()
    gone: str = ""
    came: str = ""
    among: tuple[int, ...] = ()
    lot_seed: str = ""

    @classmethod
    def read(cls, item: Mapping[str, Any]) -> Self:
        """The change that `plain` wrote."""
        return cls(
            kind=ChangeKind(item["kind"]),
            lines=tuple(item.get("lines", ())),
            gone=item.get("gone", ""),
            came=item.get("came", ""),
            among=tuple(item.get("among", ())),
            lot_seed=item.get("lot_seed", ""),
        )

    def plain(self) -> dict[str, Any]:
        """The change as JSON holds it, without what it does not have."""
        told = {
            "lines": list(self.lines),
            "gone": self.gone,
            "came": self.came,
            "among": list(self.among),
            "lot_seed": self.lot_seed,
        }
        return {"kind": self.kind.value} | {name: value for name, value in told.items() if value}

    @property
    def entries(self) -> tuple[str, ...]:
        """The entries that it names."""
        return tuple(one for one in (self.gone, self.came) if one)


def free_lines(lines: LineUp) -> tuple[int, ...]:
    """The lines that are byes, counted from 1."""
    return tuple(at for at, line in enumerate(lines, start=1) if line is None)


def line_of(lines: LineUp, entry: str) -> int:
    """The line on which an entry stands, counted from 1; refuses where it stands on none."""
    for at, line in enumerate(lines, start=1):
        if entry in _entries(line):
            return at
    raise LineChangeUnfit(problem=f"{entry} stands on no line")


def late_line(among: Sequence[int], weight: str, lot_seed: str) -> int:
    """The line that a late entry takes by lot: each of `among` has the same chance.

    The lot is that of `lot_seed` for the purpose "late entry/<weight>"; the lines are counted from
    the top. Refuses where there is none.

    >>> late_line((2, 4), "125", "1912")
    4
    """
    if not among:
        raise LineChangeUnfit(problem="there is no free line that could still be had")
    return sorted(among)[Lot(lot_seed, f"late entry/{weight}").below(len(among))]


def drawn_rightly(change: LineChange, weight: str) -> bool:
    """Whether a change by lot is the one that its seed gives; others are as they were decided."""
    if not change.among:
        return True
    return change.lines == (late_line(change.among, weight, change.lot_seed),)


def changed(lines: LineUp, change: LineChange) -> LineUp:
    """The line-up after a change; refuses, by name, one that does not fit it.

    >>> changed(("a", None, "b", "c"), LineChange(ChangeKind.SWAPPED, (1, 3)))
    ('b', None, 'a', 'c')
    """
    if change.kind is ChangeKind.SWAPPED:
        return _swapped(lines, change.lines)
    if change.kind is ChangeKind.FILLED:
        return _filled(lines, change)
    if change.kind is ChangeKind.EMPTIED:
        return _emptied(lines, change.gone)
    return _replaced(lines, change)


def after_all(lines: LineUp, changes: Iterable[LineChange]) -> LineUp:
    """The line-up after changes in their order."""
    for change in changes:
        lines = changed(lines, change)
    return lines


def _swapped(lines: LineUp, pair: tuple[int, ...]) -> LineUp:
    if len(set(pair)) != 2 or not all(1 <= one <= len(lines) for one in pair):
        raise LineChangeUnfit(problem=f"two different lines from 1 to {len(lines)} change places")
    one, other = (at - 1 for at in pair)
    if lines[one] is None and lines[other] is None:
        raise LineChangeUnfit(problem="both lines are byes, so nothing would change places")
    found = list(lines)
    found[one], found[other] = found[other], found[one]
    return tuple(found)


def _filled(lines: LineUp, change: LineChange) -> LineUp:
    free = free_lines(lines)
    if len(change.lines) != 1 or change.lines[0] not in free:
        listed = ", ".join(map(str, free)) or "none"
        raise LineChangeUnfit(problem=f"the line is not free; free lines: {listed}")
    _not_there(lines, change.came)
    at = change.lines[0] - 1
    return (*lines[:at], change.came, *lines[at + 1 :])


def _emptied(lines: LineUp, gone: str) -> LineUp:
    at = line_of(lines, gone) - 1
    left = [one for one in _entries(lines[at]) if one != gone]
    if not left and len(lines) < SIZES[0]:
        return (*lines[:at], *lines[at + 1 :])
    return (*lines[:at], left[0] if left else None, *lines[at + 1 :])


def _replaced(lines: LineUp, change: LineChange) -> LineUp:
    _not_there(lines, change.came)
    at = line_of(lines, change.gone) - 1
    found = lines[at]
    if isinstance(found, tuple):
        one, other = (change.came if here == change.gone else here for here in found)
        return (*lines[:at], (one, other), *lines[at + 1 :])
    return (*lines[:at], change.came, *lines[at + 1 :])


def _not_there(lines: LineUp, came: str) -> None:
    if not came or any(came in _entries(line) for line in lines):
        raise LineChangeUnfit(problem=f"{came or 'nobody'} cannot come onto a line")


def _entries(line: str | tuple[str, str] | None) -> tuple[str, ...]:
    if isinstance(line, tuple):
        return line
    return () if line is None else (line,)


def way_up(bracket: Bracket, line: int) -> Iterator[Seat]:
    """The seats that who starts on a line takes as long as he wins, pools apart."""
    for key, sides in bracket.sources.items():
        for slot, source in enumerate(sides):
            if isinstance(source, Line) and source.number == line and not bracket.pools:
                seat: Seat | None = Seat(key, slot)
                while seat:
                    yield seat
                    seat = bracket.onward(seat.bout, Exit.WINNER)
