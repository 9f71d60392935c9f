"""PageRank of the bouts: the loser points to the winner."""

from typing import cast

import numpy as np
from scipy import sparse

from seeding.core.matrices import Floats, Matrix

ALPHA = 0.85
ROUNDING = 1e-17


def pagerank(wins: Matrix, alpha: float = ALPHA) -> Floats:
    """How often a walk from loser to winner comes by; all add up to 1.

    From somebody the walk goes on with chance `alpha` to one who beat him, each bout equally
    likely, else to anybody; so it does from the unbeaten. Repeated until what is left of the start
    is less than rounding. Source: published: Brin & Page 1998; alpha .85 as there.
    """
    count = wins.shape[0]
    losses = wins.sum(axis=0, dtype=np.float64)
    unbeaten = losses == 0
    shares = (wins.astype(np.float64) @ sparse.diags_array(1 / np.maximum(losses, 1))).tocsr()
    rank = np.full(count, 1 / max(count, 1))
    for _ in range(int(np.ceil(np.log(ROUNDING) / np.log(alpha)))):
        anywhere = (1 - alpha + alpha * rank[unbeaten].sum()) / max(count, 1)
        rank = alpha * (shares @ rank) + anywhere
    return cast(Floats, rank)
