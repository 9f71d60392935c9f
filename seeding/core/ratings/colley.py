"""Colley's rating: wins and losses, each opponent at what he is worth himself."""

import numpy as np
from scipy import sparse

from seeding.core.matrices import Floats, Matrix
from seeding.core.ratings.solving import games_of, laplacian, solve


def colley(wins: Matrix) -> Floats:
    """Everybody's rating; the mean of all is 1/2, and so is that of one without bouts.

    r solves (2 + bouts) r - sum of the opponents' r = 1 + (won - lost) / 2.
    Source: published: Langville & Meyer, Who's #1? (2012), after Colley's bias-free matrix.
    """
    won, lost = wins.sum(axis=1, dtype=np.float64), wins.sum(axis=0, dtype=np.float64)
    two = sparse.diags_array(np.full(len(won), 2.0))
    return solve((laplacian(games_of(wins)) + two).tocsr(), 1 + (won - lost) / 2)
