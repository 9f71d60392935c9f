"""Places: the final ones, and the worst that can still happen to each entry."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from brackets.core.errors import PoolOrderInvalid
from brackets.core.graph import Bracket, Wiring
from brackets.core.rules import OpenPlace
from brackets.core.standing import Occupant, Status, Vacancy
from brackets.core.walk import Walk

NOWHERE = 1_000
"""Worse than every place: a way that ends without one."""

Groups = dict[int, list[str]]


@dataclass(frozen=True, slots=True)
class Placing:
    """`final`: place to entries. `guaranteed`: entry to the worst place still possible."""

    final: Mapping[int, tuple[str, ...]]
    guaranteed: Mapping[str, int]


def elimination_places(
    bracket: Bracket, walked: Walk, open_place: OpenPlace, vacating: frozenset[str]
) -> Placing:
    """Places of an elimination; see `progress` for places that nobody takes."""
    ways, seats = _worst(bracket.wiring, walked)
    groups, settled = _taken(bracket.wiring, walked)
    guaranteed: dict[str, int] = {}
    for entry, i in walked.stopped:
        shared = bracket.wiring.places[i] is not None and open_place is OpenPlace.SHARED
        way = 2 * i if shared else 2 * i + 1
        line = way if walked.states[i].implied else walked.inherits.get(i, way)
        waits = walked.values[line] is Vacancy.OPEN
        guaranteed[entry] = place = max(ways[way], ways[line] if waits else 0)
        groups.setdefault(place, []).append(entry)
        if waits or not _certain(bracket.wiring, walked.values, way):
            settled.discard(place)
    for i, state in enumerate(walked.states):
        if state.status in (Status.WAITING, Status.READY):
            for slot, side in enumerate(state.sides):
                if isinstance(side, str):
                    guaranteed[side] = seats[2 * i + slot]
    guaranteed |= {entry: place for place, group in groups.items() for entry in group}
    known = {place: group for place, group in groups.items() if place in settled}
    allowed = _allowed(known, vacating)
    final = _moved_up(allowed, settled) if open_place is OpenPlace.MOVED_UP else allowed
    return _placing(final, guaranteed, bracket.places, vacating)


def _worst(wiring: Wiring, walked: Walk) -> tuple[list[int], list[int]]:
    """Worst place behind every way out of a bout, and for everyone who sits in one.

    Backwards from the placing bouts. Against an empty side one cannot lose. The bottom side may
    come to take another line than the bout's own loser's line.
    """
    values, inherits = walked.values, walked.inherits
    ways = [NOWHERE] * len(wiring.onward)
    seats = [NOWHERE] * len(wiring.onward)
    for i in range(len(wiring.keys) - 1, -1, -1):
        win, loss = 2 * i, 2 * i + 1
        if (places := wiring.places[i]) is not None:
            ways[win], ways[loss] = places
        else:
            for way in (win, loss):
                if (seat := wiring.onward[way]) >= 0:
                    ways[way] = seats[seat]
        top, bottom = wiring.inputs[i]
        worst = max(ways[win], ways[loss])
        seats[win] = ways[win] if values[bottom] is Vacancy.EMPTY else worst
        worst = max(worst, ways[inherits.get(i, loss)])
        seats[loss] = ways[win] if values[top] is Vacancy.EMPTY else worst
    return ways, seats


def _certain(wiring: Wiring, values: Sequence[Occupant], way: int) -> bool:
    """Whether nothing can change any more about the worst place behind a way."""
    if (seat := wiring.onward[way]) < 0:
        return True
    bout, slot = divmod(seat, 2)
    other = values[wiring.inputs[bout][1 - slot]]
    if other is Vacancy.OPEN:
        return False
    ahead = (2 * bout,) if other is Vacancy.EMPTY else (2 * bout, 2 * bout + 1)
    return all(_certain(wiring, values, one) for one in ahead)


def _taken(wiring: Wiring, walked: Walk) -> tuple[Groups, set[int]]:
    """Who won and lost the placing bouts, and the places about which nothing can change."""
    groups: Groups = {}
    settled: set[int] = set()
    for places, state in zip(wiring.places, walked.states, strict=True):
        if places is None or state.status in (Status.WAITING, Status.READY):
            continue
        settled.update(places)
        for place, entry in zip(places, (state.winner, state.loser), strict=True):
            if entry is not None:
                groups[place] = [entry]
    return groups, settled


def _allowed(groups: Mapping[int, Sequence[str]], vacating: frozenset[str]) -> Groups:
    kept = {place: [one for one in groups[place] if one not in vacating] for place in groups}
    return {place: kept[place] for place in sorted(kept) if kept[place]}


def _moved_up(groups: Groups, settled: set[int]) -> Groups:
    """Everybody at one more than the number placed better, as far as that number is certain.

    Nobody moves down where a better place is shared by more than it has room for.
    """
    final: Groups = {}
    better = 0
    for place in range(1, max(groups, default=0) + 1):
        if place not in settled:
            break
        if group := groups.get(place):
            final[min(place, better + 1)] = group
            better += len(group)
    return final


def _placing(
    final: Groups, guaranteed: dict[str, int], places: int, vacating: frozenset[str]
) -> Placing:
    given = {place: tuple(group) for place, group in final.items() if place <= places}
    worst = guaranteed | {entry: place for place, group in final.items() for entry in group}
    return Placing(
        given,
        {one: place for one, place in worst.items() if place <= places and one not in vacating},
    )


def pool_places(
    bracket: Bracket,
    walked: Walk,
    open_place: OpenPlace,
    vacating: frozenset[str],
    order: Sequence[Sequence[str]] | None,
) -> Placing:
    """Places of a round robin: by `order` when every bout is decided.

    Until then an entry may still be passed by everyone who can reach the wins that he has on the
    mat (a forfeit of somebody who is out is lost when he leaves too).
    """
    entries = tuple(bracket.entries())
    wins = dict.fromkeys(entries, 0)
    most = dict.fromkeys(entries, 0)
    for state in walked.states:
        if state.winner is not None:
            wins[state.winner] += not state.implied
            most[state.winner] += 1
        elif state.status is Status.READY:
            for side in state.sides:
                most[str(side)] += 1
    worst = {one: sum(most[other] >= wins[one] for other in entries) for one in entries}
    if order is None or any(state.status is Status.READY for state in walked.states):
        return _placing({}, worst, bracket.places, vacating)
    if sorted(one for group in order for one in group) != sorted(entries):
        raise PoolOrderInvalid(entries=", ".join(entries))
    moving = vacating if open_place is OpenPlace.MOVED_UP else frozenset()
    return _placing(_allowed(_ranked(order, moving), vacating), worst, bracket.places, vacating)


def _ranked(order: Iterable[Sequence[str]], skipped: frozenset[str]) -> Groups:
    groups: Groups = {}
    place = 1
    for group in order:
        if kept := [one for one in group if one not in skipped]:
            groups[place] = kept
            place += len(kept)
    return groups
