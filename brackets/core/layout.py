"""The geometry of a sheet: where each box stands and how the lines between them run.

One time axis: a column holds what can be wrestled at the same time, at most one round of either
side, the championship side above, the consolation side below; the placing bouts share the last
column, what is wrestled only after them stands in one more. Units are free; y grows downwards.
Texts are not placed here: a box has room for two lines.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from brackets.core.graph import Beaten, BoutKey, Bracket, Exit, From, Round, Source
from brackets.core.rows import below, rows_of, time_columns
from brackets.core.sources import victims

WIDTH, HEIGHT = 150.0, 40.0
GUTTER, GAP = 14.0, 15.0
MARGIN, HEADING, LANE = 10.0, 24.0, 20.0
STUB = 60.0
ROW = HEIGHT + GAP

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Box:
    """The box of a bout or bye: time column from 1, top left corner, width and height."""

    key: BoutKey
    column: int
    x: float
    y: float
    w: float
    h: float
    bye: bool

    def port(self, slot: int) -> Point:
        """Where a line into the top (0) or bottom (1) side ends."""
        return self.x, self.y + self.h * (1 + 2 * slot) / 4

    def out(self) -> Point:
        """Where the lines out of the box begin."""
        return self.x + self.w, self.y + self.h / 2


@dataclass(frozen=True, slots=True)
class Connector:
    """A way from one box into a side of another, as the points of a line of right angles."""

    source: BoutKey
    exit: Exit
    target: BoutKey
    slot: int
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Stub:
    """The winner of a box goes on in a box of another part; `at`: where words about it begin."""

    source: BoutKey
    target: BoutKey
    at: Point


@dataclass(frozen=True, slots=True)
class Column:
    """A time column and the codes of the rounds in it, in running order."""

    number: int
    x: float
    w: float
    above: tuple[str, ...]
    below: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Layout:
    """A sheet, or a part of one. `winners` are always drawn; `drops` (a loser's way, certain or
    not) only when lit up; `stubs` lead to other parts.

    `top` and `middle` are the base lines for the headings of the two sides, `middle` None where
    there is nothing below.
    """

    boxes: tuple[Box, ...]
    winners: tuple[Connector, ...]
    drops: tuple[Connector, ...]
    stubs: tuple[Stub, ...]
    columns: tuple[Column, ...]
    width: float
    height: float
    top: float
    middle: float | None


def layout(bracket: Bracket) -> Layout:
    """The sheet of a bracket: a box for every bout and every bye of the draw, none for the rest."""
    return lay_out(bracket, tuple(bracket.sources), time_columns(bracket))


def lay_out(bracket: Bracket, nodes: Sequence[BoutKey], columns: Mapping[str, int]) -> Layout:
    """The sheet of some nodes, in running order; `columns` are the time columns of all rounds.

    The first column that any of the nodes stands in is at the left.
    """
    drawn = bracket.byes.union(bracket.bouts).intersection(nodes)
    columns = _shifted(columns, drawn)
    rows = rows_of(bracket, nodes)
    lane = _lane(bracket, rows, drawn)
    boxes = {key: _box(bracket, key, columns, rows, lane) for key in nodes if key in drawn}
    ways = tuple(_connectors(bracket, boxes, lane))
    stubs = tuple(_stubs(bracket, boxes))
    under = any(below(bracket.round_of(key)) for key in boxes)
    reach = max(box.x + box.w for box in boxes.values()) + MARGIN
    return Layout(
        boxes=tuple(boxes.values()),
        winners=tuple(way for way in ways if way.exit is Exit.WINNER),
        drops=tuple(way for way in ways if way.exit is Exit.LOSER),
        columns=tuple(_columns(bracket.rounds, columns, {key.round for key in boxes})),
        stubs=stubs,
        width=max([reach, *(stub.at[0] + STUB for stub in stubs)]),
        height=max(box.y + box.h for box in boxes.values()) + MARGIN,
        top=MARGIN + HEADING / 2,
        middle=lane + LANE if under else None,
    )


def _shifted(columns: Mapping[str, int], drawn: Iterable[BoutKey]) -> Mapping[str, int]:
    first = min(columns[key.round] for key in drawn)
    return {code: number - first + 1 for code, number in columns.items()}


def _stubs(bracket: Bracket, boxes: Mapping[BoutKey, Box]) -> Iterator[Stub]:
    for key, box in boxes.items():
        seat = bracket.onward(key, Exit.WINNER)
        if seat and seat.bout not in boxes and seat.bout in bracket.bouts:
            x, y = box.out()
            yield Stub(key, seat.bout, (x + GUTTER / 2, y))


def _lane(bracket: Bracket, rows: Mapping[BoutKey, float], drawn: Iterable[BoutKey]) -> float:
    """The height of the free strip between the two sides."""
    above = [rows[key] for key in drawn if not below(bracket.round_of(key))]
    return MARGIN + HEADING + max(above) * ROW + HEIGHT + LANE if above else MARGIN


def _box(
    bracket: Bracket,
    key: BoutKey,
    columns: Mapping[str, int],
    rows: Mapping[BoutKey, float],
    lane: float,
) -> Box:
    start = lane + LANE + HEADING if below(bracket.round_of(key)) else MARGIN + HEADING
    column = columns[key.round]
    x = MARGIN + (column - 1) * (WIDTH + GUTTER)
    return Box(key, column, x, start + rows[key] * ROW, WIDTH, HEIGHT, key in bracket.byes)


def _connectors(bracket: Bracket, boxes: Mapping[BoutKey, Box], lane: float) -> Iterator[Connector]:
    for key, target in boxes.items():
        for slot, side in enumerate(bracket.sources[key]):
            for bout, way in _ways(bracket, side):
                if bout in boxes:
                    points = tuple(_line(boxes[bout], target, slot, way, lane))
                    yield Connector(bout, way, key, slot, points)


def _ways(bracket: Bracket, side: Source) -> Iterator[tuple[BoutKey, Exit]]:
    """The bouts out of which somebody may come to a side, and how."""
    if isinstance(side, Beaten):
        for bout in victims(bracket.sources, side):
            if bout in bracket.bouts:
                yield bout, Exit.LOSER
    elif isinstance(side, From) and (side.exit is Exit.WINNER or side.bout not in bracket.byes):
        yield side.bout, side.exit


def _line(source: Box, target: Box, slot: int, way: Exit, lane: float) -> Iterator[Point]:
    """Right angles, turning in the gutters; a loser's way over several columns takes the lane."""
    (x, y), (end_x, end_y) = source.out(), target.port(slot)
    turn = end_x - GUTTER / 2
    yield x, y
    if way is Exit.LOSER and target.column > source.column + 1:
        yield from ((x + GUTTER / 2, y), (x + GUTTER / 2, lane), (turn, lane))
    else:
        yield turn, y
    yield turn, end_y
    yield end_x, end_y


def _columns(
    rounds: Iterable[Round], numbers: Mapping[str, int], drawn: Collection[str]
) -> Iterator[Column]:
    shown = [one for one in rounds if one.code in drawn]
    for number in sorted({numbers[one.code] for one in shown}):
        here = [one for one in shown if numbers[one.code] == number]
        yield Column(
            number,
            MARGIN + (number - 1) * (WIDTH + GUTTER),
            WIDTH,
            tuple(one.code for one in here if not below(one)),
            tuple(one.code for one in here if below(one)),
        )
