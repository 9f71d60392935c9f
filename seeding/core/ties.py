"""The second list: how those whom the shape left level are put in order, and the lot after it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from seeding.core.criteria import Criterion
from seeding.core.lot import Lot
from seeding.core.season import Season
from seeding.core.shapes import HALF, NONE, ONE


@dataclass(frozen=True, slots=True)
class Settled:
    """An order of a level group.

    `scores`: per wrestler what each criterion of the second list gave, as far as it was asked;
    two are separated by the first criterion in which they differ, or else by the lot.
    `drawn`: those whom only the lot separated, group by group.
    """

    order: tuple[str, ...]
    scores: Mapping[str, tuple[Fraction, ...]]
    drawn: tuple[tuple[str, ...], ...]


def settle(
    level: Sequence[str], first: int, criteria: Sequence[Criterion], season: Season, seed: str
) -> Settled:
    """Order the level group that begins at place `first` (from 1).

    Each criterion in turn looks at every pair of the group (1 for the better, 1/2 each where it
    decides nothing); groups that stay level go on to the next criterion, without a restart. The
    last are drawn by the lot of purpose "seeding/<weight>/<first place>-<last place>", from the
    alphabetical order of their ids.
    """
    group = tuple(sorted(level))
    if len(group) == 1:
        return Settled(group, {group[0]: ()}, ())
    if not criteria:
        lot = Lot(seed, f"seeding/{season.weight}/{first}-{first + len(group) - 1}")
        return Settled(tuple(lot.shuffled(group)), dict.fromkeys(group, ()), (group,))
    scores = {one: _score(one, group, criteria[0], season) for one in group}
    order: list[str] = []
    later: dict[str, tuple[Fraction, ...]] = {}
    drawn: list[tuple[str, ...]] = []
    for value in sorted(set(scores.values()), reverse=True):
        still = [one for one in group if scores[one] == value]
        part = settle(still, first + len(order), criteria[1:], season, seed)
        order += part.order
        drawn += part.drawn
        later |= {one: (value, *part.scores[one]) for one in still}
    return Settled(tuple(order), later, tuple(drawn))


def _score(one: str, group: Sequence[str], criterion: Criterion, season: Season) -> Fraction:
    verdicts = (criterion.compare(one, other, season) for other in group if other != one)
    points = {one: ONE, None: HALF}
    return sum((points.get(verdict.better, NONE) for verdict in verdicts), NONE)


def separated(
    above: str, below: str, criteria: Sequence[Criterion], scores: Mapping[str, Sequence[Fraction]]
) -> tuple[Criterion, Fraction, Fraction] | None:
    """The criterion that put one above the other, with their scores; None = the lot did."""
    for criterion, high, low in zip(criteria, scores[above], scores[below], strict=False):
        if high != low:
            return criterion, high, low
    return None
