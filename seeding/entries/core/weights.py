"""Weights as people write them in a file."""

import re
from collections.abc import Mapping, Sequence

from seeding.entries.core.spelling import folded

HEAVYWEIGHT = ("hwt", "hvy", "heavyweight", "heavy")
LEAST_HEAVY = 200  # pounds; common practice, no source: below it a weight is not called heavy
_UNIT = re.compile(r"\s*(lbs?|pounds?|kgs?|kilos?|#)\.?$")


def bare_weight(text: str) -> str:
    """The weight without its unit.

    >>> bare_weight("125 lbs."), bare_weight("125.0"), bare_weight("Boys A")
    ('125', '125', 'boys a')
    """
    return _UNIT.sub("", folded(text)).removesuffix(".0")


def weight_words(labels: Sequence[str]) -> Mapping[str, str]:
    """The label for every bare way to write it; "heavyweight" is the last of numbered weights.

    Only a weight of 200 or more is meant by it: where the last is lighter, the word means none.

    >>> weight_words(["197", "285"])["hwt"]
    '285'
    >>> "hwt" in weight_words(["133", "149"])
    False
    """
    known = {bare_weight(label): label for label in labels}
    numbered = bool(labels) and all(word.isdecimal() for word in known)
    heavy = numbered and int(bare_weight(labels[-1])) >= LEAST_HEAVY
    return known | dict.fromkeys(HEAVYWEIGHT, labels[-1]) if heavy else known
