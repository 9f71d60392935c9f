"""The second list: how those whom the shape left level are put in order, and what comes last."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Protocol, runtime_checkable

from seeding.core.criteria import Criterion
from seeding.core.lot import Lot
from seeding.core.pairs import HALF, NONE, ONE, Key, every_pair
from seeding.core.season import Season


class Final(StrEnum):
    """What parts those whom no criterion does.

    coin: a lot of two, by its usual name. vote, committee: people decide; until they have, the
    group stands by lot and is open.
    """

    LOT = "lot"
    COIN = "coin"
    VOTE = "vote"
    COMMITTEE = "committee"


@runtime_checkable
class Among(Protocol):
    """A criterion that depends on who else is level: `among` gives it for that group."""

    def among(self, group: Sequence[str]) -> Criterion: ...


@dataclass(frozen=True, slots=True)
class Settled:
    """An order of a level group.

    `scores`: per wrestler what each criterion of the second list gave, as far as it was asked;
    two are separated by the first criterion in which they differ, or else by what comes last.
    `drawn`: those whom only chance separated, group by group; `open`: those left to people.
    """

    order: tuple[str, ...]
    scores: Mapping[str, tuple[Fraction, ...]]
    drawn: tuple[tuple[str, ...], ...] = ()
    open: tuple[tuple[str, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Seconds:
    """What is asked when a shape leaves wrestlers level: a list, and at last chance or people.

    `offset`: so many places lie above the field that is being ordered.
    """

    criteria: tuple[Criterion, ...]
    final: Final
    season: Season
    lot_seed: str
    offset: int = 0

    def settle(self, level: Sequence[str], first: int) -> Settled:
        """Order the level group that begins at place `first` (from 1) of the field.

        Each criterion in turn looks at every pair of the group (1 for the better, 1/2 each where
        it decides nothing); groups that stay level go on to the next criterion, without a restart.
        The last are drawn by the lot of purpose "seeding/<weight>/<first place>-<last place>",
        from the alphabetical order of their ids.
        """
        return self._settle(tuple(sorted(level)), first, 0)

    def _settle(self, group: tuple[str, ...], first: int, asked: int) -> Settled:
        if len(group) == 1:
            return Settled(group, {group[0]: ()})
        if asked == len(self.criteria):
            return self.last(group, first)
        scores = scored(group, self.criteria[asked], self.season)
        order: list[str] = []
        later: dict[str, tuple[Fraction, ...]] = {}
        drawn: list[tuple[str, ...]] = []
        left: list[tuple[str, ...]] = []
        for value in sorted(set(scores.values()), reverse=True):
            still = tuple(one for one in group if scores[one] == value)
            part = self._settle(still, first + len(order), asked + 1)
            order += part.order
            drawn += part.drawn
            left += part.open
            later |= {one: (value, *part.scores[one]) for one in still}
        return Settled(tuple(order), later, tuple(drawn), tuple(left))

    def last(self, group: Sequence[str], first: int) -> Settled:
        """The group by lot; open where people have the last word."""
        names = sorted(group)
        top = self.offset + first
        lot = Lot(self.lot_seed, f"seeding/{self.season.weight}/{top}-{top + len(names) - 1}")
        order = tuple(lot.shuffled(names))
        by_lot = self.final in (Final.LOT, Final.COIN)
        drawn, left = ((tuple(names),), ()) if by_lot else ((), (tuple(names),))
        return Settled(order, dict.fromkeys(names, ()), drawn, left)


def scored(group: Sequence[str], criterion: Criterion, season: Season) -> dict[str, Fraction]:
    """What one criterion gives each of a level group over all its pairs."""
    asked = _asked_of(group, criterion)
    better: dict[Key, str | None] = season.once((scored, asked), dict)
    points = dict.fromkeys(group, NONE)
    for two in every_pair(group):
        if two not in better:
            better[two] = asked.compare(*two, season).better
        for one in two:
            points[one] += {one: ONE, None: HALF}.get(better[two], NONE)
    return points


def _asked_of(group: Sequence[str], criterion: Criterion) -> Criterion:
    return criterion.among(group) if isinstance(criterion, Among) else criterion


def separated(
    above: str, below: str, criteria: Sequence[Criterion], scores: Mapping[str, Sequence[Fraction]]
) -> tuple[Criterion, Fraction, Fraction] | None:
    """The criterion that put one above the other, with their scores; None = none did.

    `scores` are of all who were level. A criterion that depends on the group is given for those who
    were still level when it was asked.
    """
    both = zip(criteria, scores[above], scores[below], strict=False)
    for at, (criterion, high, low) in enumerate(both):
        if high != low:
            still = [one for one in scores if scores[one][:at] == scores[above][:at]]
            return _asked_of(still, criterion), high, low
    return None
