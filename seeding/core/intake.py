"""A season in a file: the rows of a table read as prior bouts, and what of them is new."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from seeding.core.identity import bout_identity
from seeding.core.notation import NoWinner, Read, Unread, read_date, read_result
from seeding.core.season import PriorBout
from seeding.entries.core.columns import Cells, Columns, Field, matched, too_long, unread
from seeding.entries.core.spelling import folded, parted
from seeding.entries.core.table import Row, Table
from seeding.entries.core.weights import bare_weight, weight_words
from seeding.journal.core.errors import Problem

FIELDS = (
    Field("date", ("date", "day", "bout date", "match date")),
    Field("weight", ("weight", "weight class", "wt", "wt class", "class", "weightclass")),
    Field("winner", ("winner", "winner name", "winning wrestler", "won by")),
    Field("winner_team", ("winner team", "winning team", "winner school", "team of winner")),
    Field("loser", ("loser", "loser name", "losing wrestler", "lost by")),
    Field("loser_team", ("loser team", "losing team", "loser school", "team of loser")),
    Field("result", ("result", "kind", "win type", "result type", "method", "type")),
    Field("score", ("score", "final score")),
    Field("time", ("time", "fall time", "bout time", "match time")),
    Field("event", ("event", "tournament", "meet", "competition")),
    Field("level", ("level", "line-up", "lineup", "squad")),
    Field("winner_division", ("winner division", "winner team division", "winning division")),
    Field("loser_division", ("loser division", "loser team division", "losing division")),
)
LEVELS = {
    "varsity": ("varsity", "v", "var", "vs", "1st", "first"),
    "junior varsity": ("junior varsity", "jv", "j.v.", "junior", "reserve", "2nd", "second"),
}
NEEDED = ("date", "weight", "winner", "loser", "result")


@dataclass(frozen=True, slots=True)
class Named:
    """A wrestler as the file names him; `team` is empty where it names none."""

    given: str
    family: str
    team: str

    @property
    def key(self) -> tuple[str, str, str]:
        """What two spellings of the same person have in common."""
        return folded(self.given), folded(self.family), folded(self.team)

    def __str__(self) -> str:
        return " ".join(filter(None, (self.given, self.family)))


@dataclass(frozen=True, slots=True)
class PriorRow:
    """One bout as a row of the file reports it.

    `score` is its text ("19-4 4:25"), `points` those in it, winner first, where it has any.
    """

    row: int
    date: date
    weight: str
    winner: Named
    loser: Named
    kind: str
    score: str
    points: tuple[int, int] | None
    time: str
    event: str
    level: str
    winner_division: str
    loser_division: str

    @property
    def identity(self) -> str:
        """The same in every report of the same bout by these names."""
        winner, loser = "/".join(self.winner.key), "/".join(self.loser.key)
        return bout_identity(self.date, winner, loser, self.weight, self.event)

    def bout(self, winner: str, loser: str) -> PriorBout:
        """The bout between the wrestlers of these ids."""
        return PriorBout(
            date=self.date,
            weight=self.weight,
            winner=winner,
            loser=loser,
            kind=self.kind,
            score="-".join(map(str, self.points or ())),
            event=self.event,
            time=self.time,
            level=self.level,
            winner_division=self.winner_division,
            loser_division=self.loser_division,
        )


@dataclass(frozen=True, slots=True)
class SeasonSheet:
    """What a file says. With a problem nothing of it should be kept.

    `repeated`: the rows that say once more what an earlier row says; they are not in `rows`.
    """

    columns: Columns
    rows: tuple[PriorRow, ...]
    repeated: tuple[int, ...]
    problems: tuple[Problem, ...]
    warnings: tuple[Problem, ...]


def read_season(table: Table, weights: Sequence[str] = ()) -> SeasonSheet:
    """The prior bouts in a table; every problem at once, by row and column.

    Needed are date, weight, winner, loser and result; teams, score, time, event, level (varsity,
    junior varsity) and the divisions of the two teams may be there.
    Dates are 2024-11-16, 11/16/2024 (month first) or 16.11.2024. A weight is any text; its unit
    is dropped, and a heavyweight is the last of `weights`. Bouts without a winner are passed over
    with a warning.
    """
    columns, found = matched(table, FIELDS)
    problems = [*found, *_missing(columns), *too_long(table)]
    warnings = [*(Problem("", text) for text in table.warnings), *_unknown(columns)]
    if list(_missing(columns)):
        return SeasonSheet(columns, (), (), tuple(problems), tuple(warnings))
    words = weight_words(weights)
    rows = [_read(columns, row, words, problems, warnings) for row in table.rows]
    kept, repeated = _once([row for row in rows if row is not None], problems)
    return SeasonSheet(columns, kept, repeated, tuple(problems), tuple(warnings))


def _missing(columns: Columns) -> Iterator[Problem]:
    for field in FIELDS:
        if field.name in NEEDED and not columns.has(field.name):
            message = f"no column for the {field.name}; give it the heading “{field.aliases[0]}”"
            yield Problem(f"row {columns.table.header_row}", message)


def _unknown(columns: Columns) -> Iterator[Problem]:
    for heading in unread(columns):
        message = f"the column “{heading}” is not read; its heading is not known"
        yield Problem(f"row {columns.table.header_row}", message)


def _read(
    columns: Columns,
    row: Row,
    words: Mapping[str, str],
    problems: list[Problem],
    warnings: list[Problem],
) -> PriorRow | None:
    before = len(problems)
    cells = Cells(columns, row, problems)
    day, weight = _day(cells), _weight(cells, words)
    winner, loser = _wrestler(cells, "winner"), _wrestler(cells, "loser")
    written = _result(cells)
    result = read_result(written) if written else Unread("the result is missing")
    event = cells.text("event", 120)
    level = cells.among("level", LEVELS) or ""
    if winner.family and winner.key == loser.key:
        cells.refuse("loser", "winner and loser are the same")
    if isinstance(result, Unread):
        cells.refuse("result", result.message)
    if isinstance(result, NoWinner):
        message = f"“{cells.text('result')}” has no winner and is passed over"
        warnings.append(Problem(columns.where(row, "result"), message))
    if day is None or len(problems) > before or not isinstance(result, Read):
        return None
    return PriorRow(
        row=row.number,
        date=day,
        weight=weight,
        winner=winner,
        loser=loser,
        kind=result.kind,
        score=result.score,
        points=result.points,
        time=result.time,
        event=event,
        level=level,
        winner_division=cells.text("winner_division", 40),
        loser_division=cells.text("loser_division", 40),
    )


def _day(cells: Cells) -> date | None:
    text = cells.text("date")
    day = read_date(text)
    if not text:
        cells.refuse("date", "the date is missing")
    elif day is None:
        cells.refuse("date", f"“{text}” is not a date such as 2024-11-16 or 11/16/2024")
    return day


def _weight(cells: Cells, words: Mapping[str, str]) -> str:
    bare = bare_weight(cells.text("weight", 40))
    if not bare:
        cells.refuse("weight", "the weight is missing")
    return words.get(bare, bare)


def _wrestler(cells: Cells, name: str) -> Named:
    given, family = parted(cells.text(name, 160))
    if not family:
        cells.refuse(name, f"the {name} is missing")
    return Named(given, family, cells.text(f"{name}_team", 120))


def _result(cells: Cells) -> str:
    """The result with the score and time of their own columns, unless it has them already."""
    words = (
        *cells.text("result").split(),
        *cells.text("score").split(),
        *cells.text("time").split(),
    )
    return " ".join(dict.fromkeys(words))


def _once(
    rows: Sequence[PriorRow], problems: list[Problem]
) -> tuple[tuple[PriorRow, ...], tuple[int, ...]]:
    """Each bout once. A second report must say the same, or it is a problem."""
    first: dict[str, PriorRow] = {}
    repeated: list[int] = []
    for row in rows:
        known = first.setdefault(row.identity, row)
        if known is row:
            continue
        repeated.append(row.row)
        if _said(known) != _said(row):
            problems.append(Problem(f"row {row.row}", _contradicts(f"row {known.row}")))
    return tuple(first.values()), tuple(repeated)


def _said(row: PriorRow) -> tuple[object, ...]:
    return row.winner.key, row.kind, row.score


def _contradicts(other: str) -> str:
    return (
        f"it reports the bout of {other} with another result; correct one of them, or, if the two "
        "met twice that day, give the event of one bout another name"
    )
