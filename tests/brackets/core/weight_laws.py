"""What holds of a weight at every moment, whatever happened to it: a law a function."""

from collections import Counter
from collections.abc import Callable, Iterator

from brackets.core.graph import BoutKey
from brackets.core.known import SETTLED
from brackets.core.progress import BoutState, Status
from brackets.core.rules import DoubleLoss, OpenPlace, Thirds, Wrestleback
from brackets.core.rulings import PlaceRuling, ResultRuling, in_two
from brackets.core.sources import Beaten, Exit, From, Line, Seat, Source, victims
from brackets.core.standing import Occupant, Vacancy
from brackets.core.wiring import starters
from tests.brackets.core.weight import AHEAD, Weight

OPEN, EMPTY = Vacancy.OPEN, Vacancy.EMPTY


def the_facts_alone_make_the_standing(weight: Weight) -> None:
    assert weight.facts.backwards().stand() == weight.standing


def every_result_is_of_those_who_were_there(weight: Weight) -> None:
    assert weight.met.keys() == weight.facts.verdicts.keys()
    for key, sides in weight.met.items():
        assert weight.standing.bouts[key].sides == sides, key


def a_bout_is_as_its_sides_and_results_say(weight: Weight) -> None:
    for key, state in weight.standing.bouts.items():
        here = [side for side in state.sides if isinstance(side, str)]
        assert len(set(here)) == len(here), key
        if state.status in (Status.READY, Status.DECIDED):
            assert len(here) == 2, key
        if state.status is Status.BYE:
            assert ([state.winner], state.loser) == (here, None), key
            assert EMPTY in state.sides, key
        elif state.status is Status.DECIDED and state.winner is not None:
            assert {state.winner, state.loser} == set(here), key
        else:
            assert state.winner is state.loser is None, key
        told = weight.facts.verdicts.get(key)
        if told is not None and not state.ruled:
            assert (state.status, state.implied) == (Status.DECIDED, False), key
            assert state.winner == (None if told.winner is None else state.sides[told.winner]), key


def a_forfeit_is_lost_by_who_left(weight: Weight) -> None:
    for key, state in weight.standing.bouts.items():
        if state.implied:
            lost = {state.loser} if state.loser else set(state.sides)
            assert lost <= weight.facts.gone.keys(), key


def who_left_wrestles_nothing_behind_his_last_bout(weight: Weight) -> None:
    index = weight.bracket.wiring.index
    for key, state in weight.standing.bouts.items():
        for entry in state.sides if state.status is Status.READY else ():
            last = weight.facts.gone.get(str(entry), key)
            assert last is not None, (entry, key)
            assert index[key] <= index[last], (entry, key)


def a_ruled_bout_keeps_its_ruled_winner(weight: Weight) -> None:
    last = {one.bout: one for one in weight.facts.rulings if isinstance(one, ResultRuling)}
    for key, state in weight.standing.bouts.items():
        one = last.get(key)
        assert state.ruled == (one is not None and one.sides == state.sides), key
        if one is not None and state.ruled:
            assert state.winner == (None if one.winner is None else one.sides[one.winner]), key


def nobody_is_in_two_bouts_at_once_but_by_a_ruling(weight: Weight) -> None:
    seated = weight.facts.seated
    assert in_two(weight.bracket, weight.standing).keys() <= seated
    rounds = Counter(
        (state.key.round, side)
        for state in weight.standing.bouts.values()
        for side in state.sides
        if isinstance(side, str) and side not in seated and state.key not in weight.pooled
    )
    assert all(times == 1 for times in rounds.values()), rounds.most_common(1)


def everybody_comes_from_where_his_side_is_fed(weight: Weight) -> None:
    """By the plain definition of a source, or a ruling on the seat."""
    seats = weight.facts.ruled_seats
    for key, sources in weight.bracket.sources.items():
        sides = weight.standing.bouts[key].sides
        for slot, source in enumerate(sources):
            if (key, slot) in seats:
                came = {seats[key, slot]}
            else:
                came = set(_may_come(weight, source, Seat(key, slot)))
            twice = slot == 1 and sides[1] is EMPTY and sides[0] in came
            assert sides[slot] in came or twice, (key, slot, came)


def _may_come(weight: Weight, source: Source, seat: Seat) -> Iterator[Occupant]:
    bouts = weight.standing.bouts
    if isinstance(source, Line):
        line = list(starters(weight.bracket.lines))[2 * source.number - 2 + (source.half or 0)]
        yield EMPTY if line is None else line
    elif isinstance(source, From):
        yield from _led_on(weight, bouts[source.bout], source.exit)
    elif isinstance(source, Beaten):
        yield from (OPEN, EMPTY)
        yield from weight.facts.seated
        yield from (bouts[key].loser or EMPTY for key in victims(weight.bracket.sources, source))
        if weight.facts.rules.double_loss is DoubleLoss.DROP:
            yield from _fallen(weight)
    else:
        pool = weight.bracket.pools[source.pool]
        over = all(bouts[key].status in SETTLED for key in pool.bouts)
        yield from weight.bracket.members(pool) if over else [OPEN]


def _led_on(weight: Weight, state: BoutState, way: Exit) -> Iterator[Occupant]:
    won = way is Exit.WINNER
    if state.status is Status.SPARED:
        yield state.sides[0 if won else 1]
    elif state.status in AHEAD:
        yield OPEN
        if not won and EMPTY in state.sides:
            yield EMPTY
    else:
        yield (state.winner if won else state.loser) or EMPTY
    if not won and state.loser is None and weight.facts.rules.double_loss is DoubleLoss.DROP:
        yield from _fallen(weight)


def _fallen(weight: Weight) -> Iterator[str]:
    """Who may drop though nobody beat him."""
    for state in weight.standing.bouts.values():
        if state.status is Status.DECIDED and state.winner is None and not state.implied:
            yield from (side for side in state.sides if isinstance(side, str))


def places_are_those_given_and_each_has_one_entry_once(weight: Weight) -> None:
    standing, facts = weight.standing, weight.facts
    placed = [entry for group in standing.places.values() for entry in group]
    assert len(set(placed)) == len(placed)
    for place in (*standing.places, *standing.guaranteed.values()):
        assert 1 <= place <= weight.bracket.places
    vacating = facts.absent if facts.keeps else set(facts.gone)
    assert not vacating & set(placed) - standing.ruled
    thirds = 2 if facts.rules.thirds is Thirds.TWO else 1
    shares = set(_fallen_at_all(weight)) | standing.ruled | facts.seated
    for place, group in standing.places.items():
        if not weight.bracket.ranked:
            assert len(set(group) - shares) <= thirds, place


def _fallen_at_all(weight: Weight) -> Iterator[Occupant]:
    for state in weight.standing.bouts.values():
        if state.status is Status.DECIDED and state.winner is None:
            yield from state.sides


def a_ruled_place_is_his(weight: Weight) -> None:
    ruled: dict[str, int | None] = {}
    for one in weight.facts.rulings:
        if isinstance(one, PlaceRuling):
            ruled |= one.places
    found = {entry: place for place, group in weight.standing.places.items() for entry in group}
    assert {one: found.get(one) for one in ruled} == ruled


def who_is_placed_wrestles_no_more_and_has_it_for_certain(weight: Weight) -> None:
    standing = weight.standing
    open_sides = {
        side for state in standing.bouts.values() if state.status in AHEAD for side in state.sides
    }
    for place, group in standing.places.items():
        for entry in group:
            assert standing.guaranteed[entry] == place, entry
            assert entry in standing.ruled | weight.facts.seated or entry not in open_sides, entry


def a_place_is_that_of_the_last_bout(weight: Weight) -> None:
    """Where nothing is ruled; where places move up it is that or a better one."""
    if weight.facts.rulings or weight.bracket.ranked:
        return
    moving = weight.facts.rules.open_place is OpenPlace.MOVED_UP
    ways = weight.standing.walked()
    for place, group in weight.standing.places.items():
        for entry in group:
            last = _place_of(weight, ways[entry][-1], entry)
            if last is not None:
                assert place <= last if moving else place == last, entry


def _place_of(weight: Weight, state: BoutState, entry: str) -> int | None:
    here = weight.bracket.round_of(state.key)
    if state.status is Status.DECIDED and state.winner is None:
        shared = weight.facts.rules.open_place is OpenPlace.SHARED
        return here.places and here.places[0 if shared else 1]
    won = state.winner == entry or (state.status is Status.SPARED and state.sides[0] == entry)
    if here.places is None:
        return None if won else here.loser_place
    return here.places[0] if won else here.places[1]


LAWS: tuple[Callable[[Weight], None], ...] = (
    the_facts_alone_make_the_standing,
    every_result_is_of_those_who_were_there,
    a_bout_is_as_its_sides_and_results_say,
    a_forfeit_is_lost_by_who_left,
    who_left_wrestles_nothing_behind_his_last_bout,
    a_ruled_bout_keeps_its_ruled_winner,
    nobody_is_in_two_bouts_at_once_but_by_a_ruling,
    everybody_comes_from_where_his_side_is_fed,
    places_are_those_given_and_each_has_one_entry_once,
    a_ruled_place_is_his,
    who_is_placed_wrestles_no_more_and_has_it_for_certain,
    a_place_is_that_of_the_last_bout,
)


def check_end(weight: Weight) -> None:
    """Nothing waits, nobody comes, and a place is open only where somebody's way ended early."""
    standing, facts = weight.standing, weight.facts
    assert all(state.status in SETTLED for state in standing.bouts.values())
    assert all(OPEN not in state.sides for state in standing.bouts.values())
    placed = {entry: place for place, group in standing.places.items() for entry in group}
    if facts.rulings:
        return
    assert standing.guaranteed == placed
    better = 0
    for place, group in standing.places.items():
        if facts.rules.open_place is OpenPlace.MOVED_UP:
            assert place <= better + 1
        better += len(group)
    few = facts.rules.wrestleback is Wrestleback.NOBODY and facts.rules.thirds is Thirds.TWO
    few |= facts.rules.wrestleback is Wrestleback.FINALISTS
    whole = weight.bracket.ranked or not (few or weight.laid)
    if not any(_fallen_at_all(weight)) and not facts.gone and whole:
        assert better >= weight.bracket.places


def check_retold(weight: Weight, pick: Callable[[list[BoutKey]], BoutKey]) -> None:
    """The same results, entered one by one as the bouts become ready, make the same standing."""
    left = dict(weight.facts.verdicts)
    again = weight.facts.only((), weight.facts.rulings)
    while left:
        bouts = again.stand().bouts
        key = pick(
            [one for one in left if bouts[one].takes_result and bouts[one].sides == weight.met[one]]
        )
        again = weight.facts.only({*again.verdicts, key}, weight.facts.rulings)
        del left[key]
    assert again.stand() == weight.standing
