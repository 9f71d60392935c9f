"""Which column of a table holds what, and cells read by what they should hold.

Reading never stops at the first problem: each is noted with its row and column.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from seeding.entries.core.spelling import folded, tidied
from seeding.entries.core.table import Row, Table
from seeding.journal.core.errors import Problem

BLANK = ("", "-", "\u2013", "\u2014", "n/a", "none")
YES = ("yes", "y", "true", "t", "1", "x")
NO = ("no", "n", "false", "f", "0")


@dataclass(frozen=True, slots=True)
class Field:
    """Something that a column may hold: its name here, and the headings it goes by."""

    name: str
    aliases: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Columns:
    """Where in the row each field stands; fields that the table does not have are absent."""

    table: Table
    at: Mapping[str, int]

    def has(self, name: str) -> bool:
        """Whether the table has a column for the field."""
        return name in self.at

    def where(self, row: Row, name: str) -> str:
        """The place for people: "row 7, column Weight" in the words of the file's own headings."""
        return f"row {row.number}, column {self.table.headers[self.at[name]]}"


def matched(table: Table, fields: Sequence[Field]) -> tuple[Columns, tuple[Problem, ...]]:
    """The columns of the table, and a problem for each heading that repeats an earlier one.

    Case, spaces and signs in a heading do not count. Headings that no field goes by are passed
    over; `unread` names them.
    """
    names = {_key(alias): field.name for field in fields for alias in field.aliases}
    at: dict[str, int] = {}
    problems: list[Problem] = []
    for column, heading in enumerate(table.headers):
        name = names.get(_key(heading))
        if name is None:
            continue
        if name in at:
            first = table.headers[at[name]]
            problems.append(_twice(table, heading, first))
        at.setdefault(name, column)
    return Columns(table, at), tuple(problems)


def unread(columns: Columns) -> tuple[str, ...]:
    """The headings of the columns that nobody reads, in the order of the table."""
    read = set(columns.at.values())
    headings = columns.table.headers
    return tuple(heading for at, heading in enumerate(headings) if heading and at not in read)


def too_long(table: Table) -> Iterator[Problem]:
    """A problem for each row that has more cells than there are headings."""
    width = len(table.headers)
    for row in table.rows:
        if len(row.cells) > width:
            extra = ", ".join(f"“{cell}”" for cell in row.cells[width:])
            message = (
                f"there are more cells than headings ({extra}); a cell with a comma in it must "
                "stand in quotation marks"
            )
            yield Problem(f"row {row.number}", message)


def _twice(table: Table, heading: str, first: str) -> Problem:
    message = f"the columns “{first}” and “{heading}” mean the same; keep one of them"
    return Problem(f"row {table.header_row}", message)


def _key(heading: str) -> str:
    return "".join(sign for sign in folded(heading) if sign.isalnum())


class Cells:
    """The cells of one row, read by what they should hold; what does not fit is noted.

    A blank cell says nothing, exactly as a column that is not there.
    """

    def __init__(self, columns: Columns, row: Row, problems: list[Problem]) -> None:
        self._columns = columns
        self._row = row
        self._problems = problems

    def has(self, name: str) -> bool:
        """Whether the table has a column for the field."""
        return self._columns.has(name)

    def refuse(self, name: str, message: str) -> None:
        """Note that the cell cannot stay as it is."""
        place = self._columns.where(self._row, name)
        self._problems.append(Problem(place, message))

    def text(self, name: str, most: int = 80) -> str:
        """The cell as tidy text of at most `most` characters; empty when it says nothing."""
        if not self._columns.has(name):
            return ""
        text = tidied(self._row.cells[self._columns.at[name]])
        if len(text) > most:
            self.refuse(name, f"“{text[:20]}…” is longer than {most} characters")
            return text[:most]
        return text

    def whole(self, name: str, least: int = 0) -> int | None:
        """The cell as a whole number from `least`; None when it says nothing."""
        text = self.text(name).removeprefix("#")
        if text.casefold() in BLANK:
            return None
        if text.isdecimal() and len(text) <= 6 and int(text) >= least:
            return int(text)
        self.refuse(name, f"“{text}” is not a whole number from {least}")
        return None

    def among(self, name: str, words: Mapping[str, Sequence[str]]) -> str | None:
        """The key of `words` that the cell says in one of its words; None when it says nothing."""
        text = self.text(name)
        if not text:
            return None
        for key, known in words.items():
            if text.casefold() in known:
                return key
        self.refuse(name, f"“{text}” is none of: {', '.join(words)}")
        return None

    def flag(self, name: str) -> bool | None:
        """The cell as yes or no; None when it says nothing."""
        said = self.among(name, {"yes": YES, "no": NO})
        return None if said is None else said == "yes"
