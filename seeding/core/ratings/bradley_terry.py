"""Bradley-Terry: strengths from which the chance of each bout follows."""

import numpy as np
from scipy import sparse
from scipy.sparse import csgraph

from seeding.core.matrices import Floats, Matrix
from seeding.core.ratings.solving import (
    FloatMatrix,
    NotSolved,
    games_of,
    laplacian,
    solve,
    solve_apart,
)

HALF_A_WIN = 0.5
STEPS = 100
SETTLED = 1e-9


class NoFiniteStrengths(ArithmeticError):
    """Some beat the others and were never beaten by them, so that no strength is high enough."""


def win_probability(one: Floats, other: Floats) -> Floats:
    """The chance that `one` beats `other`, both strengths of this rating (natural logarithms)."""
    return 1 / (1 + np.exp(other - one))


def elo_probability(one: Floats, other: Floats, scale: float = 400) -> Floats:
    """The chance that `one` beats `other`, both on Elo's scale (published: 400 points are 10:1)."""
    return 1 / (1 + np.power(10.0, (other - one) / scale))


def bradley_terry(wins: Matrix, regular: float = HALF_A_WIN) -> Floats:
    """Everybody's strength, a natural logarithm; the most likely ones for these wins.

    Each has `regular` wins and as many losses against somebody of strength 0 besides, so that the
    unbeaten have a finite strength (calculated; the usual way is half a win and half a loss). One
    without bouts has strength 0.
    """
    return _fitted(wins, regular)


def bradley_terry_plain(wins: Matrix) -> Floats:
    """The same from the wins alone, with the mean 0.

    Source: published: Agresti, Categorical Data Analysis (2002).
    NoFiniteStrengths: not everybody is linked to everybody by a chain of wins.
    """
    groups, _ = csgraph.connected_components(wins, connection="strong")
    if groups > 1:
        raise NoFiniteStrengths
    return _fitted(wins, 0)


def _fitted(wins: Matrix, regular: float) -> Floats:
    """Newton's steps to the maximum of a concave function; when they are short they square."""
    games = sparse.triu(games_of(wins)).tocoo()
    one, other = games.coords
    won = wins.sum(axis=1, dtype=np.float64) + regular
    strengths = np.zeros(wins.shape[0])
    for _ in range(STEPS):
        chance = win_probability(strengths[one], strengths[other])
        even = win_probability(strengths, np.zeros_like(strengths))
        expected = (
            np.bincount(one, games.data * chance, len(won))
            + np.bincount(other, games.data * (1 - chance), len(won))
            + 2 * regular * even
        )
        spread = sparse.coo_array((games.data * chance * (1 - chance), (one, other)), games.shape)
        step = _step((spread + spread.T).tocsr(), 2 * regular * even * (1 - even), won - expected)
        # A step of more than 1 leaves the region in which the slope is believed.
        step /= max(1.0, float(np.abs(step).max(initial=0)))
        strengths += step
        if np.abs(step).max(initial=0) < SETTLED:
            return strengths
    raise NotSolved


def _step(links: FloatMatrix, own: Floats, surprise: Floats) -> Floats:
    if not own.any():
        return solve_apart(links, surprise)
    return solve((laplacian(links) + sparse.diags_array(own)).tocsr(), surprise)
