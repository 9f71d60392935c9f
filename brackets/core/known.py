"""What is known only from what happened: victims, ranks in pools, whether a bout is needed."""

from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from enum import Enum

from brackets.core.errors import PoolOrderInvalid
from brackets.core.graph import Bracket
from brackets.core.sources import Needed, Ranked
from brackets.core.standing import BoutState, Occupant, Sides, Status, Vacancy
from brackets.core.wiring import Victim

OPEN, EMPTY = Vacancy.OPEN, Vacancy.EMPTY
SETTLED = (Status.DECIDED, Status.BYE, Status.VACANT, Status.SPARED)


class Need(Enum):
    """Whether a bout is needed: yes, no, or not known yet."""

    YES = "yes"
    NO = "no"
    OPEN = "open"


class Known:
    """A look at the states and values of a pass so far; puts in the values of specials.

    `ruled`: the values whose occupants are ruled. `bare`: those that the draw leaves empty, where
    they are.
    """

    def __init__(
        self,
        bracket: Bracket,
        states: Sequence[BoutState],
        values: list[Occupant],
        order: Sequence[Sequence[str]] | None,
        ruled: Collection[int],
    ) -> None:
        self.bracket, self.wiring = bracket, bracket.wiring
        self.states, self.values = states, values
        self.places = _places(bracket, order) if order and bracket.wiring.specials else {}
        self.ruled = ruled
        self.planned = {bracket.wiring.index[key] for key in bracket.bouts}
        self.bare = {value for value, one in enumerate(values) if one is EMPTY}

    def look_up(self, values: Iterable[int]) -> None:
        """Put in who the specials among these values are."""
        first = self.wiring.first_special
        for value in values:
            if value >= first:
                special = self.wiring.specials[value - first]
                if isinstance(special, Ranked):
                    self.values[value] = self._rank(special)
                else:
                    self.values[value] = self._victim(value, special)

    def _rank(self, special: Ranked) -> Occupant:
        """A rank, once all bouts of the pool are settled and it is ranked from outside."""
        pool = self.bracket.pools[special.pool]
        places = self.places
        if not places or not all(
            self.states[self.wiring.index[key]].status in SETTLED for key in pool.bouts
        ):
            return OPEN
        ranked = sorted(self.bracket.members(pool), key=lambda entry: places[entry])
        return ranked[special.rank - 1]

    def _victim(self, value: int, special: Victim) -> Occupant:
        """Whom the leader beat; nobody once there is no leader, or nobody can have met him.

        The leader stood in the bout and goes on from it, by its result or by a ruling; while that
        is open it is open whom he beat. By rulings he can stand in several bouts of the round, and
        in some of them alone.
        """
        leader = self.values[special.by]
        if leader is OPEN and any(map(self._may_beat, special.bouts)):
            return OPEN
        if self._none_by_the_draw(leader, special):
            self.bare.add(value)
        if not isinstance(leader, str):
            return EMPTY
        for i in (i for i in special.bouts if leader in self.states[i].sides):
            won, lost = self.values[2 * i], self.values[2 * i + 1]
            if lost is not EMPTY and won is OPEN:
                return OPEN
            if won == leader and lost not in (leader, EMPTY):
                return lost
        return EMPTY

    def _none_by_the_draw(self, leader: Occupant, special: Victim) -> bool:
        """Whether nobody is there by the draw: the leader had a bye of the draw in the round, or
        stood in no bout of it; whoever becomes the leader has; or the draw leaves none."""
        if leader is EMPTY:
            return special.by in self.bare
        if leader is OPEN:
            return not self.planned.intersection(special.bouts)
        stood = [self.states[i] for i in special.bouts if leader in self.states[i].sides]
        return not stood or any(state.drawn for state in stood)

    def _may_beat(self, i: int) -> bool:
        """Whether who goes on from bout i has beaten somebody in it, or may do so.

        By rulings nobody may go on from it, or he who is taken for its loser.
        """
        won, lost = self.values[2 * i], self.values[2 * i + 1]
        return EMPTY not in (won, lost) and (won is OPEN or won != lost)

    def drawn(self, i: int) -> bool:
        """Whether bout i has empty sides and the draw alone left them so; noted for those behind.

        A bye of the draw has no loser, and from a bout that it left to nobody nobody comes. In a
        chain it is the bye of the man who beat whoever would be there.
        """
        empty = [value for value in self.wiring.inputs[i] if self.values[value] is EMPTY]
        if not empty or any(one not in self.bare or one in self.ruled for one in empty):
            return False
        self.bare |= {2 * i, 2 * i + 1}
        return True

    def need(self, i: int, sides: Sides, *, told: bool) -> Need:
        """Whether bout i is needed between these sides; of open ones nothing is meant.

        A challenge that was wrestled (`told`) stands though the two have met by now.
        """
        needed = self.wiring.needed[i]
        if needed is None:
            return Need.YES
        if needed is Needed.LEVEL:
            return self._level(i)
        if needed is Needed.UNMET:
            if EMPTY in sides:
                return Need.NO
            met = any(
                state.status is Status.DECIDED and set(state.sides) == set(sides)
                for state in self.states
            )
            return Need.YES if told or not met else Need.NO
        before = self.states[self.wiring.inputs[i][0] // 2]
        if before.status not in SETTLED:
            return Need.OPEN
        lost = before.status is Status.DECIDED and before.winner == before.sides[1]
        return Need.YES if lost else Need.NO

    def _level(self, i: int) -> Need:
        before = self.states[:i]
        if any(state.status not in SETTLED for state in before):
            return Need.OPEN
        wins = Counter(state.winner for state in before if state.winner is not None)
        return Need.NO if max(wins.values(), default=0) > 1 else Need.YES


def _places(bracket: Bracket, order: Sequence[Sequence[str]]) -> dict[str, tuple[int, int]]:
    """Everyone's place in the ranking; of those who are level the better line goes before."""
    entries = tuple(bracket.entries())
    if sorted(one for group in order for one in group) != sorted(entries):
        raise PoolOrderInvalid(entries=", ".join(entries))
    lines = {entry: line for line, entry in enumerate(entries)}
    return {entry: (place, lines[entry]) for place, group in enumerate(order) for entry in group}
