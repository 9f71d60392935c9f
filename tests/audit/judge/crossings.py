"""Crossings: to which consolation bout the losers of a championship round drop."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import product


def mask(name: str, bouts: int) -> int:
    """The exclusive or that a named crossing is, with positions counted from 0."""
    return {
        "straight": 0,
        "reversed": bouts - 1,
        "half-swap": bouts // 2,
        "within-half": max(bouts // 2 - 1, 0),
    }[name]


def meetings(chosen: list[int], rounds: int) -> list[int]:
    """When opponents of each championship round can meet again at the earliest.

    The number of a consolation round; one above the last is a bout for a place.
    """
    drops = [0, *chosen]
    return [
        min(meeting(drops[r - 1], drops[s - 1], r, s) for s in range(r + 1, rounds))
        for r in range(1, rounds - 1)
    ]


def meeting(first: int, second: int, r: int, s: int) -> int:
    """Where a loser of round r meets one who beat him and lost in round s."""
    apart = second ^ (first >> (s - r))
    return 2 * (s - 1) + (2 * apart.bit_length() - 1 if apart else 0)


LATEST_256 = [9, 10, 11, 11, 12, 13]  # published beside the setting; 13 is a bout for a place


@cache
def latest(rounds: int) -> list[int]:
    """The meetings of the crossings that bring earlier opponents together latest.

    The text does not say which of several are taken, nor how the rounds are weighed against each
    other. Read here: the earliest meeting of all as late as possible, then the next one. So this
    gives the meetings, lowest first, not the crossings.
    """
    if rounds == 8:
        return sorted(LATEST_256)
    sizes = [range(2 ** (rounds - n)) for n in range(2, rounds)]
    return max(sorted(meetings(list(chosen), rounds)) for chosen in product(*sizes))


@cache
def best(allowed: tuple[tuple[int, ...], ...], rounds: int) -> tuple[int, ...]:
    """Of the crossings that are allowed in each round those that meet latest."""
    if rounds == 8:
        allowed = tuple(some[:1] for some in allowed)  # too many to try
    return max(product(*allowed), key=lambda chosen: sorted(meetings(list(chosen), rounds)))


def masks(setting: str | list[str], rounds: int, seen: dict[int, set[int]]) -> list[int]:
    """One mask for each round from the second to the semifinals.

    `seen`: what the document allows in each round, which is taken where crossings are searched.
    """
    if setting == "latest":
        allowed = [seen.get(n) or set(range(2 ** (rounds - n))) for n in range(2, rounds)]
        return list(best(tuple(tuple(sorted(some)) for some in allowed), rounds))
    sizes = [2 ** (rounds - n) for n in range(2, rounds)]
    return [mask(name, size) for name, size in zip(setting, sizes, strict=True)]


def faults(setting: str | list[str], rounds: int, seen: dict[int, set[int]]) -> Iterator[str]:
    """Where crossings that were searched are no exchanges, or not the latest."""
    if setting != "latest":
        return
    for number, found in sorted(seen.items()):
        if not found:
            yield f"losers of championship round {number} drop by no one exchange"
    if len(seen) == rounds - 2 and all(len(found) == 1 for found in seen.values()):
        met = meetings(masks(setting, rounds, seen), rounds)
        if sorted(met) != latest(rounds):
            yield f"opponents meet again in {met} at the earliest, the latest is {latest(rounds)}"
