"""Laws of the standing, for any field and any legal results."""

from collections import Counter
from itertools import pairwise
from random import Random

import networkx as nx
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from brackets.core.graph import Beaten, BoutKey, Bracket, Format, From, Line, Source
from brackets.core.progress import Standing, Status
from brackets.core.rules import OpenPlace, Thirds, Wrestleback
from tests.strategies import Story, retold, stories

laws = settings(
    max_examples=60,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def losses(standing: Standing, entry: str) -> list[str]:
    """The rounds in which an entry lost, in running order."""
    return [
        state.key.round
        for state in standing.walked().get(entry, ())
        if state.status is Status.DECIDED and state.winner != entry
    ]


@laws
@given(story=stories())
def test_the_graph_has_no_circle_and_feeds_each_side_once(story: Story) -> None:
    built = story.bracket
    assert nx.is_directed_acyclic_graph(built.graph)
    for key in built.graph:
        edges = built.graph.in_edges(key, data=True)
        slots = [data["slot"] for _, _, data in edges if "slot" in data]
        assert len(set(slots)) == len(slots) <= 2
    fed = Counter(source for sides in built.sources.values() for source in sides)
    assert {times for source, times in fed.items() if not _of_a_pool(built, source)} <= {1}


def _of_a_pool(built: Bracket, source: Source) -> bool:
    return bool(built.pools) and isinstance(source, Line)


@laws
@given(story=stories())
def test_every_story_ends(story: Story) -> None:
    over = {Status.DECIDED, Status.BYE, Status.VACANT, Status.SPARED}
    assert {state.status for state in story.end.bouts.values()} <= over
    for state in story.end.bouts.values():
        assert state.sides[0] != state.sides[1] or state.status is Status.VACANT
        if state.drawn and state.key not in story.bracket.byes:
            assert _hangs_on_a_leader(story.bracket, state.key)


def _hangs_on_a_leader(built: Bracket, key: BoutKey) -> bool:
    return any(
        isinstance(source, Beaten)
        or (isinstance(source, From) and _hangs_on_a_leader(built, source.bout))
        for source in built.sources[key]
    )


@laws
@given(story=stories())
def test_nobody_stands_in_two_bouts_at_once(story: Story) -> None:
    pooled = {key for pool in story.bracket.pools for key in pool.bouts}
    for standing in story.steps:
        seats = Counter(
            side
            for state in standing.bouts.values()
            if state.status in (Status.READY, Status.WAITING) and state.key not in pooled
            for side in state.sides
            if isinstance(side, str)
        )
        assert set(seats.values()) <= {1}


@laws
@given(story=stories())
def test_nobody_loses_three_times_before_a_placing_bout(story: Story) -> None:
    if story.bracket.format is Format.ELIMINATION:
        placing = {one.code for one in story.bracket.rounds if one.placing}
        for entry in story.bracket.entries():
            assert placing.issuperset(losses(story.end, entry)[2:])


@laws
@given(story=stories(accidents=False))
def test_every_place_is_taken_once(story: Story) -> None:
    built = story.bracket
    if not built.ranked:
        taken = [place for place, group in story.end.places.items() for _ in group]
        assert all(taken.index(place) == place - 1 for place in taken)
        few = built.wrestleback is Wrestleback.NOBODY and story.rules.thirds is Thirds.TWO
        if not few and built.wrestleback is not Wrestleback.FINALISTS:
            assert taken == list(range(1, built.places + 1))
    assert story.end.guaranteed == {
        entry: place for place, group in story.end.places.items() for entry in group
    }


@laws
@given(story=stories())
def test_a_place_is_shared_only_where_a_bout_had_no_winner(story: Story) -> None:
    placed = [entry for group in story.end.places.values() for entry in group]
    assert len(set(placed)) == len(placed)
    assert not story.vacating.intersection(placed)
    fallen = {
        side
        for state in story.end.bouts.values()
        if state.status is Status.DECIDED and state.winner is None
        for side in state.sides
    }
    for group in story.end.places.values():
        if len(group) > 1 and not story.bracket.ranked:
            assert len(set(group) - fallen) <= (2 if story.rules.thirds is Thirds.TWO else 1)


@laws
@given(story=stories())
def test_what_is_certain_stays_certain(story: Story) -> None:
    for before, after in pairwise(story.steps):
        for place, group in before.places.items():
            assert set(group) <= set(after.places[place])
        for entry, worst in before.guaranteed.items():
            assert after.guaranteed[entry] <= worst <= story.bracket.places


@laws
@given(story=stories())
def test_who_is_placed_is_placed_as_guaranteed(story: Story) -> None:
    placed = {entry: place for place, group in story.end.places.items() for entry in group}
    assert dict(story.end.guaranteed) == placed


@laws
@given(story=stories())
def test_moving_up_leaves_no_gap(story: Story) -> None:
    if story.rules.open_place is OpenPlace.MOVED_UP:
        better = 0
        for place, group in story.end.places.items():
            assert place <= better + 1
            better += len(group)


@settings(laws, max_examples=25)
@given(story=stories(), seed=st.integers(0, 2**32))
def test_the_order_of_independent_bouts_does_not_matter(story: Story, seed: int) -> None:
    assert retold(story, Random(seed)) == story.end
