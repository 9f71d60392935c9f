"""Which pattern of least cost is the n-th: a number by lot becomes a draw.

The order of patterns: write down, for the whole bracket, then for everything in the upper half,
then for everything in the lower half, how many free members of each team (teams in their order) go
to the upper half. The patterns stand in the order of these lists, smaller numbers first.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from brackets.core.apart.count import Count
from brackets.core.apart.kinds import ANYWHERE
from brackets.core.apart.parting import ALL_AT_HOME, Parted, Ways, crowd, joined
from brackets.core.apart.tree import Team, inside
from seeding.core.lot import Lot

DIGIT = 1 << 32


@dataclass(frozen=True, slots=True)
class Member:
    """A team under a node: its number, its free members there, its seeds there."""

    team: int
    free: int
    fixed: tuple[int, ...]


def by_lot(lot: Lot, patterns: int) -> int:
    """A number from 0 to patterns - 1, each equally likely, however large.

    Digits to the base 2**32 from `Lot.below`, the highest first, as few as can write `patterns`
    numbers; taken modulo `patterns`. Numbers at or above the largest multiple of `patterns` that
    so many digits hold are thrown away, and new digits are taken.
    """
    digits = max(1, -(-(patterns - 1).bit_length() // 32))
    limit = DIGIT**digits // patterns * patterns
    while True:
        number = 0
        for _ in range(digits):
            number = number * DIGIT + lot.below(DIGIT)
        if number < limit:
            return number % patterns


def pattern(count: Count, teams: Sequence[Team], number: int) -> dict[int, int]:
    """The team of every free slot in pattern `number` (from 0), by the slot's node."""
    found: dict[int, int] = {}
    members = [Member(i, team.free, team.fixed) for i, team in enumerate(teams) if team.free]
    _fill(count, 1, members, number, found)
    return found


def _fill(count: Count, node: int, here: list[Member], number: int, found: dict[int, int]) -> None:
    if not here:
        return
    if count.kinds.tree.level(node) < 0:
        found[node] = here[0].team
        return
    chooser = _Chooser(count, node, here)
    halves: tuple[list[Member], list[Member]] = [], []
    for member in here:
        upper, number = chooser.next(member, number)
        for half, free in ((0, upper), (1, member.free - upper)):
            if free:
                fixed = inside(member.fixed, 2 * node + half)
                halves[half].append(Member(member.team, free, fixed))
    below = chooser.ways_below()
    _fill(count, 2 * node, halves[0], number // below, found)
    _fill(count, 2 * node + 1, halves[1], number % below, found)


class _Chooser:
    """Which half each team goes to, one team after another, by the pattern's number.

    `rest[i]`: how the teams can part that are still to be chosen when i of them are left, those
    who may stand anywhere not counted. `chosen`: how those before have parted.
    """

    def __init__(self, count: Count, node: int, here: Sequence[Member]) -> None:
        self.count, self.node = count, node
        self.rest: list[Ways] = [ALL_AT_HOME]
        for member in reversed(here):
            if (kind := self._kind(member)) != ANYWHERE:
                self.rest.append(joined(self.rest[-1], count.of_kind(kind, 1)))
        self.single = sum(self._kind(member) == ANYWHERE for member in here)
        self.chosen = Parted((), (), 0)

    def _kind(self, member: Member) -> int:
        return self.count.kinds.of(self.node, member.free, member.fixed)

    def next(self, member: Member, number: int) -> tuple[int, int]:
        """How many of the member's team go up, and the number among the patterns that do so."""
        *choices, last = self._choices(self._kind(member))
        for choice in choices:
            after = self._beside(choice)
            patterns = self._patterns(after)
            if number < patterns:
                self.chosen = after
                return choice.up, number
            number -= patterns
        self.chosen = self._beside(last)
        return last.up, number

    def _choices(self, kind: int) -> Sequence[Parted]:
        """What the next team can do, the fewest going up first; it is no more among the rest."""
        if kind == ANYWHERE:
            self.single -= 1
            return Parted((), (), 0), Parted((), (), 1)
        self.rest.pop()
        return [
            Parted(crowd(split.kinds[:1]), crowd(split.kinds[1:]), split.upper)
            for split in self.count.kinds.known[kind].splits
        ]

    def _beside(self, choice: Parted) -> Parted:
        return next(iter(joined({self.chosen: 1}, {choice: 1})))

    def _patterns(self, chosen: Parted) -> int:
        parted = joined({chosen: 1}, self.rest[-1])
        return sum(n * self.count.onward(self.node, one, self.single) for one, n in parted.items())

    def ways_below(self) -> int:
        """The patterns of the lower half, once everybody is chosen."""
        return self.count.ways(2 * self.node + 1, self.chosen.lower)
