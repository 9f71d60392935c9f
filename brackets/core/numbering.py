"""Bout numbers through a tournament, and a mat for each bout."""

from collections.abc import Mapping, Sequence
from itertools import groupby

from brackets.core.graph import BoutKey, Bracket

Bout = tuple[str, BoutKey]
"""A bout of a tournament: its weight and its key there."""


def number(weights: Sequence[tuple[str, Bracket]]) -> dict[Bout, int]:
    """A number from 1 for every real bout; `weights` from light to heavy.

    Rounds follow each other by their times (see `plan`); within a time the weights from light to
    heavy, within a weight from top to bottom. Brackets of different size are aligned from the end,
    semifinal with semifinal; the last round of a round robin goes with the last elimination round
    before the finals, each earlier one with the championship round before. Byes have no number. A
    bout that may turn out not to be needed has one, after all finals where it is wrestled last.

    Sources: the order of rounds is that of two published championships of ten 33-entry brackets;
    the alignment of other sizes and formats is common sense, no source.
    """
    order = sorted(
        (bracket.round_of(key).when, weight, i)
        for weight, (_, bracket) in enumerate(weights)
        for i, key in enumerate(bracket.bouts)
    )
    return {
        (weights[weight][0], weights[weight][1].bouts[i]): at
        for at, (_, weight, i) in enumerate(order, start=1)
    }


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
