"""Crossings: to which consolation bout the losers of a championship round drop."""

from __future__ import annotations

from functools import cache


def mask(name: str, bouts: int) -> int:
    """The exclusive or that a named crossing is, with positions counted from 0."""
    return {
        "straight": 0,
        "reversed": bouts - 1,
        "half-swap": bouts // 2,
        "within-half": max(bouts // 2 - 1, 0),
    }[name]


def masks(setting: str | list[str], rounds: int) -> list[int]:
    """One mask for each round from the second to the semifinals of so many rounds."""
    if setting == "latest":
        return list(latest(rounds))
    sizes = [2 ** (rounds - n) for n in range(2, rounds)]
    return [mask(name, size) for name, size in zip(setting, sizes, strict=True)]


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


@cache
def latest(rounds: int) -> tuple[int, ...]:
    """The crossings that bring first-round opponents together latest, then the next round's.

    The text does not say which of several equally good ones is taken: this takes the first,
    with masks in rising order from the second round on. Found from the semifinals backwards
    would be another reading.
    """
    best: tuple[list[int], tuple[int, ...]] = ([], ())
    stack: list[tuple[int, ...]] = [()]
    while stack:
        chosen = stack.pop()
        n = len(chosen) + 2
        if n == rounds:
            value = meetings(list(chosen), rounds)
            if value > best[0]:
                best = (value, chosen)
            continue
        reach = [
            min(meeting((0, *chosen)[r - 1], (0, *chosen)[s - 1], r, s) for s in range(r + 1, n))
            for r in range(1, n - 1)
        ]
        if best[0] and reach < best[0][: len(reach)]:
            continue
        stack.extend((*chosen, m) for m in reversed(range(2 ** (rounds - n))))
    return best[1]
