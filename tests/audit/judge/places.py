"""Places: the final ones, and the worst that can still happen to each entry."""

from __future__ import annotations

from dataclasses import dataclass, field

from tests.audit.judge.facts import Facts
from tests.audit.judge.model import UNKNOWN, Exit, Key, Node, Rank, Seat
from tests.audit.judge.outlook import OPEN, Future
from tests.audit.judge.poolrank import pool_keys
from tests.audit.judge.standing import Standing, State


@dataclass
class Places:
    """`final`: entry to place. `running`: entry to the worst place that can still happen.

    `alone`: who has his place in full, as a side of a bout that nobody won.
    """

    final: dict[str, int] = field(default_factory=dict)
    running: dict[str, int] = field(default_factory=dict)
    alone: set[str] = field(default_factory=set)


class Placing:
    """Works out the places of a weight."""

    def __init__(self, at: Standing, facts: Facts) -> None:
        self.at, self.facts = at, facts
        self.users = at.plan.users()
        self.rule = facts.settings["bracket"]["open_place"]
        self.got = Places()
        # certain to who is out in a bout, and not yet given
        self.kept_only: dict[tuple[str, Key], int] = {}

    def work(self) -> Places:
        """Final places and running ones."""
        final = self.wrestled()
        final = {e: p for e, p in final.items() if self.may_place(e)}
        running = {e: p for e, p in self.guaranteed().items() if self.may_place(e)}
        running |= {e: p for (e, _), p in self.kept_only.items() if self.may_place(e)}
        running |= final
        if self.rule == "moved-up":
            final = self.moved_up(final)
        final = {e: p for e, p in final.items() if p <= self.facts.given}
        running = {e: p for e, p in running.items() if p <= self.facts.given}
        for entry, place in self.facts.rulings.places.items():
            final.pop(entry, None)
            running.pop(entry, None)
            self.got.alone.discard(entry)
            if place is not None:
                final[entry] = place
        self.got.running = running | final
        self.got.final = final
        return self.got

    def may_place(self, entry: str) -> bool:
        """Whether an entry may have a place at all."""
        return entry not in self.facts.vacating

    def wrestled(self) -> dict[str, int]:
        """The places that are taken for good, as wrestled.

        The exit of the last bout in which an entry stands gives his place, pools apart; an exit
        that is his by a ruling goes before that.
        """
        nodes = self.at.plan.nodes
        last = {
            entry: key
            for key, state in self.at.states.items()
            for entry in state.sides
            if nodes[key].side != "pool"
        }
        found: dict[str, int] = {}
        for claimant, bout in self.at.pending.items():
            self.out_in(nodes[bout], claimant)
        for (pool, rank), place in self.at.plan.pool_places.items():
            self.pool_place(pool, rank, place, found)
        found = {entry: place for entry, place in found.items() if entry not in last}
        for key, node in nodes.items():
            state = self.at.states[key]
            taken = {
                entry: place
                for entry, place in self.ends(node, state)
                if entry and place is not None and last.get(entry) == key
            }
            found |= taken
            shared = self.rule == "shared" and node.win_place is not None
            if self.rule != "moved-up" and not shared:
                self.got.alone |= set(taken) & set(state.lost_both)
        ruled = self.ruled_exits()
        self.kept_only = {
            (entry, key): place
            for (entry, key), place in self.kept_only.items()
            if key == last[entry] and entry not in ruled
        }
        self.got.alone -= set(ruled)
        return found | ruled

    def ruled_exits(self) -> dict[str, int]:
        """The places of exits that are somebody's by a ruling, the later ruled of two."""
        nodes = self.at.plan.nodes
        found: dict[str, int] = {}
        for (key, won), entry in self.facts.rulings.ends.items():
            if key in nodes and Exit(key, won) not in self.users and entry:
                place = nodes[key].win_place if won else nodes[key].lose_place
                found |= {entry: place} if place is not None else {}
        return found

    def pool_place(self, pool: int, rank: int, place: int, found: dict[str, int]) -> None:
        """A place that a rank of a pool has without a bout; tied entries share the better one."""
        start = 1
        alone = len(self.at.plan.pools) == 1
        groups = self.at.order[pool]
        if not alone:
            groups = [[entry] for group in groups for entry in group]
        for group in groups:
            if start == rank:
                found |= dict.fromkeys(group, place)
            start += len(group)

    def ends(self, node: Node, state: State) -> list[tuple[Seat, int | None]]:
        """Whose way ends in a bout by the format, and with which place."""
        found: list[tuple[Seat, int | None]] = []
        for won in (True, False):
            ruled = (node.key, won) in self.facts.rulings.ends
            if Exit(node.key, won) not in self.users and not ruled:
                who = state.winner if won else state.loser
                found.append((who, node.win_place if won else node.lose_place))
        return found + [(entry, self.out_in(node, entry)) for entry in state.lost_both]

    def out_in(self, node: Node, entry: str) -> int | None:
        """The place of a side when nobody won: of a placing bout, or the one certain already.

        Certain is the lowest behind the bout as he lost it. None before it is given, which is once
        all who could meet him on his way are known.
        """
        if node.win_place is not None:
            return node.win_place if self.rule == "shared" else node.lose_place
        could = Future(self.at, self.facts, entry, hypothetical=True).leaving(node.key, won=False)
        waits = self.at.pending.get(entry) == node.key
        if could.place is None or (could.known and not waits):
            return could.place
        self.kept_only[entry, node.key] = could.place
        return None

    def guaranteed(self) -> dict[str, int]:
        """The place that is certain to each entry who still has a bout."""
        stands: dict[str, set[bool]] = {}
        for key, state in self.at.states.items():
            for entry in state.sides:
                if entry and self.at.plan.nodes[key].side != "pool":
                    stands.setdefault(entry, set()).add(state.status in OPEN)
        found = {e: p for e, p in self.pool_guaranteed().items() if e not in stands}
        for entry in (entry for entry, opened in stands.items() if True in opened):
            place = Future(self.at, self.facts, entry).standing().place
            if place is not None:
                found[entry] = place
        return found

    def pool_guaranteed(self) -> dict[str, int]:
        """In a pool: passed by everyone who can reach the wins that he has on the mat."""
        found: dict[str, int] = {}
        plan, holders = self.at.plan, self.facts.holders()
        for number, pool in enumerate(plan.pools):
            if len(self.at.order) > number and self.at.order[number]:
                continue
            keys = pool_keys(self.at, pool)
            starts = [(line.index, line.half) for line in pool]
            entries = [holders[start] for start in starts if start in holders]
            for entry in entries:
                sure = self.wins(keys, entry, on_mat=True)
                rank = 1 + sum(
                    self.wins(keys, other, on_mat=False) + self.left(keys, other) >= sure
                    for other in entries
                    if other != entry
                )
                worst = [self.pool_worst(entry, number, one) for one in range(1, rank + 1)]
                low = [place for place in worst if place is not None]
                if len(low) == len(worst):
                    found[entry] = max(low)
        return found

    def pool_worst(self, entry: str, pool: int, rank: int) -> int | None:
        """The worst place of a rank in a pool: that which it has, or of the bout it leads to."""
        for key, node in self.at.plan.nodes.items():
            for slot, source in enumerate(node.sources):
                if source == Rank(pool, rank):
                    return Future(self.at, self.facts, entry).seat(key, slot).place
        return self.at.plan.pool_places.get((pool, rank))

    def wins(self, keys: list[Key], entry: str, on_mat: bool) -> int:
        """Wins of an entry so far."""
        states = [self.at.states[key] for key in keys]
        return sum(s.winner == entry and not (on_mat and s.implied) for s in states)

    def left(self, keys: list[Key], entry: str) -> int:
        """Bouts that an entry still has: who left after them has missed none."""
        states = [self.at.states[key] for key in keys]
        return sum(s.status in ("waiting", "ready") and entry in s.sides for s in states)

    def moved_up(self, final: dict[str, int]) -> dict[str, int]:
        """A place is one more than the number of entries placed better, once these are final."""
        return {
            entry: min(place, 1 + sum(other < place for other in final.values()))
            for entry, place in final.items()
            if self.settled_above(place)
        }

    def settled_above(self, place: int) -> bool:
        """Whether it is known of all better places who has them, or that nobody has.

        An exit that leads on gives none itself; who is out and waits for his may still get another.
        """
        if any(other < place for other in self.kept_only.values()):
            return False
        for key, node in self.at.plan.nodes.items():
            state = self.at.states[key]
            exits = (True, node.win_place, state.winner), (False, node.lose_place, state.loser)
            for won, given, who in exits:
                ends = (
                    Exit(key, won) not in self.users and (key, won) not in self.facts.rulings.ends
                )
                if ends and given is not None and given < place and who == UNKNOWN:
                    return False
        return True
