"""A file of rows and columns as values: the one reader behind rosters and seasons.

What is read is text, cell by cell; what the cells mean is the business of `columns` and `roster`.
"""

import csv
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from io import StringIO

from seeding.entries.core.errors import (
    EmptyTable,
    TableTooLarge,
    UnreadableTable,
    WrongFileType,
)
from seeding.entries.core.escaped import unescaped
from seeding.entries.core.workbook import read_workbook

MOST_BYTES = 16 * 1024 * 1024
MOST_ROWS = 100_000
MOST_COLUMNS = 200
DELIMITERS = ",;\t"
_ENDINGS = ("csv", "txt", "tsv", "xlsx")
_FOREIGN = (
    (b"%PDF", "a PDF"),
    (b"\xd0\xcf\x11\xe0", "an older spreadsheet (XLS) or protected by a password"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"{\\rtf", "a text document (RTF)"),
)


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its number as a spreadsheet shows it (from 1) and its cells, stripped text.

    `cells` is at least as long as the headings; longer when the row has more than the headings.
    """

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """The headings, the number of the row they stand in, and every row below that is not blank."""

    headers: tuple[str, ...]
    header_row: int
    rows: tuple[Row, ...]
    warnings: tuple[str, ...] = ()


def read_table(data: bytes, name: str) -> Table:
    """The table in a CSV or XLSX file of the given name.

    The content decides which of the two it is. CSV may be UTF-8 (with or without its mark),
    UTF-16 with its mark, or else Windows-1252, which gives a warning; cells may be parted by
    comma, semicolon or tab. Of a workbook the first sheet with something in it is read.
    Raises EmptyTable, WrongFileType, UnreadableTable or TableTooLarge.
    """
    _refuse_foreign(data, name)
    if data.startswith(b"PK"):
        lines, warnings = read_workbook(data, name, rows=MOST_ROWS, columns=MOST_COLUMNS)
        return _table(enumerate(lines, 1), warnings, name)
    text, warnings = _decoded(data, name)
    return _table(_records(text, name), warnings, name)


def glance(data: bytes, name: str) -> None:
    """Refuse at once what is no table, for files that a worker reads; raises as `read_table`."""
    _refuse_foreign(data, name)
    if not data.startswith(b"PK") and not _decoded(data, name)[0].strip():
        raise EmptyTable(name=name, what="nothing in it")


def _refuse_foreign(data: bytes, name: str) -> None:
    if len(data) > MOST_BYTES:
        raise TableTooLarge(name=name, what=f"{len(data):,} bytes", most=f"{MOST_BYTES:,} bytes")
    for mark, what in _FOREIGN:
        if data.startswith(mark):
            raise WrongFileType(name=name, what=what)
    _, dot, ending = name.rpartition(".")
    if dot and ending.lower() not in _ENDINGS:
        raise WrongFileType(name=name, what=f"of the type “{ending}”")


def _decoded(data: bytes, name: str) -> tuple[str, tuple[str, ...]]:
    marked = data.startswith((b"\xff\xfe", b"\xfe\xff"))
    try:
        text, guessed = data.decode("utf-16" if marked else "utf-8-sig"), False
    except UnicodeDecodeError:
        text, guessed = data.decode("cp1252", errors="replace"), True
    if "\0" in text:
        raise WrongFileType(name=name, what="not text")
    return text, (_GUESSED,) if guessed else ()


_GUESSED = (
    "The file is not UTF-8; it was read as Windows-1252. Look at every accented letter, "
    "or save the file as “CSV UTF-8” and send it again."
)


def _records(text: str, name: str) -> Iterator[tuple[int, list[str]]]:
    reader = csv.reader(StringIO(text, newline=""), delimiter=_delimiter(text), strict=True)
    try:
        yield from enumerate(reader, 1)
    except csv.Error as error:
        raise UnreadableTable(name=name, why=f"line {reader.line_num}: {error}") from error


def _delimiter(text: str) -> str:
    """The one of comma, semicolon and tab that parts the headings into most cells."""

    def cells(delimiter: str) -> int:
        try:
            reader = csv.reader(StringIO(text, newline=""), delimiter=delimiter)
            return len(next((row for row in reader if any(row)), []))
        except csv.Error:
            return 0

    return max(DELIMITERS, key=cells)


def _table(
    records: Iterable[tuple[int, Sequence[str]]], warnings: tuple[str, ...], name: str
) -> Table:
    rows: list[Row] = []
    for number, cells in records:
        if number > MOST_ROWS:
            raise TableTooLarge(name=name, what=f"a row {number:,}", most=f"{MOST_ROWS:,} rows")
        kept = _trimmed(cells)
        if kept:
            rows.append(Row(number, kept))
    if not rows:
        raise EmptyTable(name=name, what="nothing in it")
    headings, *body = rows
    width = len(headings.cells)
    if width > MOST_COLUMNS:
        raise TableTooLarge(name=name, what=f"{width} columns", most=f"{MOST_COLUMNS} columns")
    if not body:
        raise EmptyTable(name=name, what=f"nothing below its headings in row {headings.number}")
    padded = tuple(Row(row.number, _padded(row.cells, width)) for row in body)
    return Table(headings.cells, headings.number, padded, warnings)


def _trimmed(cells: Sequence[str]) -> tuple[str, ...]:
    """The cells, unescaped and stripped, without blank ones at the end."""
    kept = [unescaped(cell).strip() for cell in cells]
    while kept and not kept[-1]:
        kept.pop()
    return tuple(kept)


def _padded(cells: tuple[str, ...], width: int) -> tuple[str, ...]:
    return cells + ("",) * (width - len(cells))
