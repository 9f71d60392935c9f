"""Head-to-head and common opponents of all pairs of a season: matrices against Python's sets."""

from collections import Counter
from collections.abc import Iterator, Sequence

from seeding.core.matrices import BoutArrays, Matrix, SeasonMatrices
from tests.benchmarks.invented import invented_season
from tests.benchmarks.row import Row, in_turn

GOAL = 15
Pair = tuple[int, int]


def rows(wrestlers: int = 6_000, bouts: int = 90_000, rounds: int = 5) -> Iterator[Row]:
    """Both sides begin with numbered wrestlers, as arrays and as pairs."""
    season = invented_season(wrestlers, bouts)
    times = in_turn(lambda: ours(season.arrays), lambda: reference(season.pairs), rounds, each=3)
    ratio = times.times_faster
    yield Row("season", times.ours, times.reference, ratio, f">= {GOAL}x", ratio >= GOAL)


def ours(bouts: BoutArrays) -> tuple[Matrix, Matrix]:
    matrices = SeasonMatrices(bouts)
    return matrices.head_to_head, matrices.common


def reference(bouts: Sequence[Pair]) -> tuple[dict[Pair, int], dict[int, Counter[int]]]:
    """Bouts won less bouts lost by pair; by wrestler, whom he shares how many opponents with.

    Counting whom the opponents of each met is faster than intersecting the sets of all pairs.
    """
    beat = Counter(bouts)
    met: dict[int, set[int]] = {}
    for winner, loser in bouts:
        met.setdefault(winner, set()).add(loser)
        met.setdefault(loser, set()).add(winner)
    ahead = {}
    for (winner, loser), won in beat.items():
        ahead[winner, loser] = won - beat.get((loser, winner), 0)
        ahead[loser, winner] = -ahead[winner, loser]
    common = {}
    for wrestler, opponents in met.items():
        common[wrestler] = shared = Counter[int]()
        for opponent in opponents:
            shared.update(met[opponent])
    return ahead, common
