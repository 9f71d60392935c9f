"""Fields of wrestlers who beat each other, for the tests of circles and violations."""

from collections.abc import Iterable, Sequence
from itertools import combinations
from math import exp
from random import Random

from seeding.core.circles import Beat


def over(*pairs: str) -> tuple[Beat, ...]:
    """`"AB"`: A stands over B."""
    return tuple(Beat(pair[0], pair[1], (), "head-to-head") for pair in pairs)


def rotational(size: int, steps: Sequence[int]) -> tuple[Beat, ...]:
    """Each beats those so many places further round."""
    names = field(size)
    return tuple(
        Beat(names[at], names[(at + step) % size], ()) for at in range(size) for step in steps
    )


def field(size: int) -> list[str]:
    return [f"w{number:02}" for number in range(size)]


def complete(size: int, seed: int, order: float) -> tuple[Beat, ...]:
    """Everybody met everybody once; strengths count the more, the higher `order`; 0 = pure luck."""
    return _bouts(Random(seed), size, combinations(field(size), 2), order)


def season(size: int, seed: int, met: int, order: float = 1.5) -> tuple[Beat, ...]:
    """Each met `met` others, some of them twice: strengths of a normal spread, and upsets."""
    random = Random(seed)
    pairs = list(combinations(field(size), 2))
    chosen = random.sample(pairs, size * met // 2)
    again = random.sample(chosen, len(chosen) // 5)
    return _bouts(random, size, chosen + again, order)


def _bouts(
    random: Random, size: int, pairs: Iterable[tuple[str, str]], order: float
) -> tuple[Beat, ...]:
    strength = {name: random.gauss(0, 1) for name in field(size)}
    beats = []
    for a, b in pairs:
        chance = 1 / (1 + exp(order * (strength[b] - strength[a])))
        better, worse = (a, b) if random.random() < chance else (b, a)
        beats.append(Beat(better, worse, ()))
    return tuple(beats)
