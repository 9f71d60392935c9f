"""The geometry of a sheet: where each box stands and how the lines between them run.

One time axis: a column holds what can be wrestled at the same time, at most one round of either
side, the championship side above, the consolation side below; the placing bouts share the last
column, what is wrestled only after them stands in one more. Units are free; y grows downwards.
Texts are not placed here: a box has room for two lines.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from brackets.core.graph import BoutKey, Bracket, Exit, From, Round
from brackets.core.rows import below, rows_of, time_columns

WIDTH, HEIGHT = 150.0, 40.0
GUTTER, GAP = 14.0, 15.0
MARGIN, HEADING, LANE = 10.0, 24.0, 20.0
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
class Column:
    """A time column and the codes of the rounds in it, in running order."""

    number: int
    x: float
    w: float
    above: tuple[str, ...]
    below: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Layout:
    """A whole sheet. `winners` are always drawn; `drops` (a loser's way) only when lit up.

    `top` and `middle` are the base lines for the headings of the two sides, `middle` None where
    there is nothing below.
    """

    boxes: tuple[Box, ...]
    winners: tuple[Connector, ...]
    drops: tuple[Connector, ...]
    columns: tuple[Column, ...]
    width: float
    height: float
    top: float
    middle: float | None


def layout(bracket: Bracket) -> Layout:
    """The sheet of a bracket: a box for every bout and every bye of the draw, none for the rest."""
    drawn = bracket.byes.union(bracket.bouts)
    columns, rows = time_columns(bracket), rows_of(bracket)
    lane = _lane(bracket, rows, drawn)
    boxes = {
        key: _box(bracket, key, columns, rows, lane) for key in bracket.sources if key in drawn
    }
    ways = tuple(_connectors(bracket, boxes, lane))
    under = any(below(bracket.round_of(key)) for key in boxes)
    return Layout(
        boxes=tuple(boxes.values()),
        winners=tuple(way for way in ways if way.exit is Exit.WINNER),
        drops=tuple(way for way in ways if way.exit is Exit.LOSER),
        columns=tuple(_columns(bracket.rounds, columns, {key.round for key in boxes})),
        width=max(box.x + box.w for box in boxes.values()) + MARGIN,
        height=max(box.y + box.h for box in boxes.values()) + MARGIN,
        top=MARGIN + HEADING / 2,
        middle=lane + LANE if under else None,
    )


def _lane(bracket: Bracket, rows: Mapping[BoutKey, float], drawn: Iterable[BoutKey]) -> float:
    """The height of the free strip between the two sides."""
    above = [rows[key] for key in drawn if not below(bracket.round_of(key))]
    return MARGIN + HEADING + max(above) * ROW + HEIGHT + LANE


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
            if isinstance(side, From) and side.bout in boxes and _used(bracket, side):
                points = tuple(_line(boxes[side.bout], target, slot, side.exit, lane))
                yield Connector(side.bout, side.exit, key, slot, points)


def _used(bracket: Bracket, side: From) -> bool:
    return side.exit is Exit.WINNER or side.bout not in bracket.byes


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
