"""Glicko-2: strength, how sure it is, and how much it swings, period by period.

Source: published: Glickman, Example of the Glicko-2 system; steps 2 to 8 by their numbers.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np

from seeding.core.matrices import BoutArrays, Floats, Indices
from seeding.core.season import PriorBout

SCALE = 173.7178
SETTLED = 1e-12
Curve = Callable[[Floats], Floats]


@dataclass(frozen=True, slots=True)
class GlickoSettings:
    """Where everybody starts, and `tau`, how fast volatility may change (published: .3 to 1.2)."""

    rating: float = 1500
    deviation: float = 350
    volatility: float = 0.06
    tau: float = 0.5


@dataclass(frozen=True, slots=True, eq=False)
class Glicko:
    """Everybody's rating, its deviation, both on Elo's scale, and volatility."""

    rating: Floats
    deviation: Floats
    volatility: Floats

    @classmethod
    def start(cls, count: int, settings: GlickoSettings) -> "Glicko":
        values = settings.rating, settings.deviation, settings.volatility
        return cls(*(np.full(count, float(value)) for value in values))


def weeks(bouts: Iterable[PriorBout], days: int = 7) -> Indices:
    """Each bout's period of so many days; weeks begin on Monday, whatever the first bout is."""
    return np.array([(bout.date.toordinal() - 1) // days for bout in bouts], dtype=np.int32)


def glicko(bouts: BoutArrays, periods: Indices, settings: GlickoSettings) -> Glicko:
    """The ratings after the last period; periods in between without any bout pass for all alike.

    Bouts of one period count as wrestled at once, so their order is nothing. A wrestler's deviation
    grows in periods without bouts, also before his first.
    """
    order = np.lexsort((bouts.loser, bouts.winner, periods))
    winner, loser, period = bouts.winner[order], bouts.loser[order], periods[order]
    state = Glicko.start(len(bouts), settings)
    if len(period):
        for at in range(int(period[0]), int(period[-1]) + 1):
            now = slice(*np.searchsorted(period, [at, at + 1]))
            state = after(state, winner[now], loser[now], settings.tau)
    return state


def after(before: Glicko, winner: Indices, loser: Indices, tau: float) -> Glicko:
    """The ratings after one period with these bouts."""
    count = len(before.rating)
    mu, phi = (before.rating - 1500) / SCALE, before.deviation / SCALE
    one, other = np.concatenate((winner, loser)), np.concatenate((loser, winner))
    score = np.repeat((1.0, 0.0), len(winner))
    certain = 1 / np.sqrt(1 + 3 * phi[other] ** 2 / np.pi**2)
    expected = 1 / (1 + np.exp(-certain * (mu[one] - mu[other])))
    known = np.bincount(one, certain**2 * expected * (1 - expected), count)
    gain = np.bincount(one, certain * (score - expected), count)
    played = np.bincount(one, minlength=count) > 0
    swing = before.volatility.copy()
    swing[played] = _volatility(
        swing[played], phi[played], 1 / known[played], gain[played] / known[played], tau
    )
    wide = phi**2 + swing**2
    narrow = 1 / (1 / wide + known)
    return Glicko(1500 + SCALE * (mu + narrow * gain), SCALE * np.sqrt(narrow), swing)


def _volatility(sigma: Floats, phi: Floats, v: Floats, delta: Floats, tau: float) -> Floats:
    """Step 5, the Illinois algorithm, for all at once; letters are those of the paper."""
    a = np.log(sigma**2)

    def f(x: Floats) -> Floats:
        e = np.exp(x)
        d = phi**2 + v + e
        value: Floats = e * (delta**2 - d) / (2 * d**2) - (x - a) / tau**2
        return value

    root: Floats = _root(f, a, _other_side(f, a, delta**2 - phi**2 - v, tau))
    return np.exp(root / 2)


def _other_side(f: Curve, a: Floats, excess: Floats, tau: float) -> Floats:
    """A place on the other side of the root than `a`."""
    far = a - tau
    while (short := (excess <= 0) & (f(far) < 0)).any():
        far[short] -= tau
    above = excess > 0
    far[above] = np.log(excess[above])
    return far


def _root(f: Curve, low: Floats, high: Floats) -> Floats:
    f_low, f_high = f(low), f(high)
    while (going := np.abs(high - low) > SETTLED).any():
        spread = np.where(going, f_high - f_low, 1)
        middle = np.where(going, low + (low - high) * f_low / spread, high)
        f_middle = f(middle)
        crossed = going & (f_middle * f_high <= 0)
        low = np.where(crossed, high, low)
        f_low = np.where(crossed, f_high, np.where(going, f_low / 2, f_low))
        high, f_high = middle, f_middle
    return low
