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
        self.seen: dict[Stand, Outlook] = {}

    def standing(self) -> Outlook:
        """Of who stands in an open bout; the last of several that he has by rulings."""
        stands = [
            (key, slot)
            for key, state in self.at.states.items()
            for slot, who in enumerate(state.sides)
            if who == self.entry and state.status in OPEN and self.at.plan.nodes[key].side != "pool"
        ]
        return self.of(stands[-1])

    def of(self, stand: Stand) -> Outlook:
        """Of who stands there."""
        if stand not in self.seen:
            self.seen[stand] = self.first(*stand)
        return self.seen[stand]

    def first(self, key: Key, slot: int) -> Outlook:
        """The bout is wrestled, and may be won or lost."""
        state = self.at.states[key]
        if state.status == "spared" and not self.hypothetical:
            return self.leaving(key, slot == 0)
        other = (state.meant if self.hypothetical else state.sides)[1 - slot]
        if self.at.plan.nodes[key].need and other is None:  # it will be spared
            return self.leaving(key, slot == 0)
        ways = [self.leaving(key, True)]
        if other is not None:
            ways.append(self.leaving(key, False))
        low = lowest(ways)
        return Outlook(low.place, low.known and other != UNKNOWN)

    def leaving(self, key: Key, won: bool) -> Outlook:
        """As winner or loser of a bout; nowhere where a ruling has set the seat or the exit."""
        onward = self.users.get(Exit(key, won))
        rulings = Rulings() if self.hypothetical else self.facts.rulings
        if (key, won) in rulings.ends if onward is None else onward in rulings.seats:
            return Outlook(None, True)
        if onward is not None:
            return self.of(onward)
        node = self.at.plan.nodes[key]
        return Outlook(node.win_place if won else node.lose_place, True)

    def seat(self, key: Key, slot: int) -> Outlook:
        """Of who comes to a side of a bout by the format."""
        if (key, slot) in self.facts.rulings.seats:
            return Outlook(None, True)
        return self.of((key, slot))
