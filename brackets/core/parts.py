"""A large sheet in parts: halves, quarters, eighths, ..., and what follows them.

All parts keep the one time axis of the sheet: a part holds some columns of it, and in them the
championship side above and the consolation side below. The first columns are cut across into as
many parts as make each of them low enough, as long as no bout stands on a cut and they are not too
many; the columns after them are taken likewise.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from brackets.core.graph import BoutKey, Bracket, Exit
from brackets.core.layout import Layout, lay_out
from brackets.core.rows import PIGTAILS, below, time_columns

MOST_PARTS = 64


@dataclass(frozen=True, slots=True)
class Part:
    """One part: number `number` of `of` that share the same columns, from the top."""

    number: int
    of: int
    layout: Layout


@dataclass(frozen=True, slots=True)
class _Cut:
    bracket: Bracket
    columns: Mapping[str, int]
    counts: Mapping[str, int]
    high: int
    wide: int

    def nodes(self, column: int) -> list[BoutKey]:
        return [key for key in self.bracket.sources if self.columns[key.round] == column]

    def window(self, key: BoutKey, of: int) -> int | None:
        """The part of `of` that a node stands in, None where it stands on a cut."""
        if key.round in PIGTAILS:
            seat = self.bracket.onward(key, Exit.WINNER)
            return self.window(seat.bout, of) if seat else None
        count = self.counts[key.round]
        if self.bracket.round_of(key).placing or count % of:
            return None
        return (key.position - 1) * of // count

    def whole(self, column: int, of: int) -> bool:
        """Whether no bout of a column stands on a cut."""
        return all(self.window(key, of) is not None for key in self.nodes(column))

    def rows(self, columns: Sequence[int]) -> int:
        """The rows that these columns take in one part."""
        above: list[int] = [0]
        under: list[int] = [0]
        for column in columns:
            nodes = self.nodes(column)
            low = sum(below(self.bracket.round_of(key)) for key in nodes)
            above.append(len(nodes) - low)
            under.append(low)
        return max(above) + max(under)


def parts(bracket: Bracket, high: int, wide: int) -> tuple[Part, ...]:
    """The sheet in parts of at most so many rows and columns; in one if that is enough.

    A bracket of 2^k lines takes 2^(k-1) rows above and half as many below. Where a bout would
    stand on a cut, a part is higher than that.
    """
    columns = time_columns(bracket)
    counts = {one.code: 0 for one in bracket.rounds}
    for key in bracket.sources:
        counts[key.round] += 1
    cut = _Cut(bracket, columns, counts, high, wide)
    drawn = bracket.byes.union(bracket.bouts)
    return tuple(
        Part(number, of, lay_out(bracket, nodes, columns))
        for number, of, nodes in _cut(cut, sorted(set(columns.values())))
        if not drawn.isdisjoint(nodes)
    )


def _cut(cut: _Cut, columns: Sequence[int]) -> Iterator[tuple[int, int, list[BoutKey]]]:
    of = 1
    while cut.rows(columns) > cut.high * of and cut.whole(columns[0], 2 * of) and of < MOST_PARTS:
        of *= 2
    end = next((at for at, one in enumerate(columns) if not cut.whole(one, of)), len(columns))
    here = _narrow(columns[:end] if of > 1 else columns, cut.wide)
    nodes = [key for key in cut.bracket.sources if cut.columns[key.round] in here]
    for number in range(of):
        inside = [key for key in nodes if of == 1 or cut.window(key, of) == number]
        yield number + 1, of, inside
    if len(here) < len(columns):
        yield from _cut(cut, columns[len(here) :])


def _narrow(columns: Sequence[int], wide: int) -> Sequence[int]:
    """So many of the first columns that the rest fills parts of about the same width."""
    pieces = -(-len(columns) // wide)
    return columns[: -(-len(columns) // pieces)]
