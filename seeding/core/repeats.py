"""Reports of the same bout: which are new, which say nothing new, which contradict."""

from collections.abc import Iterable
from dataclasses import dataclass

from seeding.core.identity import bout_identity
from seeding.core.season import PriorBout


@dataclass(frozen=True, slots=True)
class Fresh:
    """Which bouts are new, which are known, and which say something else than the known one."""

    new: tuple[PriorBout, ...]
    known: tuple[PriorBout, ...]
    contradicted: tuple[tuple[PriorBout, PriorBout], ...]


def fresh(bouts: Iterable[PriorBout], known: Iterable[PriorBout]) -> Fresh:
    """Parts the bouts by what is known already, so that the same file twice adds nothing twice.

    A pair in `contradicted` is (reported, known).
    """
    kept = {identity(bout): bout for bout in known}
    new: dict[str, PriorBout] = {}
    same: list[PriorBout] = []
    against: list[tuple[PriorBout, PriorBout]] = []
    for bout in bouts:
        key = identity(bout)
        before = kept.get(key) or new.get(key)
        if before is None:
            new[key] = bout
        elif (before.winner, before.kind, before.score) == (bout.winner, bout.kind, bout.score):
            same.append(bout)
        else:
            against.append((bout, before))
    return Fresh(tuple(new.values()), tuple(same), tuple(against))


def identity(bout: PriorBout) -> str:
    """The same in every report of the same bout."""
    return bout_identity(bout.date, bout.winner, bout.loser, bout.weight, bout.event)
