"""Places: the final ones, and the worst that can still happen to each entry."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from brackets.core.errors import PoolOrderInvalid
from brackets.core.graph import Bracket
from brackets.core.rules import OpenPlace
from brackets.core.sources import Ranked
from brackets.core.standing import AHEAD, BoutState, Occupant, Vacancy
from brackets.core.walk import Walk, last_bouts
from brackets.core.wiring import NOWHERE, Wiring

Groups = dict[int, list[str]]


@dataclass(frozen=True, slots=True)
class Placing:
    """`final`: place to entries. `guaranteed`: entry to the worst place still possible.

    `in_full`: who does not share his place, though others have it too.
    """

    final: Mapping[int, tuple[str, ...]]
    guaranteed: Mapping[str, int]
    in_full: frozenset[str] = frozenset()


def elimination_places(
    bracket: Bracket, walked: Walk, open_place: OpenPlace, vacating: frozenset[str]
) -> Placing:
    """Places of an elimination; see `progress` for places that nobody takes."""
    ways, seats = _worst(bracket.wiring, walked, walked.ruled)
    plain = _worst(bracket.wiring, walked, frozenset())[0] if walked.ruled else ways
    groups, settled = _taken(bracket.wiring, walked)
    guaranteed = _in_pools(bracket, walked, ways)
    stops = {
        entry: _stopped(bracket.wiring, walked, plain, i, open_place) for entry, i in walked.stopped
    }
    guaranteed |= {entry: stop.place for entry, stop in stops.items()}
    settled -= {stop.place for stop in stops.values() if not stop.certain}
    for entry in (one for one, stop in stops.items() if stop.place != NOWHERE):
        groups.setdefault(stops[entry].place, []).append(entry)
    for i, state in enumerate(walked.states):
        if state.status in AHEAD and not bracket.wiring.pool[i]:
            for slot, side in enumerate(state.sides):
                if isinstance(side, str):
                    guaranteed[side] = seats[2 * i + slot]
    guaranteed |= {entry: place for place, group in groups.items() for entry in group}
    unsure = {entry for entry, stop in stops.items() if not stop.certain}
    allowed = _allowed(groups, vacating | unsure)
    if open_place is OpenPlace.MOVED_UP:
        allowed = _moved_up(allowed, settled, {*groups, *bracket.wiring.ends} - {NOWHERE})
    placing = _placing(allowed, guaranteed, bracket.places, vacating)
    return replace(placing, in_full=frozenset(one for one in stops if stops[one].in_full))


@dataclass(frozen=True, slots=True)
class _Stop:
    """The place of who went no further in a bout that nobody won, and whether it stays that.

    `in_full`: the other side may have the same one, and they do not share it.
    """

    place: int
    certain: bool
    in_full: bool


def _stopped(
    wiring: Wiring, walked: Walk, ways: Sequence[int], i: int, open_place: OpenPlace
) -> _Stop:
    """Whoever comes to a challenge without an opponent keeps his place, so a placing bout is the
    end; else it is the worst place still ahead by the format: `ways` without rulings."""
    moving = open_place is OpenPlace.MOVED_UP
    if wiring.places[i] is not None:
        shared = open_place is OpenPlace.SHARED
        place = wiring.ends[2 * i + (not shared)]
        return _Stop(place, certain=True, in_full=not (shared or moving))
    way = 2 * i + 1
    line = way if walked.states[i].implied else walked.inherits.get(i, way)
    waits = walked.values[line] is Vacancy.OPEN
    place = max(ways[way], ways[line] if waits else 0)
    return _Stop(place, not waits and _certain(wiring, walked.values, ways, way), not moving)


def _worst(wiring: Wiring, walked: Walk, ruled: Collection[int]) -> tuple[list[int], list[int]]:
    """Worst place behind every way, and for everyone who sits in a bout; `ruled`: as in `Walk`.

    Backwards from the placing bouts. Against an empty side one cannot lose; in a bout that is not
    needed then, the bottom side cannot win. That nobody wins is not thought of. Who waits for the
    man who beat him has no place yet, nor is there one behind a way whose seat or end a ruling has
    set while it is open who comes to it. The sides are those that rulings set, but for who is out.
    """
    ways = list(wiring.ends)
    seats = [NOWHERE] * (2 * len(wiring.keys))
    for special in range(wiring.first_special, len(ways)):
        ways[special] = NOWHERE if wiring.onward[special] >= 0 else ways[special]
    for i in range(len(wiring.keys) - 1, -1, -1):
        win, loss = 2 * i, 2 * i + 1
        for way in (win, loss):
            if way in ruled and walked.states[i].status in AHEAD:
                ways[way] = NOWHERE
            elif (seat := wiring.onward[way]) >= 0:
                ways[way] = seats[seat]
        come = [walked.values[one] for one in wiring.inputs[i]]
        top, bottom = walked.states[i].sides if ruled else come
        worst = max(ways[win], ways[loss])
        seats[win] = ways[win] if bottom is Vacancy.EMPTY else worst
        alone = ways[loss if wiring.needed[i] else win]
        seats[loss] = alone if top is Vacancy.EMPTY else worst
        for special in wiring.inputs[i]:
            if special >= wiring.first_special:
                ways[special] = NOWHERE if special in ruled else seats[wiring.onward[special]]
    return ways, seats


def _certain(wiring: Wiring, values: Sequence[Occupant], ways: Sequence[int], way: int) -> bool:
    """Whether nothing can change any more about the worst place behind a way.

    What is not known yet can only make a place better, so the worst of two ways is enough.
    """
    if (seat := wiring.onward[way]) < 0:
        return True
    bout, slot = divmod(seat, 2)
    other = values[wiring.inputs[bout][1 - slot]]
    if other is Vacancy.OPEN:
        return False
    win, loss = 2 * bout, 2 * bout + 1
    if other is Vacancy.EMPTY:
        return _certain(wiring, values, ways, win)
    worst = max(ways[win], ways[loss])
    return any(_certain(wiring, values, ways, one) for one in (loss, win) if ways[one] == worst)


def _taken(wiring: Wiring, walked: Walk) -> tuple[Groups, set[int]]:
    """Who went out with a place, and the places about which nothing can change.

    Who stands in a later bout has not gone out. A ruling on where his way ends goes before that.
    """
    groups: Groups = {}
    settled: set[int] = set()
    waiting: set[int] = set()
    lasts = last_bouts(wiring, walked.states)
    for value, place in enumerate(wiring.ends):
        if place == NOWHERE or wiring.onward[value] >= 0:
            continue
        occupant = walked.values[value]
        (waiting if occupant is Vacancy.OPEN else settled).add(place)
        if isinstance(occupant, str) and _goes_out(wiring, walked, lasts, occupant, value):
            groups.setdefault(place, []).append(occupant)
    return groups, settled - waiting


def _goes_out(
    wiring: Wiring, walked: Walk, lasts: Mapping[Occupant, int], entry: str, value: int
) -> bool:
    """Whether an entry who has come to a way goes out there; a rank in a pool is behind no bout."""
    if entry in walked.ended:
        return walked.ended[entry] == value
    bout = value // 2 if value < wiring.first_special else -1
    return lasts.get(entry, -1) <= bout


def _in_pools(bracket: Bracket, walked: Walk, ways: Sequence[int]) -> dict[str, int]:
    """Of pools that lead on: the worst place of every rank that an entry can still have.

    Whose ranks are known is where they lead, or a ruling has put him elsewhere.
    """
    wiring = bracket.wiring
    found: dict[str, int] = {}
    ahead = {special: wiring.first_special + at for at, special in enumerate(wiring.specials)}
    for at, pool in enumerate(bracket.pools):
        members = bracket.members(pool)
        ranks = [ahead.get(Ranked(at, rank)) for rank, _ in enumerate(members, start=1)]
        if not any(one is not None and walked.values[one] is Vacancy.OPEN for one in ranks):
            continue
        states = [walked.states[wiring.index[key]] for key in pool.bouts]
        for entry, worst in worst_ranks(members, states).items():
            found[entry] = max(NOWHERE if one is None else ways[one] for one in ranks[:worst])
    return found


def worst_ranks(entries: Sequence[str], states: Iterable[BoutState]) -> dict[str, int]:
    """The worst rank that each of a pool can still have.

    He may be passed by everyone who can reach the wins that he has on the mat (a forfeit of
    somebody who is out can be lost when he leaves too, before his bouts are over).
    """
    wins = dict.fromkeys(entries, 0)
    most = dict.fromkeys(entries, 0)
    for state in states:
        if state.winner is not None:
            wins[state.winner] += not state.implied
            most[state.winner] += 1
        elif state.status in AHEAD:
            for side in state.sides:
                most[str(side)] += 1
    return {one: sum(most[other] >= wins[one] for other in entries) for one in entries}


def _allowed(groups: Mapping[int, Sequence[str]], vacating: frozenset[str]) -> Groups:
    kept = {place: [one for one in groups[place] if one not in vacating] for place in groups}
    return {place: kept[place] for place in sorted(kept) if kept[place]}


def _moved_up(groups: Groups, settled: Collection[int], places: Collection[int]) -> Groups:
    """Everybody at one more than the number placed better, as far as that number is certain.

    Nobody moves down where a better place is shared by more than it has room for.
    """
    final: Groups = {}
    better = 0
    for place in sorted(places):
        if group := groups.get(place):
            final[min(place, better + 1)] = group
            better += len(group)
        if place not in settled:
            break
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
    """Places of a round robin, or a best of three: by `order` when every bout is settled."""
    entries = tuple(bracket.entries())
    worst = worst_ranks(entries, walked.states)
    if order is None or any(state.status in AHEAD for state in walked.states):
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
