"""Fewest violations against an integer program written by others: igraph's feedback arc set."""

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
