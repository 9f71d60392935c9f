"""A field that is to be drawn: who may stand where, who is kept apart, and the bounds."""

from collections.abc import Collection, Mapping, Sequence
from functools import cached_property
from itertools import combinations

from brackets.core.apart.criteria import Costs, KeepApart, Pair, by_round, groups, pairs
from brackets.core.apart.least import LIMIT, Least, least
from brackets.core.apart.tree import Team, Tree
from brackets.core.draw import Entrant
from brackets.core.rules import Apart
from brackets.core.slots import Slot, Slots
from seeding.core.lot import Lot


class Field:
    """The slots, the pairs to be kept apart by criterion, and what follows from these."""

    def __init__(
        self, entrants: Sequence[Entrant], slots: Slots, keep: KeepApart, limit: int = LIMIT
    ) -> None:
        self.entrants, self.slots, self.keep, self.limit = entrants, slots, keep, limit
        self.sought = {criterion: pairs(entrants, criterion) for criterion in keep.criteria}
        self.tree = Tree(slots)
        self.rounds = self.tree.rounds
        self.held = {slot.held: slot for slot in slots.slots if slot.held is not None}
        self.costs = Costs.of(tuple(self.sought.values()), self.rounds)

    @cached_property
    def teams(self) -> Sequence[tuple[str, ...]]:
        """The free members of each group of the first criterion, the least id first."""
        return sorted(groups(self.entrants, self.keep.first), key=self._order)

    def _order(self, group: Sequence[str]) -> tuple[bool, str]:
        free = [one for one in group if one not in self.held]
        return (not free, min(free, default=group[0]))

    def _team(self, group: Sequence[str]) -> Team:
        fixed = sorted(self.tree.node(self.held[one]) for one in group if one in self.held)
        return Team(len(group) - len(fixed), tuple(fixed))

    @cached_property
    def least(self) -> Least:
        """The draws of least cost under the first criterion."""
        return least(self.tree, [self._team(group) for group in self.teams], self.limit)

    def places(self, lot: Lot) -> Mapping[str, Slot]:
        """One draw of least cost under the first criterion: the slot of every free entrant."""
        owners = self.least.draw(lot)
        there: dict[int, list[Slot]] = {}
        for slot in self.slots.free:
            there.setdefault(owners[self.tree.node(slot)], []).append(slot)
        found: dict[str, Slot] = {}
        for number, team in enumerate(self.teams):
            free = lot.shuffled([one for one in team if one not in self.held])
            found.update(zip(free, there.get(number, []), strict=True))
        return found

    def lines(self, places: Mapping[str, Slot]) -> dict[str, int]:
        """The line of every entrant."""
        return {one: slot.line for one, slot in (*self.held.items(), *places.items())}

    def cost(self, places: Mapping[str, Slot]) -> int:
        """The cost of a draw under all criteria."""
        lines = self.lines(places)
        found = [by_round(some, lines, self.rounds) for some in self.sought.values()]
        return self.costs.number(found)

    @cached_property
    def bounds(self) -> Mapping[Apart, tuple[int, ...]]:
        """What no draw betters, by criterion."""
        return {criterion: self._bound(criterion) for criterion in self.sought}

    @property
    def goal(self) -> int:
        """The cost of a draw that reaches every bound."""
        return self.costs.number(list(self.bounds.values()))

    def _bound(self, criterion: Apart) -> tuple[int, ...]:
        if criterion is Apart.MET:
            return self._bound_of_pairs(self.sought[criterion])
        if criterion is self.keep.first:
            return self.least.bound
        teams = [self._team(group) for group in groups(self.entrants, criterion)]
        return least(self.tree, teams, self.limit).bound

    def _bound_of_pairs(self, sought: Collection[Pair]) -> tuple[int, ...]:
        """Every pair at the latest round that these two alone could have."""
        free = [slot.line for slot in self.slots.free]
        both = max(((a ^ b).bit_length() for a, b in combinations(free, 2)), default=0)
        found = [0] * (self.rounds + 1)
        for pair in sought:
            held = [self.held[one].line for one in pair if one in self.held]
            beside = [*held[1:]] or free
            found[max((held[0] ^ line).bit_length() for line in beside) if held else both] += 1
        return tuple(found[: self.rounds])
