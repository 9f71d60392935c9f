"""Fewest violations against what others wrote: igraph, an integer program; pref_voting, Kemeny."""

import random
from itertools import combinations

import igraph
import pytest

from seeding.core.circles import Beat
from seeding.core.violations import fewest_violations
from tests.seeding.core.beaten import complete, field, season


def fewest(beats: tuple[Beat, ...], size: int) -> int:
    number = {name: at for at, name in enumerate(field(size))}
    edges = [(number[beat.better], number[beat.worse]) for beat in beats]
    graph = igraph.Graph(n=size, edges=edges, directed=True)
    return len(graph.feedback_arc_set(method="ip"))


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("order", [0.5, 1.5])
@pytest.mark.parametrize(("size", "met"), [(8, 5), (12, 6), (16, 6), (24, 5), (32, 4)])
def test_random_seasons(size: int, met: int, order: float, seed: int) -> None:
    beats = season(size, seed, met, order)
    found = fewest_violations(field(size), beats, field(size))
    assert len(found.violated) == found.bound == fewest(beats, size)


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize(("size", "order"), [(7, 0.0), (10, 0.0), (12, 1.0), (14, 2.0)])
def test_random_complete_tournaments(size: int, order: float, seed: int) -> None:
    beats = complete(size, seed, order)
    found = fewest_violations(field(size), beats, field(size))
    assert len(found.violated) == found.bound == fewest(beats, size)


@pytest.mark.parametrize("seed", range(24))
def test_kemeny_orders_of_random_ballots(seed: int) -> None:
    """Beats of every ballot: fewest violations is the Kemeny order. Oracle: pref_voting."""
    # Only here: it brings a compiler and a plotter, seconds to every process that collects.
    from pref_voting.other_methods import kemeny_young_rankings  # noqa: PLC0415
    from pref_voting.profiles import Profile  # noqa: PLC0415

    chance = random.Random(seed)
    size = chance.randint(3, 6)
    names = field(size)
    rankings = [chance.sample(range(size), size) for _ in range(chance.randint(3, 9))]
    orders, distance = kemeny_young_rankings(Profile(rankings))
    beats = [
        Beat(names[above], names[below], ())
        for ranking in rankings
        for above, below in combinations(ranking, 2)
    ]
    found = fewest_violations(names, beats, names)
    assert len(found.violated) == found.bound == distance
    assert found.order in {tuple(names[number] for number in order) for order in orders}
    if len(found.parts) == 1 and len(found.parts[0].wrestlers) == size:
        assert found.count == len(orders)
