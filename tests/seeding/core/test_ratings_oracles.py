"""Random seasons: other packages and plain definitions agree with the ratings."""

from random import Random

import choix
import igraph
import networkx as nx
import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import sparse

from seeding.core.matrices import BoutArrays, Floats
from seeding.core.ratings import solving
from seeding.core.ratings.bradley_terry import bradley_terry, bradley_terry_plain, win_probability
from seeding.core.ratings.colley import colley
from seeding.core.ratings.glicko import GlickoSettings, glicko
from seeding.core.ratings.massey import massey
from seeding.core.ratings.pagerank import pagerank
from seeding.core.ratings.percentages import percentages
from seeding.core.rpi import Percentages, Reading
from seeding.core.season import Season
from tests.seeding.core.seasons import LEDGER, met, seasons

TIGHT = 1e-9


def same(found: Floats, expected: Floats) -> None:
    np.testing.assert_allclose(found, expected, rtol=0, atol=TIGHT)


def of(known: Season) -> BoutArrays:
    bouts = BoutArrays.of(known.bouts)
    assume(len(bouts) > 1)
    return bouts


@given(seasons())
def test_pagerank_is_that_of_networkx_and_igraph(known: Season) -> None:
    bouts = of(known)
    found = pagerank(bouts.wins())
    graph = nx.from_scipy_sparse_array(bouts.wins().T.tocsr(), create_using=nx.DiGraph)
    theirs = nx.pagerank(graph, alpha=0.85, tol=1e-14, max_iter=1000)
    same(found, np.array([theirs[at] for at in range(len(bouts))]))
    edges = list(zip(bouts.loser.tolist(), bouts.winner.tolist(), strict=True))
    other = igraph.Graph(len(bouts), edges, directed=True).pagerank(damping=0.85)
    same(found, np.array(other))


@given(seasons())
def test_massey_is_least_squares(known: Season) -> None:
    bouts = of(known)
    margins = (np.arange(1, len(bouts.winner) + 1) % 15 + 1).astype(np.float64)
    found = massey(bouts, margins)
    rows = np.zeros((len(margins), len(bouts)))
    rows[np.arange(len(margins)), bouts.winner] = 1
    rows[np.arange(len(margins)), bouts.loser] = -1
    # Of all that fit equally well, lstsq gives the shortest: the mean of each linked group is 0.
    shortest: Floats = np.linalg.lstsq(rows, margins)[0].astype(np.float64)
    same(found, shortest)


@given(seasons())
def test_colley_solves_its_equations(known: Season) -> None:
    wins = of(known).wins().toarray().astype(float)
    games = wins + wins.T
    matrix = np.diag(2 + games.sum(axis=1)) - games
    found = colley(sparse.csr_array(wins.astype(np.int16)))
    same(matrix @ found, 1 + (wins - wins.T).sum(axis=1) / 2)
    assert found.mean() == pytest.approx(0.5)


@given(seasons())
def test_plain_bradley_terry_is_that_of_choix(known: Season) -> None:
    """A circle through everybody is added, so that there is a finite fit."""
    names = of(known).wrestlers
    circle = met(list(zip(names, names[1:] + names[:1], strict=True)))
    bouts = BoutArrays.of(known.bouts + circle)
    data = list(zip(bouts.winner.tolist(), bouts.loser.tolist(), strict=True))
    expected = choix.ilsr_pairwise(len(bouts), data, max_iter=10_000, tol=1e-12)
    np.testing.assert_allclose(bradley_terry_plain(bouts.wins()), expected, rtol=0, atol=1e-6)


@given(seasons())
def test_regularised_bradley_terry_expects_what_was_won(known: Season) -> None:
    """At the maximum everybody's expected wins are his wins, those against the 0 included."""
    wins = of(known).wins()
    found = bradley_terry(wins)
    games = (wins + wins.T).toarray()
    chances = win_probability(found[:, None], found[None, :])
    expected = (games * chances).sum(axis=1) + win_probability(found, np.zeros(len(found)))
    same(expected, wins.sum(axis=1) + 0.5)


@given(seasons())
def test_regularised_bradley_terry_is_choix_with_a_fixed_opponent(known: Season) -> None:
    """Two such half bouts are one bout each way when every real bout is counted twice."""
    bouts = of(known)
    zero = len(bouts)
    pairs = list(zip(bouts.winner.tolist(), bouts.loser.tolist(), strict=True)) * 2
    pairs += [pair for at in range(zero) for pair in ((at, zero), (zero, at))]
    expected = choix.ilsr_pairwise(zero + 1, pairs, max_iter=10_000, tol=1e-12)
    found = bradley_terry(bouts.wins())
    np.testing.assert_allclose(found, expected[:-1] - expected[-1], rtol=0, atol=1e-6)


@given(seasons(), st.sampled_from(list(Reading)))
def test_fast_percentages_are_the_exact_ones(known: Season, reading: Reading) -> None:
    bouts = BoutArrays.of(known.bouts)
    found = percentages(bouts, reading)
    exact = Percentages(LEDGER.records(known), reading)
    parts = (
        (found.own, exact.own),
        (found.opponents, exact.opponents),
        (found.theirs, exact.theirs),
    )
    for values, part in parts:
        expected = [part(wrestler) for wrestler in bouts.wrestlers]
        numbers = [np.nan if value is None else float(value) for value in expected]
        np.testing.assert_allclose(values, numbers, rtol=0, atol=1e-12)


@given(seasons(), st.randoms(use_true_random=False))
def test_the_order_of_bouts_changes_no_bit(known: Season, chance: Random) -> None:
    bouts = of(known)
    order = list(range(len(bouts.winner)))
    chance.shuffle(order)
    shuffled = BoutArrays(bouts.wrestlers, bouts.winner[order], bouts.loser[order])
    numbers = np.arange(len(order), dtype=np.int32) % 5
    margins: Floats = numbers + np.ones(len(order))
    for one, other in (
        (colley(bouts.wins()), colley(shuffled.wins())),
        (pagerank(bouts.wins()), pagerank(shuffled.wins())),
        (bradley_terry(bouts.wins()), bradley_terry(shuffled.wins())),
        (massey(bouts, margins), massey(shuffled, margins[order])),
        (
            glicko(bouts, numbers, GlickoSettings()).rating,
            glicko(shuffled, numbers[order], GlickoSettings()).rating,
        ),
        (
            percentages(bouts, Reading.WITHOUT_THE_WRESTLER).rpi(),
            percentages(shuffled, Reading.WITHOUT_THE_WRESTLER).rpi(),
        ),
    ):
        assert np.array_equal(one, other)


def test_the_two_ways_of_solving_agree() -> None:
    """700 wrestlers are solved directly, two unlinked seasons like theirs step by step."""
    random = np.random.default_rng(3)
    winner = random.integers(0, 700, 9000, dtype=np.int32)
    loser = (winner + random.integers(1, 700, 9000, dtype=np.int32)) % 700
    one = BoutArrays(tuple(map(str, range(700))), winner, loser.astype(np.int32))
    two = BoutArrays(
        tuple(map(str, range(1400))),
        np.concatenate((one.winner, one.winner + 700)).astype(np.int32),
        np.concatenate((one.loser, one.loser + 700)).astype(np.int32),
    )
    assert len(one) <= solving.DENSE_UP_TO < len(two)
    margins = random.integers(1, 16, 9000).astype(float)
    same(np.tile(colley(one.wins()), 2), colley(two.wins()))
    same(np.tile(massey(one, margins), 2), massey(two, np.tile(margins, 2)))
    same(np.tile(bradley_terry(one.wins()), 2), bradley_terry(two.wins()))
