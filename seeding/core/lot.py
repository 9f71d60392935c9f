"""The lot: chance that anybody can repeat from a recorded seed, in any language, in ten years.

Stream, version 1: block i (from 0) is SHA-256 of the UTF-8 text ``lot/1|<seed>|<purpose>|<i>``;
its 32 bytes are four big-endian words of 8 bytes; the words of block 0, 1, 2, ... are the stream.
"""

from collections.abc import Iterator, Sequence
from hashlib import sha256
from typing import TypeVar

LOT_VERSION = 1
_WORDS = 1 << 64

T = TypeVar("T")


def _stream(seed: str, purpose: str) -> Iterator[int]:
    block = 0
    while True:
        digest = sha256(f"lot/{LOT_VERSION}|{seed}|{purpose}|{block}".encode()).digest()
        for start in range(0, 32, 8):
            yield int.from_bytes(digest[start : start + 8], "big")
        block += 1


class Lot:
    """Numbers drawn one after another from the stream of `seed` and `purpose`.

    The same seed and purpose always give the same numbers; another purpose ("draw/133",
    "seeding ties") gives unrelated ones, so that one recorded seed serves a whole tournament.
    """

    def __init__(self, seed: str, purpose: str) -> None:
        self.seed = seed
        self.purpose = purpose
        self._words = _stream(seed, purpose)

    def below(self, n: int) -> int:
        """A whole number from 0 to n-1, each equally likely.

        The next word w of the stream is taken modulo n; words at or above the largest multiple
        of n within 2**64 are thrown away, so no number is favoured.

        >>> lot = Lot("1912", "example")
        >>> [lot.below(6) for _ in range(8)]
        [2, 4, 5, 5, 5, 2, 5, 2]
        """
        if n < 1:
            raise ValueError(f"A lot among {n} is not possible.")
        limit = _WORDS - _WORDS % n
        return next(word for word in self._words if word < limit) % n

    def shuffled(self, seq: Sequence[T]) -> list[T]:
        """The members of `seq` in an order in which every order is equally likely.

        Fisher-Yates (Durstenfeld 1964): for i from the last place down to the second, the member
        at i changes places with the one at `below(i + 1)`.

        >>> Lot("1912", "example").shuffled("ABCDE")
        ['E', 'B', 'C', 'A', 'D']
        """
        drawn = list(seq)
        for i in range(len(drawn) - 1, 0, -1):
            j = self.below(i + 1)
            drawn[i], drawn[j] = drawn[j], drawn[i]
        return drawn
