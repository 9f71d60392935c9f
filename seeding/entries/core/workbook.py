"""The cells of an XLSX workbook as text.

A few hundred bytes of workbook can name a cell in the last row and column, for which the reading
library would ask for half a terabyte of memory and end the process. So the parts of the file are
looked through first, and a workbook that is too large is refused before it is opened.
"""

import re
import zlib
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from io import BytesIO
from zipfile import BadZipFile, ZipFile

from python_calamine import (
    CalamineError,
    CalamineSheet,
    CalamineWorkbook,
    SheetVisibleEnum,
)

from seeding.entries.core.errors import TableTooLarge, UnreadableTable, WrongFileType

MOST_UNPACKED = 128 * 1024 * 1024
_PLACE = re.compile(rb"""\sr\s*=\s*["']([A-Za-z]{1,9})?(\d{1,9})["']""")
_CODED = re.compile(rb"""\sr\s*=\s*["'][^"'>]{0,20}&""")
Value = int | float | str | bool | time | date | datetime | timedelta


def read_workbook(
    data: bytes, name: str, *, rows: int, columns: int
) -> tuple[list[list[str]], tuple[str, ...]]:
    """Every row of the first visible sheet that has something in it, from row 1, and warnings.

    Whole numbers lose their decimals (125.0 is "125"), dates become ISO text.
    Raises WrongFileType, UnreadableTable, or TableTooLarge beyond `rows` or `columns`.
    """
    _look_through(data, name, rows, columns)
    try:
        book = CalamineWorkbook.from_filelike(BytesIO(data))
        filled = [sheet for sheet in _visible(book) if sheet.end is not None]
    except CalamineError as error:
        raise UnreadableTable(name=name, why=str(error)) from error
    if not filled:
        return [], ()
    first, *others = filled
    lines = [[_text(value) for value in row] for row in first.to_python(skip_empty_area=False)]
    return lines, _unread(first, others)


def _visible(book: CalamineWorkbook) -> Iterator[CalamineSheet]:
    for at, sheet in enumerate(book.sheets_metadata):
        if sheet.visible == SheetVisibleEnum.Visible:
            yield book.get_sheet_by_index(at)


def _unread(first: CalamineSheet, others: list[CalamineSheet]) -> tuple[str, ...]:
    if not others:
        return ()
    names = ", ".join(f"“{sheet.name}”" for sheet in others)
    return (f"Only the sheet “{first.name}” was read, not {names}.",)


def _look_through(data: bytes, name: str, rows: int, columns: int) -> None:
    try:
        with ZipFile(BytesIO(data)) as packed:
            parts = packed.infolist()
            if not any(part.filename == "xl/workbook.xml" for part in parts):
                raise WrongFileType(name=name, what="packed, but not an XLSX workbook")
            if sum(part.file_size for part in parts) > MOST_UNPACKED:
                raise TableTooLarge(
                    name=name, what="too much in it", most=f"{MOST_UNPACKED:,} bytes unpacked"
                )
            for part in parts:
                _look_at(packed.read(part), name, rows, columns)
    except (BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError) as error:
        raise UnreadableTable(name=name, why=str(error) or "it is cut off") from error


def _look_at(part: bytes, name: str, rows: int, columns: int) -> None:
    if _CODED.search(part):
        raise UnreadableTable(name=name, why="a cell's place is written in code")
    for found in _PLACE.finditer(part):
        if int(found[2]) > rows:
            row = int(found[2])
            raise TableTooLarge(name=name, what=f"something in row {row:,}", most=f"{rows:,} rows")
        if _column(found[1] or b"A") > columns:
            place = (found[1] + found[2]).decode()
            raise TableTooLarge(
                name=name, what=f"something in cell {place}", most=f"{columns} columns"
            )


def _column(letters: bytes) -> int:
    """The number of a column from its letters: A is 1, Z 26, AA 27."""
    number = 0
    for letter in letters.upper():
        number = number * 26 + letter - 64
    return number


def _text(value: Value) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    if isinstance(value, datetime):
        return value.date().isoformat() if value.time() == time() else value.isoformat(" ")
    return str(value)
