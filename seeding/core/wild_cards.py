"""Who of those that did not advance comes in all the same, and who stands by.

The order of the candidates is that of the rule book's own list (`seeding.core.order`); its best
are the wild cards, the next the alternates. Alternates step in down this one list, whatever the
region of whom they replace: no source found for a region-first rule.
"""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Choice:
    """The candidates (by wrestler), best first in each part."""

    wild_cards: tuple[str, ...]
    alternates: tuple[str, ...]
    rest: tuple[str, ...]


def choose(order: Sequence[str], wild_cards: int, alternates: int) -> Choice:
    """Part the candidates, best first, into wild cards, alternates and the rest.

    >>> choose("abcde", 1, 2)
    Choice(wild_cards=('a',), alternates=('b', 'c'), rest=('d', 'e'))
    """
    last = wild_cards + alternates
    return Choice(tuple(order[:wild_cards]), tuple(order[wild_cards:last]), tuple(order[last:]))
