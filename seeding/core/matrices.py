"""A season's bouts as sparse matrices: meetings of all pairs at once.

The definitions are those of `seeding.core.meetings`, which reads one pair bout by bout; here row
and column are wrestlers in the order of their ids, and a cell is what the row's wrestler did.
Cells are counts in 16 bits: nobody has 32,767 bouts.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt
from scipy import sparse
from scipy.sparse import csgraph

from seeding.core.criteria import Repeats
from seeding.core.season import Counted, PriorBout, Season

Indices = npt.NDArray[np.int32]
Floats = npt.NDArray[np.float64]
Matrix = sparse.csr_array[np.int16, tuple[int, int]]


@dataclass(frozen=True, slots=True, eq=False)
class BoutArrays:
    """Bouts by number: `winner[k]` beat `loser[k]`, both places in `wrestlers`, the sorted ids."""

    wrestlers: tuple[str, ...]
    winner: Indices
    loser: Indices

    @classmethod
    def of(cls, bouts: Iterable[PriorBout], wrestlers: Iterable[str] = ()) -> "BoutArrays":
        """The bouts in their order, among `wrestlers` and whoever else has one."""
        pairs = [(bout.winner, bout.loser) for bout in bouts]
        known = tuple(sorted({*wrestlers, *(wrestler for pair in pairs for wrestler in pair)}))
        place = {wrestler: at for at, wrestler in enumerate(known)}
        winner = np.array([place[one] for one, _ in pairs], dtype=np.int32)
        loser = np.array([place[other] for _, other in pairs], dtype=np.int32)
        return cls(known, winner, loser)

    def __len__(self) -> int:
        return len(self.wrestlers)

    def wins(self) -> Matrix:
        """How often the row's wrestler beat the column's."""
        ones = np.ones(len(self.winner), dtype=np.int16)
        shape = len(self), len(self)
        return sparse.coo_array((ones, (self.winner, self.loser)), shape).tocsr()


@dataclass(frozen=True, slots=True)
class Against:
    """One wrestler's results against the opponents whom he shares with another."""

    won: int
    lost: int
    beat_who_beat: int


@dataclass(frozen=True, slots=True)
class Meeting:
    """Two wrestlers: bouts that the first won and lost with the second, and shared opponents."""

    won: int
    lost: int
    common: int
    first: Against
    second: Against


class SeasonMatrices:
    """Matrices of the bouts that count; each is worked out when it is first asked for.

    `repeats` says what several bouts with one opponent are: each-opponent-once makes them one win,
    one loss, or (both won equally often) nothing.
    """

    def __init__(self, bouts: BoutArrays) -> None:
        self.wrestlers = bouts.wrestlers
        self.wins = bouts.wins()
        self._place = {wrestler: at for at, wrestler in enumerate(bouts.wrestlers)}
        self._products: dict[tuple[str, Repeats], Matrix] = {}

    @classmethod
    def of(cls, season: Season, counted: Counted) -> "SeasonMatrices":
        """Those of a season, made once per way of counting."""

        def made() -> SeasonMatrices:
            bouts = (bout for bout in season.bouts if counted.counts(bout, season))
            return cls(BoutArrays.of(bouts, season.entrants))

        return season.once((cls, counted), made)

    @cached_property
    def head_to_head(self) -> Matrix:
        """Bouts won less bouts lost; below 0 the column's wrestler is ahead."""
        return (self.wins - self.wins.T).tocsr()

    @cached_property
    def met(self) -> Matrix:
        """1 where the two have met."""
        return _ones((self.wins + self.wins.T).tocsr())

    @cached_property
    def common(self) -> Matrix:
        """How many opponents two share; the two themselves are none. Diagonal: all opponents."""
        return self.met @ self.met

    def against_common(self, repeats: Repeats) -> Matrix:
        """Wins of the row's wrestler over those whom the column's has met as well."""
        return self._product("won", repeats)

    def lost_to_common(self, repeats: Repeats) -> Matrix:
        """Losses of the row's wrestler to those whom the column's has met as well."""
        return self._product("lost", repeats)

    def beat_who_beat(self, repeats: Repeats) -> Matrix:
        """How many the row's wrestler beat who beat the column's."""
        return self._product("beat who beat", repeats)

    def _product(self, what: str, repeats: Repeats) -> Matrix:
        if (what, repeats) not in self._products:
            won = self.wins if repeats is Repeats.EVERY_BOUT else _ones(self._leads)
            right = self.met if what != "beat who beat" else _ones(won)
            left = {"won": won, "lost": won.T.tocsr(), "beat who beat": right}[what]
            self._products[what, repeats] = left @ right
        return self._products[what, repeats]

    @cached_property
    def _leads(self) -> Matrix:
        """Where the row's wrestler is ahead in bouts with the column's."""
        ahead = self.head_to_head.copy()
        ahead.data = np.maximum(ahead.data, 0)
        ahead.eliminate_zeros()
        return ahead

    def pair(self, a: str, b: str, repeats: Repeats = Repeats.EVERY_BOUT) -> Meeting:
        """What the matrices hold of two wrestlers. KeyError: one of them is not in the season."""
        i, j = self._place[a], self._place[b]
        return Meeting(
            won=int(self.wins[i, j]),
            lost=int(self.wins[j, i]),
            common=int(self.common[i, j]),
            first=self._against(i, j, repeats),
            second=self._against(j, i, repeats),
        )

    def _against(self, i: int, j: int, repeats: Repeats) -> Against:
        return Against(
            int(self.against_common(repeats)[i, j]),
            int(self.lost_to_common(repeats)[i, j]),
            int(self.beat_who_beat(repeats)[i, j]),
        )

    def chain(self, a: str, b: str) -> tuple[str, ...]:
        """The shortest chain of wins from `a` down to `b`, both ends named; empty: there is none.

        Of several equally short ones the first by ids. KeyError: one is not in the season.
        """
        steps = self._steps_down_to(self._place[b])
        at = self._place[a]
        if not np.isfinite(steps[at]):
            return ()
        found = [at]
        while steps[at]:
            beaten = self.wins.indices[self.wins.indptr[at] : self.wins.indptr[at + 1]]
            at = int(beaten[steps[beaten] == steps[at] - 1].min())
            found.append(at)
        return tuple(self.wrestlers[place] for place in found)

    def _steps_down_to(self, end: int) -> Floats:
        """Length of the shortest chain of wins from everybody to one; infinite: none."""
        upward = self.wins.T.tocsr()
        return csgraph.shortest_path(upward, method="D", unweighted=True, indices=end)


def _ones(matrix: Matrix) -> Matrix:
    """1 wherever the matrix has a cell."""
    return sparse.csr_array(
        (np.ones_like(matrix.data), matrix.indices, matrix.indptr), matrix.shape
    )
