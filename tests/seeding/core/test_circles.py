"""Circles, who may stand on top, and circular triads."""

from itertools import combinations, permutations

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from seeding.core.circles import Beat, circles, top, triads
from tests.seeding.core.beaten import complete, field, over, rotational, season
from tests.seeding.core.seasons import bout

FIELD = "ABCDEF"
some_beats = st.lists(
    st.sampled_from(list(permutations(FIELD, 2))).map(lambda pair: Beat(*pair, ())), max_size=18
)


def test_nobody_stands_over_himself() -> None:
    with pytest.raises(ValueError, match="'A' cannot stand over himself"):
        Beat("A", "A", ())


def test_a_line_has_no_circle() -> None:
    assert circles(over("AB", "BC", "AC")) == ()


def test_a_circle_is_shown_by_its_bouts() -> None:
    first, second, third = bout("A", "B"), bout("B", "C", 1), bout("C", "A", 2)
    beats = [Beat("C", "A", (third,)), Beat("A", "B", (first,)), Beat("B", "C", (second,))]
    (found,) = circles([*beats, Beat("A", "D", ())])
    assert found.wrestlers == ("A", "B", "C")
    assert [beat.bouts for beat in found.round] == [(first,), (second,), (third,)]
    assert found.beats == tuple(sorted(beats))


def test_two_who_beat_each_other_are_a_circle() -> None:
    (found,) = circles(over("AB", "BA"))
    assert found.round == over("AB", "BA")


def test_the_shortest_round_stands_for_a_longer_one() -> None:
    (found,) = circles(over("AB", "BC", "CD", "DE", "EA", "DB"))
    assert found.wrestlers == tuple("ABCDE")
    assert found.round == over("BC", "CD", "DB")


def test_of_several_beats_of_a_pair_the_round_shows_the_first() -> None:
    later, sooner = Beat("A", "B", (bout("A", "B", 5),)), Beat("A", "B", (bout("A", "B", 1),))
    (found,) = circles([later, sooner, *over("BA")])
    assert found.round[0] is sooner
    assert found.beats[:2] == (sooner, later)


@given(some_beats, st.randoms(use_true_random=False))
def test_circles_do_not_depend_on_the_order_of_input(beats: list[Beat], random: object) -> None:
    shuffled = sorted(beats, key=lambda _: random.random())  # type: ignore[attr-defined]
    assert circles(shuffled) == circles(beats)
    assert top(reversed(FIELD), shuffled) == top(FIELD, beats)


@given(some_beats)
def test_rounds_are_shortest_walks_from_beat_to_beat(beats: list[Beat]) -> None:
    graph = nx.DiGraph((beat.better, beat.worse) for beat in beats)
    for circle in circles(beats):
        walk = [beat.better for beat in circle.round]
        assert [beat.worse for beat in circle.round] == [*walk[1:], walk[0]]
        inside = graph.subgraph(circle.wrestlers)
        rounds = [_from_its_first(each) for each in nx.simple_cycles(inside)]
        assert walk == min(rounds, key=lambda each: (len(each), each))


def _from_its_first(walk: list[str]) -> list[str]:
    start = walk.index(min(walk))
    return [*walk[start:], *walk[:start]]


@pytest.mark.parametrize("seed", range(20))
def test_circles_are_the_strongly_connected_components(seed: int) -> None:
    beats = season(24, seed, 3)
    graph = nx.DiGraph((beat.better, beat.worse) for beat in beats)
    parts = [set(part) for part in nx.strongly_connected_components(graph) if len(part) > 1]
    assert [set(circle.wrestlers) for circle in circles(beats)] == sorted(parts, key=min)


def test_on_top_stand_those_over_whom_nobody_stands() -> None:
    beats = over("AB", "BC", "CA", "CD", "ED", "DF")
    assert top("ABCDEFG", beats) == (("A", "B", "C"), ("E",), ("G",))


@pytest.mark.parametrize(
    ("names", "beats", "number"),
    [
        ("ABC", over("AB", "BC", "CA"), 1),
        ("ABCD", over("AB", "AC", "AD", "BC", "BD", "CD"), 0),
        (field(5), rotational(5, (1, 2)), 5),
    ],
)
def test_circular_triads(names: list[str], beats: tuple[Beat, ...], number: int) -> None:
    """Kendall & Babington Smith 1940 (from memory, unconfirmed): scores 111, 3210, 22222."""
    assert triads(names, beats) == number


@pytest.mark.parametrize("seed", range(5))
def test_circular_triads_are_the_threes_that_stand_in_a_circle(seed: int) -> None:
    beats = complete(9, seed, 1.0)
    pairs = {(beat.better, beat.worse) for beat in beats}
    rounds = sum(
        {(a, b), (b, c), (c, a)} <= pairs or {(b, a), (c, b), (a, c)} <= pairs
        for a, b, c in combinations(field(9), 3)
    )
    assert triads(field(9), beats) == rounds


@pytest.mark.parametrize(
    ("names", "beats"),
    [("ABC", over("AB", "BC")), ("AB", over("AB", "BA")), ("AB", over("AC")), ("A", over("AB"))],
)
def test_triads_are_refused_where_not_everybody_met(names: str, beats: tuple[Beat, ...]) -> None:
    with pytest.raises(ValueError, match="of every two one stands over the other"):
        triads(names, beats)
