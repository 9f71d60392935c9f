"""Placement points: credited as soon as a place is certain, at the lowest that can still happen.

Winning a quarterfinal of eight places is worth 6th, reaching the final 2nd; the champion adds first
minus second. Sources: association pages, agreeing with published scores after each session. How
those who share a place share its points: common practice, no source.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from brackets.core.graph import BoutKey, Bracket, Format
from brackets.core.standing import BoutState, Standing
from results.core.certain import Certain, certain
from results.core.rules import NonScorers, SharedPlaces, TeamPointRules

ZERO = Decimal(0)
THOUSANDTH = Decimal("0.001")


@dataclass(frozen=True, slots=True)
class Step:
    """Points that one bout added by making `place` certain; `bout` None where none did.

    `final`: the entry has taken that place for good.
    """

    points: Decimal
    place: int
    bout: BoutKey | None
    final: bool


class Placement:
    """The placement points of a weight as it stands.

    `points`: those of 1st, 2nd, ... `counted`: the entries that score, by team; over the others a
    scorer may move up.
    """

    def __init__(
        self,
        bracket: Bracket,
        standing: Standing,
        rules: TeamPointRules,
        points: Sequence[Decimal],
        counted: Mapping[str, str],
    ) -> None:
        self.standing = standing
        self.rules = rules
        self.points = points
        self.counted = counted
        self.certain: Certain | None = None
        if bracket.format is Format.ELIMINATION:
            self.certain = certain(bracket)
        self.final = {one: place for place, group in standing.places.items() for one in group}
        self.passed = [place for one, place in self.final.items() if one not in counted]

    def steps(self, entry: str, way: Sequence[BoutState]) -> Iterator[Step]:
        """What an entry has, by the bouts of his way that made it certain; the rest at the end.

        The points add up to those of his place. Steps without points are among them.
        """
        place = self.standing.guaranteed.get(entry)
        if place is None:
            return
        given = ZERO
        for certain_place, bout in self._stages(entry, way):
            gained = self._for(certain_place) - given
            given += gained
            yield Step(gained, certain_place, bout, self.final.get(entry) == certain_place)
        yield Step(self._worth(entry, place) - given, place, None, entry in self.final)

    def _stages(self, entry: str, way: Sequence[BoutState]) -> Iterator[tuple[int, BoutKey | None]]:
        if not self.certain or not way:
            return
        before = self.certain.before(way[0], entry)
        if before is not None:
            yield before, None
        for state in way:
            after = self.certain.after(state, entry)
            if after is not None:
                yield after, state.key

    def _for(self, place: int) -> Decimal:
        return self.points[place - 1] if place <= len(self.points) else ZERO

    def _worth(self, entry: str, place: int) -> Decimal:
        """The points of a place: moved up over non-scorers, shared among those who are level."""
        if self.rules.non_scorers is NonScorers.MOVE_UP:
            place -= sum(better < place for better in self.passed)
        if entry in self.standing.in_full or self.rules.shared_places is SharedPlaces.EACH:
            return self._for(place)
        there = self.standing.places.get(self.final.get(entry, 0), (entry,))
        mates = [one for one in there if one not in self.standing.in_full]
        share = sum(map(self._for, range(place, place + len(mates))), ZERO) / len(mates)
        team = self.counted[entry]
        own = [one for one in mates if self.counted.get(one) == team].index(entry)
        return _rounded(share * (own + 1)) - _rounded(share * own)


def _rounded(points: Decimal) -> Decimal:
    """To a thousandth. Thirds of one team are rounded as they add up, so that its sum is right."""
    return points.quantize(THOUSANDTH)
