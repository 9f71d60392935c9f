"""Laws of the standing, for any field and any legal results."""

from collections import Counter
from itertools import pairwise
from random import Random

import networkx as nx
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from brackets.core.graph import Format
from brackets.core.progress import Standing, Status
from brackets.core.rules import OpenPlace
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
        slots = [data["slot"] for _, _, data in built.graph.in_edges(key, data=True)]
        assert len(set(slots)) == len(slots) <= 2
    if built.format is Format.ELIMINATION:
        fed = Counter(source for sides in built.sources.values() for source in sides)
        assert set(fed.values()) == {1}


@laws
@given(story=stories())
def test_every_story_ends(story: Story) -> None:
    over = {Status.DECIDED, Status.BYE, Status.VACANT}
    assert {state.status for state in story.end.bouts.values()} <= over
    for state in story.end.bouts.values():
        assert state.sides[0] != state.sides[1] or state.status is Status.VACANT
        if state.drawn:
            assert state.key in story.bracket.byes


@laws
@given(story=stories())
def test_nobody_loses_three_times_before_a_placing_bout(story: Story) -> None:
    if story.bracket.format is Format.ELIMINATION:
        for entry in story.bracket.entries():
            rounds = losses(story.end, entry)
            assert len(rounds) <= 3
            assert not rounds[2:] or rounds[2] in ("5th", "7th")


@laws
@given(story=stories(accidents=False))
def test_every_place_is_taken_once(story: Story) -> None:
    if story.bracket.format is Format.ELIMINATION:
        assert list(story.end.places) == list(range(1, story.bracket.places + 1))
        assert {len(group) for group in story.end.places.values()} == {1}
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
        if len(group) > 1 and story.bracket.format is Format.ELIMINATION:
            assert len(set(group) - fallen) <= 1


@laws
@given(story=stories())
def test_what_is_certain_stays_certain(story: Story) -> None:
    for before, after in pairwise(story.steps):
        for place, group in before.places.items():
            assert after.places[place] == group
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
