"""Whom a draw keeps apart, in order of importance, and what it costs where that fails."""

from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from brackets.core.draw import Entrant
from brackets.core.rules import Apart


@dataclass(frozen=True, slots=True)
class KeepApart:
    """What is looked at, the most important first; nothing: all places are alike."""

    criteria: tuple[Apart, ...] = (Apart.TEAM,)

    @property
    def first(self) -> Apart:
        """The criterion that says who belongs together; without any everybody stands alone."""
        return self.criteria[0] if self.criteria else Apart.MET


Pair = tuple[str, str]
"""Two entrants, by id in order."""


def pairs(entrants: Sequence[Entrant], criterion: Apart) -> set[Pair]:
    """All who shall be kept apart under a criterion."""
    if criterion is Apart.MET:
        here = {one.id for one in entrants}
        return {
            (min(one.id, other), max(one.id, other))
            for one in entrants
            for other in one.met & here - {one.id}
        }
    return {
        pair for group in groups(entrants, criterion) for pair in combinations(sorted(group), 2)
    }


def groups(entrants: Sequence[Entrant], criterion: Apart) -> Sequence[tuple[str, ...]]:
    """Who belongs together under a criterion of groups, in order of id; each entrant once.

    Who has no team (or region), and everybody under another criterion, stands alone.
    """
    found: dict[str, list[str]] = defaultdict(list)
    for one in sorted(entrants, key=lambda one: one.id):
        name = _group(one, criterion)
        found[f"of {name}" if name else f"alone {one.id}"].append(one.id)
    return sorted(tuple(group) for group in found.values())


def _group(entrant: Entrant, criterion: Apart) -> str:
    if criterion is Apart.TEAM:
        return entrant.team
    return entrant.region if criterion is Apart.REGION else ""


@dataclass(frozen=True, slots=True)
class Costs:
    """The cost of a draw under all criteria as one number: criterion after criterion, in each the
    pairs that can meet first in the pigtail, the first round ... the semifinal, as digits to the
    base (all pairs + 1). Two who cannot meet before the final cost nothing.

    `near[one][other][level]` is what it costs if these two can meet first at that level.
    """

    base: int
    near: Mapping[str, Mapping[str, tuple[int, ...]]]

    @classmethod
    def of(cls, sought: Sequence[Collection[Pair]], rounds: int) -> "Costs":
        """The costs where these pairs are to be kept apart, the most important first."""
        base = 1 + sum(map(len, sought))
        near: dict[str, dict[str, tuple[int, ...]]] = defaultdict(dict)
        for rank, found in enumerate(sought):
            place = rounds * (len(sought) - rank) - 1
            digits = (*(base ** (place - level) for level in range(rounds)), 0)
            for one, other in found:
                before = near[one].get(other, (0,) * (rounds + 1))
                summed = tuple(a + b for a, b in zip(before, digits, strict=True))
                near[one][other] = near[other][one] = summed
        return cls(base, near)

    def number(self, counts: Sequence[Sequence[int]]) -> int:
        """The cost of so many pairs by criterion and round."""
        cost = 0
        for digit in (pairs for by_round in counts for pairs in by_round):
            cost = cost * self.base + digit
        return cost

    def of_one(self, entrant: str, lines: Mapping[str, int]) -> int:
        """What it costs that an entrant stands where he stands, by the line of everybody."""
        here, others = lines[entrant], self.near.get(entrant, {})
        return sum(cost[(here ^ lines[other]).bit_length()] for other, cost in others.items())


def by_round(sought: Collection[Pair], lines: Mapping[str, int], rounds: int) -> tuple[int, ...]:
    """How many pairs can meet first in the pigtail, the first round ... the semifinal."""
    found = [0] * (rounds + 1)
    for one, other in sought:
        found[(lines[one] ^ lines[other]).bit_length()] += 1
    return tuple(found[:rounds])
