"""What of a bracket's results still holds when an earlier fact changes, and what is made of it.

A verdict holds as long as the same two meet on the same sides of the same bout. For one that does
not, people choose. Choices cascade: a bout that keeps its two hands their seats on, so that bouts
behind it may hold again; the bracket is played from the start with what was ruled so far until no
verdict is left without an answer or a choice.
"""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from brackets.core.graph import BoutKey, Bracket
from brackets.core.rulings import Rulings, Seating, SeatRuling, seats
from brackets.core.sources import Seat, Section
from brackets.core.standing import BoutState, Sides, Standing


class Choice(StrEnum):
    """What becomes of a wrestled bout whose two do not meet any more.

    STANDS: it keeps them, by a ruling on its sides, and its result. AGAIN: it keeps them, its
    result is void. VOID: its result is void, and it waits for those whom the format brings now.
    """

    STANDS = "stands"
    VOID = "void"
    AGAIN = "again"


Played = Callable[[Collection[BoutKey], Rulings], Standing]
"""The standing with the verdicts of these bouts alone, under these rulings."""


@dataclass(frozen=True, slots=True)
class Replay:
    """`standing` with every verdict that still holds or stands.

    `chosen`: the bouts about which a choice was needed and made, in running order; a choice that
    was not needed is not among them. `lost`: those about which none is made yet, or none that
    agrees with the other choices; their verdicts do not count. `made`: the rulings that keep two
    wrestlers in a bout, in the order made. `brought`: each bout that such a ruling keeps, as it
    stood without it.
    """

    standing: Standing
    chosen: Mapping[BoutKey, Choice]
    lost: tuple[BoutKey, ...]
    made: tuple[SeatRuling, ...]
    brought: Mapping[BoutKey, BoutState]

    def without(self, key: BoutKey) -> BoutState:
        """The bout as it would stand if no choice kept its two there."""
        return self.brought.get(key, self.standing.bouts[key])

    @property
    def void(self) -> tuple[BoutKey, ...]:
        """The bouts whose results count for nothing."""
        return tuple(key for key, one in self.chosen.items() if one is not Choice.STANDS)


def replay(
    bracket: Bracket,
    told: Mapping[BoutKey, Sides],
    played: Played,
    rulings: Rulings = (),
    choices: Mapping[BoutKey, Choice] | None = None,
) -> Replay:
    """Play the bracket round by round, keeping each verdict whose two sides are as `told`.

    `told` names, for every bout with a verdict, who wrestled in it. A bout that is not needed any
    more keeps none. Linear in the number of rounds for every bout that keeps its two.
    """
    ruled: tuple[SeatRuling, ...] = ()
    brought: dict[BoutKey, BoutState] = {}
    while True:
        bouts = {one.bout for one in ruled}
        once = _Pass(bracket, told, played, (*rulings, *ruled), choices or {}, bouts)
        if once.keeping is None:
            break
        brought[once.keeping] = once.standing().bouts[once.keeping]
        ruled = (*ruled, _kept(bracket, once, once.keeping, told[once.keeping]))
    return Replay(once.standing(), once.chosen, tuple(once.lost), ruled, brought)


class _Pass:
    """One pass; stops at the first bout that has to be ruled to keep its two."""

    def __init__(
        self,
        bracket: Bracket,
        told: Mapping[BoutKey, Sides],
        played: Played,
        rulings: Rulings,
        choices: Mapping[BoutKey, Choice],
        ruled: Collection[BoutKey],
    ) -> None:
        self.told, self.played, self.rulings = told, played, rulings
        self.choices, self.ruled = choices, ruled
        self.kept: set[BoutKey] = set()
        self.chosen: dict[BoutKey, Choice] = {}
        self.lost: list[BoutKey] = []
        self.keeping: BoutKey | None = None
        for one in bracket.rounds:
            self._round([key for key in bracket.sources if key in told and key.round == one.code])

    def standing(self) -> Standing:
        return self.played(self.kept, self.rulings)

    def _round(self, keys: Collection[BoutKey]) -> None:
        if not keys or self.keeping is not None:
            return
        bouts = self.standing().bouts
        for key in keys:
            holds = bouts[key].sides == self.told[key] and bouts[key].takes_result
            if self.keeping is None:
                self._decide(key, holds=holds)

    def _decide(self, key: BoutKey, *, holds: bool) -> None:
        choice = self.choices.get(key)
        if holds and choice and key in self.ruled:
            self.chosen[key] = choice
            self.kept |= {key} if choice is Choice.STANDS else set()
        elif holds:
            self.kept.add(key)
        elif choice is None or key in self.ruled:
            self.lost.append(key)
        elif choice is Choice.VOID:
            self.chosen[key] = choice
        else:
            self.keeping = key


def _kept(bracket: Bracket, once: _Pass, key: BoutKey, sides: Sides) -> SeatRuling:
    """The ruling that keeps two wrestlers in a bout, each on his side whatever led him there.

    Where it hands a leader's seat back, bouts of his chain, which come earlier, hold or not anew.
    """

    def played(ruling: SeatRuling) -> Standing:
        rulings = (*once.rulings, ruling)
        return _Pass(bracket, once.told, once.played, rulings, once.choices, once.ruled).standing()

    top, bottom = (str(side) for side in sides)
    ruling = seats(bracket, played, key, (top, bottom), once.ruled)
    if bracket.round_of(key).section is Section.POOL:
        return ruling
    both = tuple(Seating(Seat(key, slot), one) for slot, one in enumerate((top, bottom)))
    return replace(ruling, ways=(*ruling.ways, *(one for one in both if one not in ruling.ways)))
