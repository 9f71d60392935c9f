"""Bout numbers through a tournament, and a mat for each bout."""

from collections.abc import Mapping, Sequence
from itertools import groupby

from brackets.core.graph import BoutKey, Bracket, Section

Bout = tuple[str, BoutKey]
"""A bout of a tournament: its weight and its key there."""

_PLACING = {"7th": 4, "5th": 5, "3rd": 6, "1st": 7}
_BEFORE = {"SF": -1, "QF": -2}


def number(weights: Sequence[tuple[str, Bracket]]) -> dict[Bout, int]:
    """A number from 1 for every real bout; `weights` from light to heavy.

    Rounds follow each other in running order; within a round the weights from light to heavy,
    within a weight from top to bottom. Brackets of different size are aligned from the end,
    semifinal with semifinal; the last round of a round robin goes with the last elimination round
    before the finals, each earlier one with the championship round before. Byes have no number.

    Sources: the order of rounds is that of two published championships of ten 33-entry brackets;
    the alignment of other sizes is common sense, no source.
    """
    order = sorted(
        (_slot(bracket, key), weight, i)
        for weight, (_, bracket) in enumerate(weights)
        for i, key in enumerate(bracket.bouts)
    )
    return {
        (weights[weight][0], weights[weight][1].bouts[i]): at
        for at, (_, weight, i) in enumerate(order, start=1)
    }


def _slot(bracket: Bracket, key: BoutKey) -> tuple[int, int]:
    """A round's place in the running order of all sizes: championship rounds before the final
    (0 or less), then the place among the rounds that come with it."""
    here = bracket.round_of(key)
    if here.section is Section.POOL:
        return here.column - len(bracket.rounds), 1
    if here.code in _PLACING:
        return 0, _PLACING[here.code]
    last = len(bracket.lines).bit_length() - 1
    if here.code in _BEFORE:
        return _BEFORE[here.code], 0
    if here.code == "P":
        return 1 - last, -1
    if here.code == "CP":
        return 2 - last, 1
    if here.section is Section.CHAMPIONSHIP:
        return int(here.code.removeprefix("R")) - last, 0
    drop = int(here.code.removeprefix("C"))
    return (drop + 4) // 2 - last, 2 + drop % 2


def mats(
    numbers: Mapping[Bout, int], columns: Mapping[Bout, int], names: Sequence[str]
) -> dict[Bout, str]:
    """A mat for every numbered bout: within a column, in order of number, one mat after another.

    `columns`: the running-order column of each bout; `names`: the mats. Rest and times are not
    looked at.
    """
    order = sorted(numbers, key=lambda bout: (columns[bout], numbers[bout]))
    return {
        bout: names[i % len(names)]
        for _, column in groupby(order, key=lambda bout: columns[bout])
        for i, bout in enumerate(column)
    }
