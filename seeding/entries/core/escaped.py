"""Tables written for spreadsheets, in which no cell can run as a formula.

A text that begins with = + - @ tab or CR would be worked out by the spreadsheet that opens the
file; it is written with an apostrophe before it, and `unescaped` takes that away again.
"""

import csv
from collections.abc import Iterable, Sequence
from datetime import UTC, datetime
from decimal import Decimal
from io import BytesIO, StringIO

import xlsxwriter  # type: ignore[import-untyped]

Cell = str | int | Decimal | None
FORMULA = ("=", "+", "-", "@", "\t", "\r")
_SAVED = datetime(2000, 1, 1, tzinfo=UTC)


def escaped(text: str) -> str:
    """The text as it may stand in a cell; `unescaped` is its inverse for every text.

    >>> escaped("=1+1"), escaped("'=1+1"), escaped("O'Malley")
    ("'=1+1", "''=1+1", "O'Malley")
    """
    return f"'{text}" if text.lstrip("'").startswith(FORMULA) else text


def unescaped(cell: str) -> str:
    """The text that a cell written by `escaped` stands for.

    >>> unescaped("'=1+1"), unescaped("''=1+1"), unescaped("'tis")
    ('=1+1', "'=1+1", "'tis")
    """
    guarded = cell.startswith("'") and cell.lstrip("'").startswith(FORMULA)
    return cell[1:] if guarded else cell


def write_csv(headers: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
    """The table as CSV: UTF-8 with its mark, comma, CRLF. Numbers stay numbers."""
    out = StringIO(newline="")
    writer = csv.writer(out)
    for row in (headers, *rows):
        writer.writerow([escaped(cell) if isinstance(cell, str) else cell for cell in row])
    return out.getvalue().encode("utf-8-sig")


def write_xlsx(
    headers: Sequence[str], rows: Iterable[Sequence[Cell]], title: str = "Sheet1"
) -> bytes:
    """The table as a workbook of one sheet, the headings frozen; the same table, the same bytes."""
    out = BytesIO()
    book = xlsxwriter.Workbook(out, {"in_memory": True})
    book.set_properties({"created": _SAVED})
    sheet = book.add_worksheet(title)
    sheet.freeze_panes(1, 0)
    for number, row in enumerate((headers, *rows)):
        for column, cell in enumerate(row):
            if isinstance(cell, str):
                sheet.write_string(number, column, escaped(cell))
            elif cell is not None:
                sheet.write_number(number, column, cell)
    book.close()
    return out.getvalue()
