"""A roster: the rows of a table read as wrestlers of one division.

Every problem is found in one reading and named by row and column. What the rows mean for a
tournament that already has entries is the business of `intake`.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from seeding.entries.core.columns import Cells, Columns, Field, matched, too_long, unread
from seeding.entries.core.names import Publish
from seeding.entries.core.spelling import parted
from seeding.entries.core.table import Row, Table
from seeding.entries.core.weights import bare_weight, weight_words
from seeding.journal.core.errors import Problem

FIELDS = (
    Field("given", ("given", "given name", "first name", "first", "forename")),
    Field("family", ("family", "family name", "last name", "last", "surname")),
    Field("name", ("name", "full name", "wrestler", "wrestler name", "athlete")),
    Field("weight", ("weight", "weight class", "wt", "wt class", "class", "weightclass")),
    Field("team", ("team", "team name", "school", "club")),
    Field("short", ("short", "team short", "team code", "code", "abbreviation", "team id")),
    Field("seed", ("seed", "seeding")),
    Field("grade", ("grade", "year", "yr", "class year")),
    Field("wins", ("wins", "won", "w")),
    Field("losses", ("losses", "lost", "l")),
    Field("scoring", ("scoring", "scores", "scorer", "team scoring")),
    Field("publish", ("publish", "publish name", "show name", "name shown", "publication")),
    Field("rank", ("rank", "ranking", "coaches rank", "coaches ranking")),
    Field("qualifying_place", ("qualifying place", "qualifier place", "qualifying", "qualified")),
)
PUBLISH: Mapping[str, Sequence[str]] = {
    Publish.FULL: ("full", "full name", "name", "yes", "public"),
    Publish.INITIALS: ("initials", "initial"),
    Publish.HIDDEN: ("hidden", "hide", "no", "private", "not"),
}
SCORING: Mapping[str, Sequence[str]] = {
    "yes": ("yes", "y", "true", "1", "x", "scoring", "scores"),
    "no": ("no", "n", "false", "0", "non-scoring", "nonscoring", "not scoring", "ns", "exhibition"),
}
TEAM_LENGTH = 120
SHORT_LENGTH = 12


@dataclass(frozen=True, slots=True)
class RosterRow:
    """One wrestler as the file names him. None, or an empty text: the file says nothing of it.

    `weight` is the label of a weight class of the division; `team` and `short` are the file's
    words, at least one of them is there.
    """

    row: int
    weight: str
    team: str
    short: str
    given: str
    family: str
    seed: int | None = None
    scoring: bool | None = None
    publish: Publish | None = None
    rank: int | None = None
    qualifying_place: int | None = None
    grade: str = ""
    wins: int | None = None
    losses: int | None = None

    @property
    def name(self) -> str:
        """The whole name, as a person would say it."""
        return f"{self.given} {self.family}".strip()


@dataclass(frozen=True, slots=True)
class Roster:
    """The readable rows of a file, everything that is wrong in it, and what to look at twice."""

    columns: Columns
    rows: tuple[RosterRow, ...]
    problems: tuple[Problem, ...]
    warnings: tuple[Problem, ...]

    def where(self, row: int, *names: str) -> str:
        """The place of a row, with the column of the first of the fields that the file has."""
        headings = self.columns.table.headers
        found = [headings[self.columns.at[name]] for name in names if self.columns.has(name)]
        return f"row {row}, column {found[0]}" if found else f"row {row}"


def read_roster(table: Table, weights: Sequence[str]) -> Roster:
    """The wrestlers of a table for a division with these weight classes, light to heavy.

    Needed are a weight, a team (its name or its short form) and a name: in one column, "Family,
    Given" or "Given Family", or in two.
    """
    columns, problems = matched(table, FIELDS)
    found = [*problems, *_missing(columns), *too_long(table)]
    warnings = [*(Problem("", text) for text in table.warnings), *_unread(columns)]
    if list(_missing(columns)):
        return Roster(columns, (), tuple(found), tuple(warnings))
    known = weight_words(weights)
    rows = [_read(columns, row, known, found) for row in table.rows]
    warnings += _guessed(columns, table.rows)
    return Roster(
        columns, tuple(row for row in rows if row is not None), tuple(found), tuple(warnings)
    )


def _missing(columns: Columns) -> Iterator[Problem]:
    for names, what in (
        (("name", "family"), "name"),
        (("weight",), "weight"),
        (("team", "short"), "team"),
    ):
        if not any(columns.has(name) for name in names):
            known = [field.aliases[0] for field in FIELDS if field.name in names]
            message = f"no column for the {what}; give it the heading “{' or '.join(known)}”"
            yield Problem(f"row {columns.table.header_row}", message)


def _unread(columns: Columns) -> Iterator[Problem]:
    for heading in unread(columns):
        message = f"the column “{heading}” is not read; its heading is not known"
        yield Problem(f"row {columns.table.header_row}", message)


def _read(
    columns: Columns, row: Row, weights: Mapping[str, str], problems: list[Problem]
) -> RosterRow | None:
    """The row, or nothing when it is wrong; what is wrong is added to `problems`."""
    before = len(problems)
    cells = Cells(columns, row, problems)
    given, family = _name(cells, columns)
    publish = cells.among("publish", PUBLISH)
    scoring = cells.among("scoring", SCORING)
    made = RosterRow(
        row=row.number,
        weight=_weight(cells, weights),
        team=_team(cells, columns),
        short=cells.text("short", SHORT_LENGTH),
        given=given,
        family=family,
        seed=cells.whole("seed", 1),
        scoring=None if scoring is None else scoring == "yes",
        publish=None if publish is None else Publish(publish),
        rank=cells.whole("rank", 1),
        qualifying_place=cells.whole("qualifying_place", 1),
        grade=cells.text("grade", 20),
        wins=cells.whole("wins"),
        losses=cells.whole("losses"),
    )
    return made if len(problems) == before else None


def _name(cells: Cells, columns: Columns) -> tuple[str, str]:
    given, family = cells.text("given"), cells.text("family")
    if not family:
        whole = cells.text("name", 160)
        given, family = (given, whole) if given else parted(whole)
    if not family:
        cells.refuse("family" if columns.has("family") else "name", "the family name is missing")
    return given, family


def _team(cells: Cells, columns: Columns) -> str:
    team = cells.text("team", TEAM_LENGTH)
    if not team and not cells.text("short", SHORT_LENGTH):
        cells.refuse("team" if columns.has("team") else "short", "the team is missing")
    return team


def _weight(cells: Cells, weights: Mapping[str, str]) -> str:
    said = cells.text("weight", 40)
    label = weights.get(bare_weight(said), "")
    known = f"known: {', '.join(dict.fromkeys(weights.values()))}"
    if not said:
        cells.refuse("weight", f"the weight is missing; {known}")
    elif not label:
        cells.refuse("weight", f"{said} is not a weight class of this division; {known}")
    return label


def _guessed(columns: Columns, rows: Sequence[Row]) -> Iterator[Problem]:
    """A warning for each name of several words without a comma, where the parting is a guess."""
    if not columns.has("name") or columns.has("family"):
        return
    for row in rows:
        name = row.cells[columns.at["name"]]
        if "," not in name and len(name.split()) > 2:
            given, family = parted(name)
            message = f"“{name}” is read as given “{given}”, family “{family}”; a comma decides it"
            yield Problem(columns.where(row, "name"), message)
