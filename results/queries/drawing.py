"""The drawing of a sheet as plain values for the template: places of texts, paths of lines."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.utils.translation import gettext as _

from brackets.core.layout import Box, Connector, Layout, Stub, layout
from brackets.core.parts import Part, parts
from results.queries.seen import Seen, Side
from results.queries.sheets import Sheet

LEAST = 1260.0  # a small bracket is not blown up to the width of the page
INSET = 6.0
SEED, DIGIT = 18.0, 7.0
MARK, SIGN = 12.0, 7.0  # how high the mark of a ruling is, and how wide a sign in it
BEYOND = 13.0  # so far it stands out of its box, over the gutter and the margin
HIGH, WIDE = 26, 10  # rows and columns that are legible on a page of 1280 pixels
LIFT = 8.0  # headings make room for the number over the first box


@dataclass(frozen=True, slots=True)
class Text:
    """Where a text stands."""

    x: float
    y: float


@dataclass(frozen=True, slots=True)
class SideDrawn:
    """A side of a box: the half of the box that it fills, and where its texts stand."""

    side: Side
    y: float
    seed: Text
    name: Text
    team: Text


@dataclass(frozen=True, slots=True)
class Mark:
    """The mark of rulings at the right edge of a box, and the middle of its text."""

    words: str
    x: float
    y: float
    w: float
    h: float
    text: Text


@dataclass(frozen=True, slots=True)
class BoxDrawn:
    """A bout with its box; `above` and `right` are the two ends of the line over the box."""

    bout: Seen
    box: Box
    middle: float
    sides: tuple[SideDrawn, SideDrawn]
    above: Text
    right: Text
    mark: Mark | None

    @property
    def remark(self) -> str:
        """What decided it, or whether it is needed."""
        if self.bout.spared:
            return _("not needed")
        if self.bout.unsure:
            return _("if needed")
        return _("will be a forfeit") if self.bout.forfeit else self.bout.decision

    @property
    def part(self) -> str:
        return "cons" if self.bout.round.section == "consolation" else "champ"

    @property
    def state(self) -> str:
        if self.bout.decided:
            return "decided"
        return {"ready": "ready", "waiting": "open"}.get(self.bout.status, "bye")


@dataclass(frozen=True, slots=True)
class Head:
    """The title over a column: a round's, or that of all placing bouts below."""

    code: str
    at: Text
    places: bool


@dataclass(frozen=True, slots=True)
class Way:
    """A line from a bout to the next; `drop`: the loser's."""

    source: str
    target: str
    points: tuple[tuple[float, float], ...]
    drop: bool

    @property
    def path(self) -> str:
        start, *rest = self.points
        return f"M{_point(start)}" + "".join(f"L{_point(at)}" for at in rest)


@dataclass(frozen=True, slots=True)
class Leading:
    """Where the winner of a bout goes on in another part: to the bout `to`."""

    to: str
    at: Text


@dataclass(frozen=True, slots=True)
class Span:
    """What a part of a sheet holds: part `number` of `of` over these rounds of the upper side."""

    number: int
    of: int
    first: str
    last: str


@dataclass(frozen=True, slots=True)
class Drawing:
    """A sheet, or a part of it with its `span`. `parting`: between the two sides.

    `reach`: how far to the right it goes; `width`: so wide a page shows it.
    """

    width: float
    reach: float
    height: float
    boxes: tuple[BoxDrawn, ...]
    ways: tuple[Way, ...]
    heads: tuple[Head, ...]
    parting: float | None
    leading: tuple[Leading, ...]
    span: Span | None


def drawing(sheet: Sheet) -> Drawing:
    """The whole sheet as one drawing."""
    return _drawing(sheet, layout(sheet.bracket), None)


def drawings(sheet: Sheet, *, high: int = HIGH, wide: int = WIDE) -> tuple[Drawing, ...]:
    """The sheet in drawings of at most so many rows and columns, as far as it can be cut."""
    found = parts(sheet.bracket, high, wide)
    return tuple(
        _drawing(sheet, one.layout, _span(one) if len(found) > 1 else None) for one in found
    )


def _span(part: Part) -> Span:
    first, *_, last = (*part.layout.columns, part.layout.columns[-1])
    return Span(part.number, part.of, (first.above + first.below)[0], (last.above + last.below)[0])


def _drawing(sheet: Sheet, plan: Layout, span: Span | None) -> Drawing:
    return Drawing(
        width=max(plan.width, LEAST),
        reach=plan.width,
        height=plan.height,
        boxes=tuple(_box(box, sheet.bouts[box.key]) for box in plan.boxes),
        ways=tuple(_way(one, False) for one in plan.winners)
        + tuple(_way(one, True) for one in plan.drops),
        heads=tuple(_heads(plan)),
        parting=plan.middle - 24 if plan.middle else None,
        leading=tuple(_leading(sheet, one) for one in plan.stubs),
        span=span,
    )


def _leading(sheet: Sheet, stub: Stub) -> Leading:
    x, y = stub.at
    beside = BEYOND if sheet.bouts[stub.source].rulings else 0.0
    return Leading(str(sheet.bouts[stub.target].number or stub.target), Text(x + beside, y + 4))


def _box(box: Box, bout: Seen) -> BoxDrawn:
    middle = box.y + box.h / 2
    return BoxDrawn(
        bout=bout,
        box=box,
        middle=middle,
        sides=(_side(box, bout.sides[0], box.y), _side(box, bout.sides[1], middle)),
        above=Text(box.x, box.y - 3),
        right=Text(box.x + box.w, box.y - 3),
        mark=_mark(box, middle, bout.mark) if bout.rulings else None,
    )


def _mark(box: Box, middle: float, words: str) -> Mark:
    wide = SIGN * len(words) + 3
    x = box.x + box.w + BEYOND - wide
    return Mark(words, x, middle - MARK / 2, wide, MARK, Text(x + wide / 2, middle + 4))


def _side(box: Box, side: Side, top: float) -> SideDrawn:
    base = top + box.h / 4 + 4
    wide = side.person is not None and (side.person.seed or 0) > 99
    return SideDrawn(
        side=side,
        y=top,
        seed=Text(box.x + INSET, base),
        name=Text(box.x + INSET + SEED + (DIGIT if wide else 0), base),
        team=Text(box.x + box.w - INSET, base),
    )


def _way(one: Connector, drop: bool) -> Way:
    return Way(str(one.source), str(one.target), one.points, drop)


def _point(at: tuple[float, float]) -> str:
    return f"{at[0]:g} {at[1]:g}"


def _heads(plan: Layout) -> Iterator[Head]:
    for column in plan.columns:
        for codes, y in ((column.above, plan.top), (column.below, plan.middle)):
            if codes and y is not None:
                yield Head(
                    codes[0], Text(column.x, y - LIFT), places=len(codes) > 1 or codes[0] == "3rd"
                )
