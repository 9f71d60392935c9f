"""Pages: their size, head and foot with "page x of y", and the file made of them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from io import BytesIO
from typing import Any

from django.conf import settings
from django.utils.translation import gettext as _
from reportlab.lib.pagesizes import A4, LETTER
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Frame, PageTemplate

from seeding.journal.paper.blocks import INK, QUIET, Block
from seeding.journal.paper.fonts import REGULAR, face, printable

MARGIN = 16 * mm
HEAD, FOOT = 10 * mm, 9 * mm


class PageSize(StrEnum):
    """The sheets that printers hold."""

    A4 = "a4"
    LETTER = "letter"


POINTS: Mapping[PageSize, tuple[float, float]] = {PageSize.A4: A4, PageSize.LETTER: LETTER}


def size_of(asked: str) -> PageSize:
    """The size asked for; that of the installation (`PAPER`) where it is none of ours."""
    try:
        return PageSize(asked.lower())
    except ValueError:
        return PageSize(settings.PAPER)


@dataclass(frozen=True, slots=True)
class Sheet:
    """What stands on every page: `head` above, `foot` below beside the number of the page."""

    title: str
    head: str
    foot: str = ""
    size: PageSize = PageSize.LETTER
    landscape: bool = False

    @property
    def points(self) -> tuple[float, float]:
        wide, high = POINTS[self.size]
        return (high, wide) if self.landscape else (wide, high)

    @property
    def width(self) -> float:
        """Millimetres between the margins."""
        return (self.points[0] - 2 * MARGIN) / mm


def pdf(sheet: Sheet, blocks: Sequence[Block]) -> bytes:
    """The file. The same blocks make the same bytes: it carries no time but that which is on it."""
    face()
    made = BytesIO()
    wide, high = sheet.points
    inside = Frame(
        MARGIN, MARGIN + FOOT, wide - 2 * MARGIN, high - 2 * MARGIN - HEAD - FOOT, 0, 0, 0, 0
    )
    document = BaseDocTemplate(
        made, pagesize=(wide, high), title=printable(sheet.title), author="Headtable", invariant=1
    )
    document.addPageTemplates(PageTemplate("page", [inside], pagesize=(wide, high)))
    document.build(list(blocks), canvasmaker=_numbered(sheet))
    return made.getvalue()


def _numbered(sheet: Sheet) -> type[Canvas]:
    """A canvas that knows how many pages there are before it writes "page x of y" on any."""

    class Numbered(Canvas):
        def __init__(self, *args: Any, **kwargs: Any) -> None:
            super().__init__(*args, **kwargs)
            self._pages: list[dict[str, Any]] = []

        def showPage(self) -> None:  # noqa: N802
            self._pages.append(dict(self.__dict__))
            self._startPage()  # type: ignore[attr-defined]

        def save(self) -> None:
            of = len(self._pages)
            for number, page in enumerate(self._pages, start=1):
                self.__dict__.update(page)
                _frame(self, sheet, _("page %(n)s of %(of)s") % {"n": number, "of": of})
                super().showPage()
            super().save()

    return Numbered


def _frame(canvas: Canvas, sheet: Sheet, number: str) -> None:
    wide, high = sheet.points
    above, below = high - MARGIN - 3 * mm, MARGIN + 2 * mm
    canvas.setFont(REGULAR, 7.5)
    canvas.setFillColor(QUIET)
    canvas.setStrokeColor(INK)
    canvas.setLineWidth(0.4)
    canvas.drawString(MARGIN, above, printable(sheet.head))
    canvas.line(MARGIN, above - 1.6 * mm, wide - MARGIN, above - 1.6 * mm)
    canvas.line(MARGIN, below + 3.4 * mm, wide - MARGIN, below + 3.4 * mm)
    canvas.drawString(MARGIN, below, printable(sheet.foot))
    canvas.drawRightString(wide - MARGIN, below, number)
