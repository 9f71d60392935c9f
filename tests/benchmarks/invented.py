"""An invented season of any size, the same for the same seed."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from seeding.core.matrices import BoutArrays

Places = npt.NDArray[np.int64]
WEIGHTS = 10
TWO_A_WEIGHT = 2 * WEIGHTS  # wrestlers of a team
NEAR = 15  # teams, on the mean, between two who meet
ANOTHER_WEIGHT = 0.06


@dataclass(frozen=True, slots=True, eq=False)
class Invented:
    """The same bouts for both sides: as arrays, and as pairs of winner and loser."""

    arrays: BoutArrays
    pairs: list[tuple[int, int]]


def invented_season(wrestlers: int, bouts: int, seed: int = 2025) -> Invented:
    """Teams of two at each of ten weights; most bouts inside a weight, more with near teams."""
    random = np.random.default_rng(seed)
    one = random.integers(0, wrestlers, 2 * bouts)
    other = _opponents(one, wrestlers, random)
    met = np.flatnonzero(one != other)[:bouts]
    one, other = one[met], other[met]
    strength = random.normal(0, 1.5, wrestlers)
    upper = random.random(bouts) < 1 / (1 + np.exp(strength[other] - strength[one]))
    winner = np.where(upper, one, other).astype(np.int32)
    loser = np.where(upper, other, one).astype(np.int32)
    names = tuple(f"w{at:05}" for at in range(wrestlers))
    pairs = list(zip(winner.tolist(), loser.tolist(), strict=True))
    return Invented(BoutArrays(names, winner, loser), pairs)


def _opponents(one: Places, wrestlers: int, random: np.random.Generator) -> Places:
    """Of another or the same team, at the same weight or the next."""
    size = len(one)
    teams = wrestlers // TWO_A_WEIGHT
    away = random.geometric(1 / NEAR, size) * random.choice((-1, 1), size)
    team = (one // TWO_A_WEIGHT + away) % teams
    step = np.where(random.random(size) < ANOTHER_WEIGHT, random.choice((-1, 1), size), 0)
    weight = np.clip(one % WEIGHTS + step, 0, WEIGHTS - 1)
    return np.asarray(team * TWO_A_WEIGHT + WEIGHTS * random.integers(0, 2, size) + weight)
