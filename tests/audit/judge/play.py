"""How a weight stands: who is in each bout, and who goes on where."""

from __future__ import annotations

from dataclasses import dataclass, field

from .facts import Facts, Result
from .model import UNKNOWN, Beaten, Exit, Key, Line, Node, Plan, Rank, Seat, Source


@dataclass
class State:
    """A bout as it stands. `drawn`: a bye, or a vacant bout, that the draw made."""

    sides: tuple[Seat, Seat]
    status: str
    winner: Seat = UNKNOWN
    loser: Seat = UNKNOWN
    implied: bool = False
    ruled: bool = False
    drawn: bool = False
    lost_both: tuple[str, ...] = ()


@dataclass
class Standing:
    """All bouts of a weight; `order`: of each pool, best first, those still tied together."""

    plan: Plan
    states: dict[Key, State] = field(default_factory=dict)
    order: list[list[list[str]]] = field(default_factory=list)
    adrift: list[tuple[str, Key]] = field(default_factory=list)


class Pass:
    """One pass over a plan."""

    def __init__(self, plan: Plan, facts: Facts) -> None:
        self.plan, self.facts = plan, facts
        self.at = Standing(plan)
        self.users = plan.users()
        self.holders = facts.holders()
        self.claims: dict[Key, str] = {}
        self.rank = {key: i for i, key in enumerate(plan.nodes)}

    def play(self) -> Standing:
        """Every bout in running order."""
        from .poolrank import rank_pools

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
        """Whom the winner of the leader's bout beat in a round."""
        if not self.possible(source):
            return None, True
        leader = self.at.states[source.leader].winner
        if leader == UNKNOWN:
            return UNKNOWN, False
        if leader is None:
            return None, self.at.states[source.leader].drawn
        for (code, _), state in self.at.states.items():
            if code == source.code and leader in state.sides:
                won = state.winner == leader
                return (state.loser if won else None), state.drawn
        return None, True  # he had no bout in that round: not a pigtail's winner

    def bout(self, node: Node) -> State:
        """A bout from its sides."""
        seats = [self.seat(node.key, slot, s) for slot, s in enumerate(node.sources)]
        sides = (seats[0][0], seats[1][0])
        empty = [drawn for seat, drawn in seats if seat is None]
        state = State(sides, "waiting", drawn=bool(empty) and all(empty))
        needed = self.needed(node, sides)
        if needed is not True:
            if needed is False:
                state.status, state.winner, state.loser = "spared", None, None
            return state
        self.decide(node, state)
        self.exits(node, state)
        return state

    def needed(self, node: Node, sides: tuple[Seat, Seat]) -> bool | None:
        """Whether a bout is needed; None while that is not known."""
        if not node.need or node.key in self.facts.rulings.whole:
            return True
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
        if None in sides:
            return False
        return None if UNKNOWN in sides else not self.met(sides)

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
        result = self.facts.results.get(node.key)
        if result and top and bottom and not self.again(result):
            self.won(node, state, result.winner)
            return
        if UNKNOWN in (top, bottom):
            return
        if top is None or bottom is None:
            state.status = "vacant" if top is bottom else "bye"
            state.winner, state.loser = top if bottom is None else bottom, None
            return
        state.status = "ready"
        out = [side for side in (top, bottom) if side in self.facts.left]
        if not out:
            return
        state.implied = True
        self.won(node, state, self.implied_winner(node.key, top, bottom, out))

    def again(self, result: Result) -> bool:
        """Whether a no contest is wrestled again."""
        rule = self.facts.settings["results"]["no_contest"]
        return result.kind == "no contest" and rule == "again"

    def implied_winner(self, key: Key, top: str, bottom: str, out: list[str]) -> str | None:
        """Who has won a bout with somebody who is out.

        Both out: nobody, unless one of them had won it by the time he left.
        """
        if len(out) == 1:
            return bottom if out[0] == top else top
        behind = [side for side in out if self.behind(side, key)]
        return behind[0] if len(behind) == 1 else None

    def behind(self, entry: str, key: Key) -> bool:
        """Whether a bout was behind an entry when he left."""
        last = self.facts.left.get(entry)
        return last is not None and self.rank[key] <= self.rank.get(last, -1)

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
        if self.drops(node):
            state.loser = top
            out = [bottom] if bottom and not self.claim(node.key, bottom) else []
        state.lost_both = tuple(out)

    def drops(self, node: Node) -> bool:
        """Whether both sides of a bout that nobody won drop as losers."""
        rule = self.facts.settings["bracket"]["double_loss"]
        return rule == "drop" and node.side == "championship"

    def claim(self, key: Key, entry: str) -> bool:
        """The bottom side takes the loser's line of the next championship bout, if there is one."""
        onward = self.users.get(Exit(key, True))
        if onward is None or self.plan.nodes[onward[0]].side != "championship":
            return False
        target = onward[0]
        if target in self.claims or Exit(target, False) not in self.users:
            return False
        if not self.drawn_bout(target):
            return False
        self.claims[target] = entry
        return True

    def drawn_bout(self, key: Key) -> bool:
        """Whether a bout is wrestled if everyone appears."""
        return all(self.possible(source) for source in self.plan.nodes[key].sources)

    def possible(self, source: Source) -> bool:
        """Whether the draw can bring somebody from a source."""
        if isinstance(source, Line):
            return (source.index, source.half) in self.holders
        if isinstance(source, Rank):
            return source.rank <= len(self.plan.pools[source.pool])
        if isinstance(source, Exit):
            sides = [self.possible(s) for s in self.plan.nodes[source.key].sources]
            return any(sides) if source.won else all(sides)
        return any(
            self.drawn_bout(key)
            for key in self.plan.nodes
            if key[0] == source.code and self.leads(key, source.leader)
        )

    def leads(self, key: Key, leader: Key) -> bool:
        """Whether the winner of a bout can be in a later championship bout."""
        while key != leader:
            onward = self.users.get(Exit(key, True))
            if onward is None:
                return False
            key = onward[0]
        return True

    def exits(self, node: Node, state: State) -> None:
        """Rulings on where a way ends, and a loser's line that was taken."""
        if node.key in self.claims:
            state.loser = self.claims[node.key]
        for won in (True, False):
            ruled = self.facts.rulings.ends.get((node.key, won), UNKNOWN)
            if ruled != UNKNOWN:
                setattr(state, "winner" if won else "loser", ruled)
