"""The least cost of all teams together, with prices on the slots that prove it.

Teams get in each other's way only at the slots: a network in which a unit of flow is an entrant.
From a team's whole bracket it runs down the tree of halves, each node dearer with every team-mate
in it, into a slot that holds one. Costs are convex, so flow of least cost is found exactly by
adding entrants one at a time on a cheapest way, along which others may be moved.
Source: successive shortest paths with potentials (Edmonds and Karp 1972; Tomizawa 1971). What the
potentials leave at the slots are the prices: with them the bound of `Programme` is the cost itself.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

from brackets.core.apart.tree import Programme, Team, inside

SLOT = -1
Place = tuple[int, int]
"""A team's number and a node of its tree; SLOT and a node for the slot that all share."""


@dataclass(frozen=True, slots=True)
class Cheapest:
    """Whose the slots are in one draw of least cost (those of single entrants are left out)."""

    owners: Mapping[int, int]
    prices: Mapping[int, int]


def cheapest(programme: Programme, teams: Sequence[Team]) -> Cheapest:
    """One draw of least cost; `programme` without prices."""
    network = _Network(programme, teams)
    for number, team in enumerate(teams):
        for _ in range(team.free if team.pairs else 0):
            network.add(number)
    prices = {slot: -network.potential.get((SLOT, slot), 0) for slot in programme.tree.free}
    return Cheapest(network.owners, {slot: price for slot, price in prices.items() if price})


class _Network:
    def __init__(self, programme: Programme, teams: Sequence[Team]) -> None:
        self.room = programme.tree.room
        self.first_slot = 2 * programme.tree.lines
        self.weights = [programme.weight(node) for node in range(1, self.first_slot)]
        self.teams = teams
        self.owners: dict[int, int] = {}
        self.count: dict[Place, int] = {}
        self.potential: dict[Place, int] = {}

    def add(self, team: int) -> None:
        """One more entrant of the team, on a cheapest way to a slot that nobody has."""
        start = team, 1
        distance, before, end = self._search(start)
        for place, far in distance.items():
            if far < distance[end]:
                self.potential[place] = self.potential.get(place, 0) + far - distance[end]
        self.count[start] = self.count.get(start, 0) + 1
        while end != start:
            self._pass(before[end], end)
            end = before[end]

    def _search(self, start: Place) -> tuple[dict[Place, int], dict[Place, Place], Place]:
        """Dijkstra's distances as far as the first free slot, and the ways there."""
        best, before, settled = {start: 0}, {start: start}, set[Place]()
        queue = [(0, 0, start)]
        while True:
            far, _, place = heappop(queue)
            if place in settled:
                continue
            settled.add(place)
            if place[0] == SLOT and place[1] not in self.owners:
                break
            here = self.potential.get(place, 0)
            for onward, cost in self._ways(place):
                reached = far + cost + here - self.potential.get(onward, 0)
                if onward not in settled and reached < best.get(onward, reached + 1):
                    best[onward], before[onward] = reached, place
                    heappush(queue, (reached, -onward[1], onward))
        return {one: best[one] for one in settled}, before, place

    def _ways(self, place: Place) -> Iterator[tuple[Place, int]]:
        team, node = place
        if team == SLOT:
            yield (self.owners[node], node >> 1), 0
            return
        if node > 1 and self.count.get(place, 0):
            yield (team, node >> 1), -self.weights[node - 1] * (self._there(place) - 1)
        for half in (2 * node, 2 * node + 1):
            if half >= self.first_slot:
                if self.room[half] and self.owners.get(half) != team:
                    yield (SLOT, half), 0
            elif self.room[half]:
                yield (team, half), self.weights[half - 1] * self._there((team, half))

    def _there(self, place: Place) -> int:
        return self.count.get(place, 0) + len(inside(self.teams[place[0]].fixed, place[1]))

    def _pass(self, one: Place, other: Place) -> None:
        """Move a unit along; who is pushed out of a slot goes up to look for another."""
        if other[0] == SLOT:
            self.owners[other[1]] = one[0]
        elif one[0] != SLOT:
            down = other[1] > one[1]
            place = other if down else one
            self.count[place] = self.count.get(place, 0) + (1 if down else -1)
