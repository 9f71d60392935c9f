"""Repeatable chance: decimal numbers, picks and yes-or-no out of the lot's documented stream."""

import math
from collections.abc import Mapping, Sequence
from typing import TypeVar

from seeding.core.lot import Lot

T = TypeVar("T")
_FINE = 1 << 53


class Chance:
    """Numbers from the stream of `seed` and `purpose`; another purpose gives unrelated ones."""

    def __init__(self, seed: str, purpose: str) -> None:
        self._lot = Lot(seed, purpose)

    def unit(self) -> float:
        """A number from 0 up to, not including, 1."""
        return self._lot.below(_FINE) / _FINE

    def yes(self, share: float) -> bool:
        """True in that share of all cases."""
        return self.unit() < share

    def normal(self, mean: float = 0.0, deviation: float = 1.0) -> float:
        """A normally distributed number (Box & Muller 1958)."""
        far = math.sqrt(-2.0 * math.log(1.0 - self.unit()))
        return mean + deviation * far * math.cos(2.0 * math.pi * self.unit())

    def between(self, least: int, most: int) -> int:
        """A whole number, both ends included."""
        return least + self._lot.below(most - least + 1)

    def pick(self, among: Sequence[T]) -> T:
        """One of them, each equally likely."""
        return among[self._lot.below(len(among))]

    def weighted(self, shares: Mapping[T, float]) -> T:
        """One of the keys, each as likely as its share of the sum."""
        left = self.unit() * sum(shares.values())
        keys = list(shares)
        for key in keys[:-1]:
            left -= shares[key]
            if left < 0:
                return key
        return keys[-1]

    def shuffled(self, seq: Sequence[T]) -> list[T]:
        """All of them, in any order."""
        return self._lot.shuffled(seq)
