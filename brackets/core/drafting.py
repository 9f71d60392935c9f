"""From what people want to the ruling that says it, or a refusal that says why not."""

from collections.abc import Callable, Collection
from dataclasses import dataclass
from typing import Literal

from brackets.core.errors import NoSuchBout, RulingUnfit
from brackets.core.graph import Bracket
from brackets.core.rulings import (
    PlaceRuling,
    ResultRuling,
    Ruling,
    Rulings,
    SeatRuling,
    out_of_turn,
    seats,
    taking,
)
from brackets.core.sources import BoutKey, Seat, Section
from brackets.core.standing import AHEAD, BoutState, Standing, Status


@dataclass(frozen=True, slots=True)
class WantedSides:
    """These two in a bout, top and bottom; None: nobody."""

    bout: BoutKey
    entries: tuple[str | None, str | None]


@dataclass(frozen=True, slots=True)
class WantedAdvance:
    """An entry, or nobody, on one side of a bout."""

    seat: Seat
    entry: str | None


@dataclass(frozen=True, slots=True)
class WantedResult:
    """A side as the winner of a bout; None: nobody wins it."""

    bout: BoutKey
    winner: Literal[0, 1] | None


@dataclass(frozen=True, slots=True)
class WantedPlace:
    """An entry on a place, None for no place.

    Unless it is `shared`, the one who has the place alone takes the entry's own in exchange.
    """

    entry: str
    place: int | None
    shared: bool


Wanted = WantedSides | WantedAdvance | WantedResult | WantedPlace
Played = Callable[[Rulings], Standing]


def draft(bracket: Bracket, played: Played, wanted: Wanted) -> Ruling:
    """The ruling that does what is wanted, with the exchanges that it takes.

    `played`: the standing under more rulings than there are. Refuses what cannot be ruled.
    """
    if isinstance(wanted, WantedPlace):
        return _place(bracket, played(()), wanted)
    key = wanted.seat.bout if isinstance(wanted, WantedAdvance) else wanted.bout
    if key not in bracket.sources:
        raise NoSuchBout(bout=key)
    if isinstance(wanted, WantedResult):
        return _result(played(()).bouts[key], wanted)
    if bracket.round_of(key).section is Section.POOL:
        raise RulingUnfit("everyone meets everyone in the pool of bout {bout}", bout=key)
    if isinstance(wanted, WantedAdvance):
        _known(bracket, [wanted.entry])
        found = taking(bracket, played(()), wanted.seat, wanted.entry)
        return _fit(bracket, played, SeatRuling(key, found, whole=False))
    _known(bracket, wanted.entries)
    if wanted.entries[0] == wanted.entries[1]:
        raise RulingUnfit("both sides of bout {bout} would be the same", bout=key)
    ruled = seats(bracket, lambda one: played((one,)), key, wanted.entries)
    return _fit(bracket, played, ruled)


def _fit(bracket: Bracket, played: Played, ruling: SeatRuling) -> SeatRuling:
    """The ruling; refused where it says nothing new, or turns the order of bouts round."""
    if not ruling.ways:
        raise RulingUnfit("in bout {bout} it is so already", bout=ruling.bout)
    before = out_of_turn(bracket, played(()))
    for who, (ahead, done) in out_of_turn(bracket, played((ruling,))).items():
        if who not in before:
            raise RulingUnfit(
                "{who} has wrestled bout {done}, which comes after bout {ahead}; undo the result "
                "of {done} first",
                who=who,
                done=done,
                ahead=ahead,
            )
    return ruling


def _known(bracket: Bracket, entries: Collection[str | None]) -> None:
    drawn = set(bracket.entries())
    for entry in entries:
        if entry is not None and entry not in drawn:
            raise RulingUnfit("{who} is not drawn in this weight", who=entry)


def _result(state: BoutState, wanted: WantedResult) -> ResultRuling:
    top, bottom = state.sides
    met = state.status in (Status.READY, Status.DECIDED)
    if not met or not isinstance(top, str) or not isinstance(bottom, str):
        raise RulingUnfit(
            "bout {bout} has not both its wrestlers; rule who goes on instead", bout=state.key
        )
    return ResultRuling(wanted.bout, (top, bottom), wanted.winner)


def _place(bracket: Bracket, standing: Standing, wanted: WantedPlace) -> PlaceRuling:
    _known(bracket, [wanted.entry])
    if wanted.place is not None and not 1 <= wanted.place <= bracket.places:
        raise RulingUnfit(f"there are places 1 to {bracket.places}, no place {wanted.place}")
    ahead = [state.key for state in standing.bouts.values() if state.status in AHEAD]
    if ahead:
        raise RulingUnfit(
            f"bouts still to be decided: {len(ahead)}, the first {{bout}}; places can be ruled "
            "when all are decided",
            bout=ahead[0],
        )
    own = {entry: place for place, group in standing.places.items() for entry in group}
    ruled: dict[str, int | None] = {wanted.entry: wanted.place}
    holders = [one for one, place in own.items() if place == wanted.place != own.get(wanted.entry)]
    if len(holders) == 1 and not wanted.shared:
        ruled[holders[0]] = own.get(wanted.entry)
    return PlaceRuling(ruled, wanted.shared)
