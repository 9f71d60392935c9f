"""What is on now: per mat, by round, and what was decided last."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from results.queries.seen import Seen
from results.queries.sheets import Sheet
from seeding.entries.models import Tournament

NEXT = 3


@dataclass(frozen=True, slots=True)
class Mat:
    """A mat with its bouts in the order of their numbers; `coming` are the next open ones."""

    name: str
    bouts: tuple[Seen, ...]

    @property
    def coming(self) -> tuple[Seen, ...]:
        return tuple(bout for bout in self.bouts if bout.open)

    @property
    def past(self) -> tuple[Seen, ...]:
        return tuple(bout for bout in self.bouts if not bout.open)


@dataclass(frozen=True, slots=True)
class RoundNow:
    """A round that is being wrestled, over all weights: how many of its bouts are decided."""

    code: str
    done: int
    total: int


def numbered(found: Iterable[Sheet]) -> list[Seen]:
    """All bouts with a number, in that order."""
    bouts = [bout for sheet in found for bout in sheet.bouts.values() if bout.number]
    return sorted(bouts, key=lambda bout: bout.number or 0)


def mats(tournament: Tournament, bouts: Sequence[Seen]) -> list[Mat]:
    """Every mat of the tournament; bouts without one come last."""
    names = [*tournament.mats, *sorted({bout.mat for bout in bouts} - set(tournament.mats))]
    found = [Mat(name, tuple(bout for bout in bouts if bout.mat == name)) for name in names]
    return [mat for mat in found if mat.bouts or mat.name in tournament.mats]


def rounds_now(floor: Iterable[Mat], bouts: Iterable[Seen]) -> list[RoundNow]:
    """The rounds of the bouts that are next on the mats, in running order."""
    here = sorted((mat.coming[0] for mat in floor if mat.coming), key=lambda bout: bout.number or 0)
    codes = list(dict.fromkeys(bout.round.code for bout in here))
    total: Counter[str] = Counter()
    done: Counter[str] = Counter()
    for bout in bouts:
        total[bout.round.code] += 1
        done[bout.round.code] += not bout.open
    return [RoundNow(code, done[code], total[code]) for code in codes]


def latest(bouts: Iterable[Seen], most: int) -> list[Seen]:
    """The results received last, newest first."""
    told = [bout for bout in bouts if bout.at]
    return sorted(told, key=lambda bout: (bout.at, bout.number or 0), reverse=True)[:most]
