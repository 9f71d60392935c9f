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


LATEST_256 = [9, 10, 11, 11, 12, 13]  # by a search of all; 13 is a bout for a place


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


def order(mask: int, bouts: int) -> list[int]:
    """The bouts whose losers meet the winners of consolation bouts 1, 2, ..."""
    return [(index ^ mask) + 1 for index in range(bouts)]


def sizes(rounds: int) -> list[int]:
    """How many bouts the second round to the semifinals have."""
    return [2 ** (rounds - number) for number in range(2, rounds)]


def masks(setting: str | list[str], rounds: int, told: list[list[int]]) -> list[int]:
    """One mask for each round from the second to the semifinals.

    Where crossings are searched those that the document tells are taken, and straight ones where
    it tells none that are an exchange.
    """
    if setting != "latest":
        return [mask(name, size) for name, size in zip(setting, sizes(rounds), strict=True)]
    by_round = dict(enumerate(told))
    found = [exchange(by_round.get(index, []), size) for index, size in enumerate(sizes(rounds))]
    return [one or 0 for one in found]


def exchange(told: list[int], bouts: int) -> int | None:
    """The mask that gives an order; None where none does."""
    first = told[0] - 1 if told else 0
    return first if told == order(first, bouts) else None


def faults(setting: str | list[str], rounds: int, told: list[list[int]], way: str) -> Iterator[str]:
    """Where the crossings that a document tells are not those of the rule book.

    `way`: who wrestles back; where nobody does whom a crossing could send, those that are searched
    have no meaning.
    """
    if setting != "latest":
        by_name = zip(masks(setting, rounds, told), sizes(rounds), strict=True)
        if told != (meant := [order(one, size) for one, size in by_name]):
            yield f"crossings {told}, by the rules {meant}"
        return
    searched = [exchange(one, size) for one, size in zip(told, sizes(rounds), strict=False)]
    if len(told) != rounds - 2 or None in searched:
        yield f"crossings {told} are not one exchange for each round from the second"
    elif way not in ("finalists", "nobody"):
        met = meetings(masks(setting, rounds, told), rounds)
        if sorted(met) != latest(rounds):
            yield f"opponents meet again in {met} at the earliest, the latest is {latest(rounds)}"
