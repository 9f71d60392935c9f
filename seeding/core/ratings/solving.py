"""Linear systems of ratings: sparse, symmetric, positive definite, with many right answers alike.

Wrestlers are rated by how they are linked, so the matrix is a graph's Laplacian and something more.
"""

from typing import cast

import numpy as np
from scipy import sparse
from scipy.sparse import csgraph, linalg

from seeding.core.matrices import Floats, Indices, Matrix

FloatMatrix = sparse.csr_array[np.float64, tuple[int, int]]
DENSE_UP_TO = 800
PRECISION = 1e-14


class NotSolved(ArithmeticError):
    """The iteration did not come to its end; the matrix is not one of those described above."""


def games_of(wins: Matrix) -> FloatMatrix:
    """How often two met."""
    counted = wins.astype(np.float64)
    return (counted + counted.T).tocsr()


def laplacian(links: FloatMatrix) -> FloatMatrix:
    """Everybody's links on the diagonal, less the links of each two."""
    return (sparse.diags_array(links.sum(axis=1)) - links).tocsr()


def solve(matrix: FloatMatrix, right: Floats) -> Floats:
    """x of `matrix` x = `right`: directly if small, else by conjugate gradients, improved twice."""
    if matrix.shape[0] <= DENSE_UP_TO:
        return cast(Floats, np.linalg.solve(matrix.toarray(), right))
    scale = sparse.diags_array(1 / matrix.diagonal())
    found = np.zeros_like(right)
    for _ in range(3):
        rest = right - matrix @ found
        step, unfinished = linalg.cg(matrix, rest, rtol=1e-9, atol=PRECISION, M=scale)
        if unfinished:
            raise NotSolved
        found += step
    return found


def solve_apart(links: FloatMatrix, right: Floats) -> Floats:
    """Ratings whose differences the links fix: each linked group has the mean 0.

    `right` adds up to 0 in each group, as margins and surprises do.
    """
    count, group = csgraph.connected_components(links, directed=False)
    _, first = np.unique(group, return_index=True)
    anchor = np.zeros(links.shape[0])
    anchor[first] = 1
    found = solve((laplacian(links) + sparse.diags_array(anchor)).tocsr(), right)
    return centred(found, cast(Indices, group), count)


def centred(values: Floats, group: Indices, count: int) -> Floats:
    """The values less the mean of their group."""
    sizes = np.bincount(group, minlength=count)
    means = np.bincount(group, values, count) / sizes
    return values - means[group]
