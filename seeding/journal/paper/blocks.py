"""What paper is made of: titles, text, lists, tables that go on over the page."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape

from reportlab.lib import colors
from reportlab.lib.enums import TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import (
    CondPageBreak,
    Flowable,
    KeepTogether,
    LongTable,
    Paragraph,
    Spacer,
    TableStyle,
)

from seeding.journal.paper.fonts import BOLD, REGULAR, printable

Block = Flowable
INK, QUIET, RULE = colors.HexColor(0x17191C), colors.HexColor(0x4B5157), colors.HexColor(0xB5B6B0)

BODY = ParagraphStyle("body", fontName=REGULAR, fontSize=9, leading=12, textColor=INK)
SMALL = ParagraphStyle("small", BODY, fontSize=7.5, leading=9.5, textColor=QUIET)
CELL = ParagraphStyle("cell", BODY, fontSize=8, leading=10)
NUMBER = ParagraphStyle("number", CELL, alignment=TA_RIGHT)
HEAD = ParagraphStyle("head", SMALL, fontName=BOLD)
HEAD_NUMBER = ParagraphStyle("head-number", HEAD, alignment=TA_RIGHT)
ITEM = ParagraphStyle("item", BODY, leftIndent=4 * mm, bulletIndent=0.5 * mm)
SMALL_ITEM = ParagraphStyle("small-item", SMALL, leftIndent=4 * mm, bulletIndent=0.5 * mm)
TITLE = ParagraphStyle("title", BODY, fontName=BOLD, fontSize=17, leading=21, spaceAfter=1.5 * mm)
HEADING = ParagraphStyle(
    "heading",
    BODY,
    fontName=BOLD,
    fontSize=11,
    leading=14,
    spaceBefore=5 * mm,
    spaceAfter=1.5 * mm,
    keepWithNext=1,
)
# reportlab would keep the whole table with a heading that stays with what follows.
TABLE_HEADING = ParagraphStyle("table-heading", HEADING, keepWithNext=0)


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table; `width` in millimetres, 0 = what the others leave, shared."""

    head: str
    width: float = 0
    number: bool = False


def title(words: str) -> Block:
    """The title of a paper."""
    return Paragraph(_safe(words), TITLE)


def heading(words: str) -> Block:
    """A heading, which stays with what follows it."""
    return Paragraph(_safe(words), HEADING)


def heading_of_table(words: str) -> list[Block]:
    """A heading over a table that may go on over the page: both begin where there is room."""
    return [room_for(40), Paragraph(_safe(words), TABLE_HEADING)]


def text(words: str, *, bold: str = "", small: bool = False) -> Block:
    """A paragraph, perhaps led by words in bold."""
    lead = f"<b>{_safe(bold)}</b> " if bold else ""
    return Paragraph(lead + _safe(words), SMALL if small else BODY)


def listed(items: Iterable[str], *, small: bool = False) -> list[Block]:
    """One line of a list for each item."""
    style = SMALL_ITEM if small else ITEM
    return [Paragraph(_safe(item), style, bulletText="\N{EN DASH}") for item in items]


def gap(millimetres: float) -> Block:
    """Room."""
    return Spacer(1, millimetres * mm)


def room_for(millimetres: float) -> Block:
    """A new page, where so much room is not left."""
    return CondPageBreak(millimetres * mm)


def together(blocks: Sequence[Block]) -> Block:
    """Blocks that are not parted by the end of a page, where they fit on one."""
    return KeepTogether(list(blocks))


def table(columns: Sequence[Column], rows: Iterable[Sequence[str]], width: float) -> Block:
    """A table over so many millimetres; its head is repeated on every page that it goes on to."""
    head = [
        Paragraph(_safe(column.head), HEAD_NUMBER if column.number else HEAD) for column in columns
    ]
    styles = [NUMBER if column.number else CELL for column in columns]
    body = [
        [Paragraph(_safe(cell), style) for cell, style in zip(row, styles, strict=True)]
        for row in rows
    ]
    return LongTable([head, *body], colWidths=_widths(columns, width), repeatRows=1, style=LINES)


LINES = TableStyle(
    [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LINEBELOW", (0, 0), (-1, 0), 0.6, INK),
        ("LINEBELOW", (0, 1), (-1, -1), 0.3, RULE),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 2 * mm),
        ("TOPPADDING", (0, 0), (-1, -1), 0.8 * mm),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 0.8 * mm),
    ]
)


def _widths(columns: Sequence[Column], width: float) -> list[float]:
    open_ones = sum(column.width == 0 for column in columns)
    left = width - sum(column.width for column in columns)
    return [(column.width or left / open_ones) * mm for column in columns]


def _safe(words: str) -> str:
    return escape(printable(words))
