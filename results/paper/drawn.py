"""A drawing of a sheet on paper: the geometry of the page on screen, in reportlab's strokes."""

from dataclasses import dataclass

from django.utils.translation import gettext as _
from reportlab.lib.colors import white
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from brackets.queries.words import round_name
from results.paper.texts import fitted, longest
from results.queries.drawing import BoxDrawn, Drawing, Mark, SideDrawn, Text, Way
from results.queries.words import awaited_brief
from seeding.journal.paper.blocks import INK, QUIET, RULE
from seeding.journal.paper.fonts import BOLD, REGULAR

LARGEST = 0.8  # points for a unit: a small bracket is not blown up to the page
NAME, SMALL, HEAD = 12.0, 9.5, 11.0
TEAM = 30.0


@dataclass(frozen=True, slots=True)
class Pen:
    """Writes in units of the drawing, y downwards from the top."""

    canvas: Canvas
    height: float

    def write(self, words: str, at: Text, size: float, width: float, *, bold: bool = False) -> None:
        font = BOLD if bold else REGULAR
        shown, fits = fitted(words, font, size, width)
        self.canvas.setFont(font, fits)
        self.canvas.drawString(at.x, self.height - at.y, shown)

    def write_before(self, words: str, at: Text, size: float, width: float) -> None:
        """So that the words end there."""
        shown, fits = fitted(words, REGULAR, size, width)
        self.canvas.setFont(REGULAR, fits)
        self.canvas.drawRightString(at.x, self.height - at.y, shown)

    def write_amid(self, words: str, at: Text, size: float, width: float) -> None:
        """In bold, so that the middle of the words is there."""
        shown, fits = fitted(words, BOLD, size, width)
        self.canvas.setFont(BOLD, fits)
        self.canvas.drawCentredString(at.x, self.height - at.y, shown)

    def line(self, *points: tuple[float, float]) -> None:
        path = self.canvas.beginPath()
        path.moveTo(points[0][0], self.height - points[0][1])
        for x, y in points[1:]:
            path.lineTo(x, self.height - y)
        self.canvas.drawPath(path)


class Drawn(Flowable):
    """A drawing as large as the room allows."""

    def __init__(self, drawing: Drawing) -> None:
        super().__init__()
        self.drawing = drawing
        self.scale = LARGEST

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        one = self.drawing
        self.scale = min(LARGEST, width / one.reach, height / one.height)
        return one.reach * self.scale, one.height * self.scale

    def draw(self) -> None:
        self.canv.scale(self.scale, self.scale)
        self.canv.setLineWidth(0.7)
        pen = Pen(self.canv, self.drawing.height)
        for way in self.drawing.ways:
            _way(pen, way)
        for one in self.drawing.boxes:
            _box(pen, one)
        _heads(pen, self.drawing)


def _way(pen: Pen, way: Way) -> None:
    if not way.drop:
        pen.canvas.setStrokeColor(QUIET)
        pen.line(*way.points)


def _heads(pen: Pen, drawing: Drawing) -> None:
    pen.canvas.setFillColor(INK)
    for head in drawing.heads:
        words = _("Places") if head.places else round_name(head.code)
        pen.write(words, head.at, HEAD, drawing.boxes[0].box.w, bold=True)
    for one in drawing.leading:
        pen.write(_("to %(bout)s") % {"bout": one.to}, one.at, SMALL, 45)
    if drawing.parting:
        pen.canvas.setStrokeColor(RULE)
        pen.line((0, drawing.parting), (drawing.reach, drawing.parting))


def _box(pen: Pen, one: BoxDrawn) -> None:
    box, bout = one.box, one.bout
    pen.canvas.setStrokeColor(QUIET if one.state == "bye" else INK)
    pen.canvas.setDash(*((2, 2) if one.state == "bye" else ()))
    pen.canvas.rect(box.x, pen.height - box.y - box.h, box.w, box.h)
    pen.canvas.setDash()
    pen.canvas.setStrokeColor(RULE)
    pen.line((box.x, one.middle), (box.x + box.w, one.middle))
    pen.canvas.setFillColor(INK)
    number = str(bout.number or "")
    place = round_name(bout.round.code) if bout.round.places else ""
    pen.write(" ".join(filter(None, (number, place))), one.above, SMALL, box.w * 0.6, bold=True)
    if one.remark:
        pen.write_before(one.remark, one.right, SMALL, box.w * 0.4 if place else box.w * 0.8)
    for side in one.sides:
        _side(pen, one, side)
    if one.mark:
        _mark(pen, one.mark)


def _mark(pen: Pen, mark: Mark) -> None:
    pen.canvas.setFillColor(INK)
    pen.canvas.rect(mark.x, pen.height - mark.y - mark.h, mark.w, mark.h, stroke=0, fill=1)
    pen.canvas.setFillColor(white)
    pen.write_amid(mark.words, mark.text, HEAD, mark.w)


def _side(pen: Pen, one: BoxDrawn, drawn: SideDrawn) -> None:
    who, end = drawn.side.person, drawn.team.x
    if who is None:
        pen.canvas.setFillColor(QUIET)
        pen.write(awaited_brief(drawn.side), drawn.seed, SMALL, end - drawn.seed.x)
        return
    pen.canvas.setFillColor(QUIET)
    pen.write(str(who.seed or ""), drawn.seed, SMALL, drawn.name.x - drawn.seed.x - 2)
    pen.write_before(who.team.short, drawn.team, SMALL, TEAM)
    pen.canvas.setFillColor(INK)
    room = end - min(TEAM, stringWidth(who.team.short, REGULAR, SMALL)) - 3 - drawn.name.x
    name = longest(who.forms, BOLD if drawn.side.won else REGULAR, NAME, room)
    pen.write(name, drawn.name, NAME, room, bold=drawn.side.won)
