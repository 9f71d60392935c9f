"""Wrestlers whose names are alike: perhaps one person under two spellings. Nothing is merged here.

Never all pairs: only those are compared that share a block (family and initial, given and family
whichever way round, team and initial), and in a crowded block only neighbours in the alphabet.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from enum import IntEnum

from rapidfuzz import fuzz

from seeding.core.people import Person
from seeding.entries.core.spelling import ALIKE, plain

CROWDED = 40
"""In a larger block each is compared with the next so many in the order of the alphabet."""
TEAMS_ALIKE = 90


class Likeness(IntEnum):
    """In what two names agree, the strongest sign first."""

    SAME = 1
    SWAPPED = 2
    INITIAL = 3
    SPELLING = 4
    NONE = 9


@dataclass(frozen=True, slots=True, order=True)
class Double:
    """Two wrestlers who may be one, and why; `mates`: their teams are the same, or alike."""

    likeness: Likeness
    apart: bool
    one: str
    other: str

    @property
    def mates(self) -> bool:
        return not self.apart


@dataclass(frozen=True, slots=True)
class _Spelled:
    """A person with his names as they are compared."""

    uid: str
    given: str
    family: str
    team: str

    @property
    def name(self) -> str:
        return f"{self.given} {self.family}".strip()


def doubles(
    people: Iterable[Person], judged: AbstractSet[frozenset[str]] = frozenset()
) -> tuple[Double, ...]:
    """The pairs to look at, strongest sign first; `judged` are those known to be two people.

    The same name (accents aside), also with given and family name swapped, counts in any two
    teams; an initial or a slip of the pen only in one team, in teams spelled alike, or where one
    of the teams is not known.
    """
    roll = {one.uid: one for one in _spelled(people)}
    found: dict[frozenset[str], Double] = {}
    for one, other in _neighbours(roll):
        pair = frozenset((one.uid, other.uid))
        if pair not in found and pair not in judged:
            double = _compared(one, other)
            if double:
                found[pair] = double
    return tuple(sorted(found.values()))


def _spelled(people: Iterable[Person]) -> Iterator[_Spelled]:
    rows = sorted(people, key=lambda one: one.uid)
    teams = _team_groups({plain(one.home) for one in rows})
    for one in rows:
        yield _Spelled(one.uid, _bare(one.given), _bare(one.family), teams[plain(one.home)])


def _bare(name: str) -> str:
    """The name without accents, hyphens and stops.

    >>> _bare("J."), _bare("Nuñez-O'Dell")
    ('j', 'nunez odell')
    """
    kept = (sign if sign.isalnum() else "" if sign in ".'" else " " for sign in plain(name))
    return " ".join("".join(kept).split())


def _team_groups(names: AbstractSet[str]) -> Mapping[str, str]:
    """For each team name one that stands for all that are spelled like it."""
    groups = {"": ""}
    heads: dict[str, list[str]] = defaultdict(list)
    for name in sorted(names - {""}):
        near = (head for head in heads[name[:2]][-CROWDED:] if _same_team(name, head))
        groups[name] = next(near, name)
        if groups[name] == name:
            heads[name[:2]].append(name)
    return groups


def _same_team(one: str, other: str) -> bool:
    """Whether one name is the other with words left out, or with a slip in its letters.

    >>> _same_team("alder", "alder high"), _same_team("team 1", "team 12")
    (True, False)
    """
    words = set(one.split()), set(other.split())
    if words[0] <= words[1] or words[1] <= words[0]:
        return True
    digits = [[sign for sign in name if sign.isdecimal()] for name in (one, other)]
    return digits[0] == digits[1] and fuzz.ratio(one, other) >= TEAMS_ALIKE


def _neighbours(roll: Mapping[str, _Spelled]) -> Iterator[tuple[_Spelled, _Spelled]]:
    blocks: dict[tuple[str, ...], list[_Spelled]] = defaultdict(list)
    for one in roll.values():
        for key in _keys(one):
            blocks[key].append(one)
    for block in blocks.values():
        block.sort(key=lambda one: (one.name, one.uid))
        for at, one in enumerate(block):
            for other in block[at + 1 : at + 1 + CROWDED]:
                yield one, other


def _keys(one: _Spelled) -> Iterator[tuple[str, ...]]:
    yield "name", *sorted((one.given, one.family))
    yield "family", one.family, one.given[:1]
    if one.team:
        yield "family in the team", one.team, one.family[:1]
        yield "given in the team", one.team, one.given[:1]


def _compared(one: _Spelled, other: _Spelled) -> Double | None:
    apart = bool(one.team and other.team and one.team != other.team)
    likeness = _likeness(one, other)
    if likeness is None or (apart and likeness > Likeness.SWAPPED):
        return None
    first, second = sorted((one.uid, other.uid))
    return Double(likeness, apart, first, second)


def _likeness(one: _Spelled, other: _Spelled) -> Likeness | None:
    if one.name == other.name:
        return Likeness.SAME
    if one.given and (one.given, one.family) == (other.family, other.given):
        return Likeness.SWAPPED
    if one.family == other.family and _initial(one.given, other.given):
        return Likeness.INITIAL
    return Likeness.SPELLING if _slip(one, other) else None


def _initial(one: str, other: str) -> bool:
    """Whether one given name may be short for the other: "j" or "jon" for "jonathan", or none."""
    short, long = sorted((one, other), key=len)
    return long.startswith(short) and (len(short) <= 1 or len(short) >= 3)


def _slip(one: _Spelled, other: _Spelled) -> bool:
    """Whether one name looks like a slip of the pen for the other; no source for the threshold."""
    return fuzz.token_sort_ratio(one.name, other.name, score_cutoff=ALIKE) > 0
