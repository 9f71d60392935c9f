"""Reports of the same bout: which are new, which say nothing new, which add, which contradict."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from itertools import combinations

from seeding.core.identity import bout_identity
from seeding.core.season import PriorBout

TOLD = ("score", "time", "level", "winner_division", "loser_division")
"""What one report may tell and another leave out."""


@dataclass(frozen=True, slots=True)
class Fresh:
    """Bouts of a file beside those that are known.

    `repeated`: said by the file once more. `more`: known bouts with what the file adds to them.
    `contradicted`: (reported, known), where the two cannot both be right; `inside`: (later,
    earlier), where the file contradicts itself.
    """

    new: tuple[PriorBout, ...]
    known: tuple[PriorBout, ...]
    repeated: tuple[PriorBout, ...]
    more: tuple[PriorBout, ...]
    contradicted: tuple[tuple[PriorBout, PriorBout], ...]
    inside: tuple[tuple[PriorBout, PriorBout], ...]


def fresh(bouts: Iterable[PriorBout], known: Iterable[PriorBout]) -> Fresh:
    """Parts the bouts by what is known already, so that the same file twice adds nothing twice."""
    kept = {identity(bout): bout for bout in known}
    told, repeated, inside = _once(bouts)
    pairs = [(bout, kept[key]) for key, bout in told.items() if key in kept]
    agreed = [(bout, before) for bout, before in pairs if not contradict(bout, before)]
    wholes = [(completed(before, bout), before) for bout, before in agreed]
    return Fresh(
        new=tuple(bout for key, bout in told.items() if key not in kept),
        known=tuple(before for whole, before in wholes if whole == before),
        repeated=tuple(repeated),
        more=tuple(whole for whole, before in wholes if whole != before),
        contradicted=tuple(pair for pair in pairs if contradict(*pair)),
        inside=tuple(inside),
    )


def _once(
    bouts: Iterable[PriorBout],
) -> tuple[dict[str, PriorBout], list[PriorBout], list[tuple[PriorBout, PriorBout]]]:
    """Each bout of the file with all that it tells of it, what it repeats, and contradicts."""
    told: dict[str, PriorBout] = {}
    repeated: list[PriorBout] = []
    inside: list[tuple[PriorBout, PriorBout]] = []
    for bout in bouts:
        key = identity(bout)
        if key not in told:
            told[key] = bout
        elif contradict(bout, told[key]):
            inside.append((bout, told[key]))
        else:
            told[key] = completed(told[key], bout)
            repeated.append(bout)
    return told, repeated, inside


def contradict(one: PriorBout, other: PriorBout) -> bool:
    """Whether two reports of one bout cannot both be right; silence contradicts nothing."""
    if (one.winner, one.kind) != (other.winner, other.kind):
        return True
    told = ((getattr(one, part), getattr(other, part)) for part in TOLD)
    return any(a != b for a, b in told if a and b)


def completed(known: PriorBout, report: PriorBout) -> PriorBout:
    """The known bout with what the other report alone tells.

    >>> first = PriorBout(date(2026, 1, 3), "125", "w1", "w2", "fall")
    >>> completed(first, replace(first, time="2:28")).time
    '2:28'
    """
    gaps = {
        part: getattr(report, part)
        for part in TOLD
        if getattr(report, part) and not getattr(known, part)
    }
    return replace(known, **gaps) if gaps else known


def identity(bout: PriorBout) -> str:
    """The same in every report of the same bout."""
    return bout_identity(bout.date, bout.winner, bout.loser, bout.weight, bout.event)


@dataclass(frozen=True, slots=True)
class Twice:
    """Two bouts of the same two wrestlers on one day: two bouts, or one told twice.

    `one` and `other` are whatever the bouts were given under.
    """

    one: int
    other: int
    differs: tuple[str, ...]


def told_twice(bouts: Mapping[int, PriorBout]) -> tuple[Twice, ...]:
    """Every two bouts of the same pair on the same day, and in what their reports differ.

    Two bouts of one event at one weight that differ in nothing cannot be: they are one bout.
    """
    days: dict[tuple[date, frozenset[str]], list[int]] = defaultdict(list)
    for key, bout in bouts.items():
        days[bout.date, frozenset((bout.winner, bout.loser))].append(key)
    return tuple(
        Twice(one, other, _differences(bouts[one], bouts[other]))
        for keys in days.values()
        for one, other in combinations(sorted(keys), 2)
    )


COMPARED = ("winner", "kind", "score", "time", "weight", "event")


def _differences(one: PriorBout, other: PriorBout) -> tuple[str, ...]:
    return tuple(part for part in COMPARED if getattr(one, part) != getattr(other, part))
