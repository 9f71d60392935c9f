"""How a weight stands: who is in each bout, and who goes on where."""

from __future__ import annotations

from tests.audit.judge.draw import Draw
from tests.audit.judge.facts import Facts, Result
from tests.audit.judge.model import UNKNOWN, Beaten, Exit, Key, Line, Node, Plan, Rank, Seat, Source
from tests.audit.judge.poolrank import rank_pools
from tests.audit.judge.standing import Standing, State


class Pass:
    """One pass over a plan."""

    def __init__(self, plan: Plan, facts: Facts) -> None:
        self.plan, self.facts = plan, facts
        self.at = Standing(plan)
        self.users = plan.users()
        self.holders = facts.holders()
        self.draw = Draw(plan, self.holders)
        self.claims: dict[Key, str] = {}

    def play(self) -> Standing:
        """Every bout in running order."""
        ranked = not self.plan.pools
        for key, node in self.plan.nodes.items():
            if not ranked and node.side != "pool":
                self.at.order, ranked = rank_pools(self.at, self.facts), True
            self.at.states[key] = self.bout(node)
        if not ranked:
            self.at.order = rank_pools(self.at, self.facts)
        return self.at

    def seat(self, key: Key, slot: int, source: Source) -> tuple[Seat, bool]:
        """Who sits there, and whether the draw left it empty."""
        if (key, slot) in self.facts.rulings.seats:
            return self.facts.rulings.seats[key, slot], False
        return self.comes(source)

    def comes(self, source: Source) -> tuple[Seat, bool]:
        """Whom the format brings from a source."""
        if isinstance(source, Line):
            return self.holders.get((source.index, source.half)), True
        if isinstance(source, Exit):
            state = self.at.states[source.key]
            return (state.winner if source.won else state.loser), state.drawn
        if isinstance(source, Beaten):
            return self.beaten(source)
        assert isinstance(source, Rank)
        order = self.at.order[source.pool] if self.at.order else []
        flat = [entry for group in order for entry in group]
        if not flat:
            return UNKNOWN, False
        return (flat[source.rank - 1] if source.rank <= len(flat) else None), True

    def beaten(self, source: Beaten) -> tuple[Seat, bool]:
        """Whom he who has gone on from the leader's bout beat in a round.

        Read here: in the part of the bracket that leads to that bout.
        """
        leader = self.gone_on(source.leader)
        if leader == UNKNOWN:
            drawn = not self.draw.brings(source)
            return (UNKNOWN if self.may_have_beaten(source) else None), drawn
        if leader is None:
            return None, self.at.states[source.leader].drawn
        stood = [key for key in self.round_below(source) if leader in self.at.states[key].sides]
        drawn = not stood or any(self.at.states[key].drawn for key in stood)
        for key in stood:
            loser = self.lost(key)
            if loser is not None and self.gone_on(key) == UNKNOWN:
                return UNKNOWN, False
            if loser is not None and self.gone_on(key) == leader:  # the upper one, of two
                return (loser if loser != leader else None), drawn
        return None, drawn

    def round_below(self, source: Beaten) -> list[Key]:
        """The bouts of a round, top to bottom, in the part that leads to the leader's bout."""
        return [
            key
            for key in self.at.states
            if key[0] == source.code
            and source.at in (None, key[1])
            and self.draw.leads(key, source.leader)
        ]

    def lost(self, key: Key) -> Seat:
        """Who is taken for the loser of a bout, by ruling or as it went."""
        return self.facts.rulings.ends.get((key, False), self.at.states[key].loser)

    def may_have_beaten(self, source: Beaten) -> bool:
        """Whether whoever becomes the leader may have beaten somebody in a round."""
        for key in self.round_below(source):
            winner, loser = self.gone_on(key), self.lost(key)
            if None not in (winner, loser) and (winner == UNKNOWN or winner != loser):
                return True
        return False

    def gone_on(self, key: Key) -> Seat:
        """Who has gone on from a bout: its winner, or whom a ruling has in his seat."""
        usual = self.at.states[key].winner
        return self.facts.rulings.seats.get(self.users[Exit(key, True)], usual)

    def bout(self, node: Node) -> State:
        """A bout from its sides."""
        seats = [self.seat(node.key, slot, s) for slot, s in enumerate(node.sources)]
        meant = (seats[0][0], seats[1][0])
        if meant[0] == meant[1] not in (None, UNKNOWN):
            seats[1] = (None, False)  # by rulings he comes to both sides: a bye
        sides = (seats[0][0], seats[1][0])
        empty = [drawn for seat, drawn in seats if seat is None]
        state = State(sides, "waiting", drawn=bool(empty) and all(empty), meant=meant)
        needed = self.needed(node, sides)
        if needed is not True:
            if needed is False:
                state.status, (state.winner, state.loser) = "spared", sides
            elif sides[1] is None:  # wrestled or spared: nobody loses it
                state.loser = None
            return state
        self.decide(node, state)
        if node.key in self.claims:
            state.loser = self.claims[node.key]
        return state

    def needed(self, node: Node, sides: tuple[Seat, Seat]) -> bool | None:
        """Whether a bout is needed; None while that is not known."""
        ruled = self.facts.rulings.results.get(node.key)
        if not node.need or node.key in self.facts.rulings.whole or (ruled and ruled[0] == sides):
            return True
        if sides == (None, None):
            return True  # vacant, as any other
        if node.need == "third of three":
            first, second = self.at.states["RR1", 1], self.at.states["RR2", 1]
            if UNKNOWN in (first.winner, second.winner):
                return None
            return first.winner is None or first.winner != second.winner
        if node.need == "unbeaten lost":
            title = self.at.states["1st", 1]
            if title.winner == UNKNOWN:
                return None
            return title.status == "decided" and title.winner == title.sides[1] is not None
        return self.challenged(node.key, sides)

    def challenged(self, key: Key, sides: tuple[Seat, Seat]) -> bool | None:
        """Whether a challenge is wrestled: both are there, and it was, or they have not met."""
        if UNKNOWN in sides:
            return None
        return None not in sides and (key in self.facts.results or not self.met(sides))

    def met(self, sides: tuple[Seat, Seat]) -> bool:
        """Whether the two have been in one bout before."""
        return any(
            set(state.sides) == set(sides) and state.status == "decided"
            for state in self.at.states.values()
        )

    def decide(self, node: Node, state: State) -> None:
        """Whether and how it is decided."""
        top, bottom = state.sides
        ruled = self.facts.rulings.results.get(node.key)
        if ruled and ruled[0] == (top, bottom):
            state.ruled = True
            self.won(node, state, ruled[1])
            return
        theirs = set(self.facts.met.get(node.key, state.sides)) == set(state.sides)
        result = self.facts.results.get(node.key) if theirs else None
        if result and top and bottom and not self.again(result):
            self.won(node, state, result.winner)
            return
        if None in (top, bottom):
            state.loser = UNKNOWN if self.may_be_claimed(node) else None
        if UNKNOWN in (top, bottom):
            return
        if top is None or bottom is None:
            state.status = "vacant" if top is bottom else "bye"
            state.winner = top if bottom is None else bottom
            return
        state.status = "ready"
        out = [side for side in (top, bottom) if self.is_out(side, node)]
        if len(out) == 2 and node.side == "pool":
            # who left after it wins over who had left before
            gone = [side for side in out if self.left_before(side, node)]
            out = gone if len(gone) == 1 else out
        if not out:
            return
        state.implied = True
        self.won(node, state, None if len(out) == 2 else bottom if out[0] == top else top)

    def again(self, result: Result) -> bool:
        """Whether a no contest is wrestled again."""
        rule = self.facts.settings["results"]["no_contest"]
        return result.kind == "no contest" and rule == "again"

    def is_out(self, entry: str, node: Node) -> bool:
        """Whether an entry loses a bout without a result because he has left.

        He loses what comes after his last bout in running order; in a pool every bout, unless he
        left behind the pools.
        """
        if entry not in self.facts.left:
            return False
        last = self.facts.left[entry]
        if node.side == "pool" and (last is None or last[0].startswith("RR")):
            return True
        return self.left_before(entry, node)

    def left_before(self, entry: str, node: Node) -> bool:
        """Whether a bout comes after the last one of who has left, in running order.

        The order is that of the whole bracket: in a standing without challenges he may have left
        in a bout that is not there.
        """
        last = self.facts.left[entry]
        if last is None:
            return True
        times = self.facts.times
        return last in times and (node.time, node.key[1]) > (times[last], last[1])

    def won(self, node: Node, state: State, winner: str | None) -> None:
        """A bout is decided."""
        state.status = "decided"
        top, bottom = state.sides
        state.winner = winner
        if winner is not None:
            state.loser = bottom if winner == top else top
            return
        state.loser = None
        out = [side for side in (top, bottom) if side]
        if self.drops(node) and not state.implied:
            state.loser = top
            claimed = bottom is None or self.claim(node.key, bottom)
            out = [bottom] if bottom and not claimed else []
        state.lost_both = tuple(out)

    def drops(self, node: Node) -> bool:
        """Whether both sides of a bout that nobody won drop as losers: to lines of their own."""
        rule = self.facts.settings["bracket"]["double_loss"]
        own = Exit(node.key, False) in self.users
        return rule == "drop" and node.side == "championship" and own

    def claim(self, key: Key, entry: str) -> bool:
        """The bottom side takes the loser's line of the next championship bout, if there is one.

        While the bout above it can still be lost by both, it is open whose line that is.
        """
        onward = self.users.get(Exit(key, True))
        if onward is None or self.plan.nodes[onward[0]].side != "championship":
            return False
        target = onward[0]
        drops = self.drops(self.plan.nodes[target]) and self.draw.wrestled(target)
        if target in self.claims or not drops:
            return False
        if self.facts.rulings.seats.get(onward) is not None:
            return False  # somebody is seated there, so that the bout is wrestled
        if onward[1] == 1 and self.still_lost(target, 0):
            self.claims[target] = UNKNOWN
            self.at.pending[entry] = key
            return True
        self.claims[target] = entry
        return True

    def may_be_claimed(self, node: Node) -> bool:
        """Whether a side of an earlier bout may still take the loser's line of a bye."""
        if not self.drops(node) or not self.draw.wrestled(node.key):
            return False
        return any(self.still_lost(node.key, slot) for slot in (0, 1))

    def still_lost(self, target: Key, slot: int) -> bool:
        """Whether the bout on this side of a bout can still be lost by both, to claim its line."""
        above = self.plan.nodes[target].sources[slot]
        if not isinstance(above, Exit) or self.facts.rulings.seats.get((target, slot)) is not None:
            return False
        node, state = self.plan.nodes[above.key], self.at.states[above.key]
        if state.status not in ("waiting", "ready") or not self.drops(node):
            return False
        return not any(side is None or (side and self.is_out(side, node)) for side in state.sides)
