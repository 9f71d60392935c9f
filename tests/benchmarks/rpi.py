"""RPI of everybody in a season: arrays against plain Python."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from seeding.core.matrices import BoutArrays, Floats
from seeding.core.ratings.percentages import percentages
from seeding.core.rpi import Reading
from tests.benchmarks.invented import invented_season
from tests.benchmarks.row import Row, in_turn

GOAL, NOISE = 80, 1e-12


def rows(wrestlers: int = 6_000, bouts: int = 90_000, rounds: int = 9) -> Iterator[Row]:
    """Both sides begin with numbered wrestlers, as arrays and as pairs."""
    season = invented_season(wrestlers, bouts)
    expected = reference(season.pairs)
    values = ours(season.arrays)[list(expected)]
    equal = bool(np.abs(values - list(expected.values())).max(initial=0) <= NOISE)
    times = in_turn(lambda: ours(season.arrays), lambda: reference(season.pairs), rounds, each=9)
    ratio = times.times_faster
    goal = f">= {GOAL}x, equal to {NOISE:g}"
    yield Row("rpi", times.ours, times.reference, ratio, goal, equal and ratio >= GOAL)


def ours(bouts: BoutArrays) -> Floats:
    return percentages(bouts, Reading.WITHOUT_THE_WRESTLER).rpi()


def reference(bouts: Sequence[tuple[int, int]]) -> dict[int, float]:
    """.25, .50, .25 of own, opponents' and their opponents' percentage, by wrestler."""
    beat = Counter(bouts)
    won: Counter[int] = Counter()
    lost: Counter[int] = Counter()
    met: dict[int, list[int]] = {}
    for winner, loser in bouts:
        won[winner] += 1
        lost[loser] += 1
        met.setdefault(winner, []).append(loser)
        met.setdefault(loser, []).append(winner)

    def without(opponent: int, wrestler: int) -> float | None:
        return _share(
            won[opponent] - beat[opponent, wrestler], lost[opponent] - beat[wrestler, opponent]
        )

    second = {one: _mean(without(other, one) for other in others) for one, others in met.items()}
    third = {one: _mean(second[other] for other in others) for one, others in met.items()}
    return {
        one: 0.25 * (_share(won[one], lost[one]) or 0)
        + 0.5 * (second[one] or 0)
        + 0.25 * (third[one] or 0)
        for one in met
    }


def _share(won: int, lost: int) -> float | None:
    return won / (won + lost) if won + lost else None


def _mean(values: Iterable[float | None]) -> float | None:
    known = [value for value in values if value is not None]
    return sum(known) / len(known) if known else None
