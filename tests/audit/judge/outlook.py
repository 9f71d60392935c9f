"""What can still happen to an entry: the lowest place, and whether it is known who is on the way.

"Credited as soon as a place is certain, at the lowest place that can still happen to the wrestler,
whether he wins or loses; against a side to which nobody can come any more he cannot lose."
"""

from __future__ import annotations

from dataclasses import dataclass

from tests.audit.judge.facts import Facts, Rulings
from tests.audit.judge.model import UNKNOWN, Exit, Key
from tests.audit.judge.standing import Standing

OPEN = ("waiting", "ready")
Stand = tuple[Key, int]  # a bout, and on which side of it


@dataclass(frozen=True)
class Outlook:
    """`place`: the lowest one, None where it may be none.

    `known`: on one way to it all are known who could be met.
    """

    place: int | None
    known: bool


def lowest(ways: list[Outlook]) -> Outlook:
    """The lowest of several ways; no place is lower than any."""
    places = [way.place for way in ways]
    low = None if None in places else max(place for place in places if place is not None)
    return Outlook(low, any(way.known for way in ways if way.place == low))


class Future:
    """The bouts to come of one entry.

    `hypothetical`: he is out, and asked is what could have happened to him; then he could have lost
    a challenge too that is spared without him. What was certain to him is so as the format has it,
    whatever rulings seat others there.
    """

    def __init__(self, at: Standing, facts: Facts, entry: str, hypothetical: bool = False) -> None:
        self.at, self.facts, self.entry = at, facts, entry
        self.hypothetical = hypothetical
        self.users = at.plan.users()
        self.order = list(at.plan.nodes)
        self.seen: dict[frozenset[Stand], Outlook] = {}

    def standing(self) -> Outlook:
        """Of who stands in bouts that are open."""
        return self.of(
            frozenset(
                (key, slot)
                for key, state in self.at.states.items()
                for slot, who in enumerate(state.sides)
                if who == self.entry
                and state.status in OPEN
                and self.at.plan.nodes[key].side != "pool"
            )
        )

    def of(self, stands: frozenset[Stand]) -> Outlook:
        """Of who stands in these bouts; by rulings they can be several."""
        if stands not in self.seen:
            self.seen[stands] = self.first(stands)
        return self.seen[stands]

    def first(self, stands: frozenset[Stand]) -> Outlook:
        """The first of the bouts is wrestled, and may be won or lost."""
        key, slot = min(stands, key=lambda stand: (self.order.index(stand[0]), stand[1]))
        rest = stands - {(key, slot)}
        state = self.at.states[key]
        if state.status == "spared" and not self.hypothetical:
            return self.leaving(key, slot == 0, rest)
        other = (state.meant if self.hypothetical else state.sides)[1 - slot]
        if (key, 1 - slot) in rest:  # by rulings he comes to both sides: a bye
            return self.leaving(key, True, rest - {(key, 1 - slot)})
        if self.at.plan.nodes[key].need and other is None:  # it will be spared
            return self.leaving(key, slot == 0, rest)
        ways = [self.leaving(key, True, rest)]
        if other is not None:
            ways.append(self.leaving(key, False, rest))
        low = lowest(ways)
        return Outlook(low.place, low.known and other != UNKNOWN)

    def leaving(self, key: Key, won: bool, rest: frozenset[Stand] = frozenset()) -> Outlook:
        """As winner or loser of a bout, still standing in the `rest`.

        The exit of the last bout in which he stands gives his place. Who is brought to a seat or
        an exit that a ruling has set goes nowhere.
        """
        onward = self.users.get(Exit(key, won))
        rulings = Rulings() if self.hypothetical else self.facts.rulings
        ruled = (key, won) in rulings.ends if onward is None else onward in rulings.seats
        if onward is not None and not ruled:
            return self.of(rest | {onward})
        if rest:
            return self.of(rest)
        if ruled:
            return Outlook(None, True)
        node = self.at.plan.nodes[key]
        return Outlook(node.win_place if won else node.lose_place, True)

    def seat(self, key: Key, slot: int) -> Outlook:
        """Of who comes to a side of a bout by the format."""
        if (key, slot) in self.facts.rulings.seats:
            return Outlook(None, True)
        return self.of(frozenset({(key, slot)}))
