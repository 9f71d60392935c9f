"""A roster: the rows of a table read as wrestlers of one division.

Every problem is found in one reading and named by row and column. What the rows mean for a
tournament that already has entries is the business of `intake`.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from seeding.entries.core.columns import BLANK, Cells, Columns, Field, matched, too_long, unread
from seeding.entries.core.measures import MEASURED, Weighing, measured, years_alone
from seeding.entries.core.names import Publish
from seeding.entries.core.spelling import folded, parted
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
    Field(
        "qualifying_place",
        ("qualifying place", "qualifier place", "qualifying", "qualified", "place"),
    ),
    Field("region", ("region", "qualifying region", "qualifier region", "regional")),
    Field("weighed", ("weighed", "weighed weight", "actual weight", "scale weight")),
    Field("age", ("age", "birth date", "date of birth", "dob", "birth year", "year of birth")),
    Field("experience", ("experience", "years of experience", "years wrestled", "seasons")),
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

    `weight` is the label of a weight class of the division, empty where entrants wait to be
    grouped; `team` and `short` are the file's words, at least one of them is there. `region` is a
    region's letter. `weighed` (in the division's unit), `age` and `experience` (in whole years)
    are for those who direct alone.
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
    region: str | None = None
    weighed: Decimal | None = None
    age: int | None = None
    experience: int | None = None

    @property
    def name(self) -> str:
        """The whole name, as a person would say it."""
        return f"{self.given} {self.family}".strip()


@dataclass(frozen=True, slots=True)
class Regions:
    """The regions that a tournament takes its field from: names by letter, and how many `places`
    of each advance."""

    places: int
    names: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Asked:
    """What rosters of a division speak of.

    `weights`: labels, light to heavy. `regions`: None where nobody has planned a field from
    regions. `weighing`: None where weights are fixed.
    """

    weights: Sequence[str]
    regions: Regions | None = None
    weighing: Weighing | None = None


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


def read_roster(table: Table, asked: Asked) -> Roster:
    """The wrestlers of a table for a division.

    Needed are a weight unless groups are formed, a team (its name or its short form) and a name:
    in one column, "Family, Given" or "Given Family", or in two.
    """
    columns, problems = matched(table, FIELDS)
    missing = list(_missing(columns, asked))
    found = [*problems, *missing, *too_long(table)]
    warnings = [*(Problem("", text) for text in table.warnings), *_unread(columns, asked)]
    if missing:
        return Roster(columns, (), tuple(found), tuple(warnings))
    rows = [_read(columns, row, asked, found) for row in table.rows]
    warnings += [*_guessed(columns, table.rows), *years_alone(columns, asked.weighing)]
    return Roster(
        columns, tuple(row for row in rows if row is not None), tuple(found), tuple(warnings)
    )


def _missing(columns: Columns, asked: Asked) -> Iterator[Problem]:
    if not asked.weights and not asked.weighing:
        message = (
            "the division has no weights yet; under “Weights” add them, or press “Groups of ...” "
            "there if it forms groups after weigh-in"
        )
        yield Problem("", message)
        return
    for names, what in (
        (("name", "family"), "name"),
        (("weight",), "weight"),
        (("team", "short"), "team"),
    ):
        if what == "weight" and asked.weighing:
            continue
        if not any(columns.has(name) for name in names):
            known = [field.aliases[0] for field in FIELDS if field.name in names]
            message = f"no column for the {what}; give it the heading “{' or '.join(known)}”"
            yield Problem(f"row {columns.table.header_row}", message)


def _unread(columns: Columns, asked: Asked) -> Iterator[Problem]:
    for heading in unread(columns):
        message = f"the column “{heading}” is not read; its heading is not known"
        yield Problem(f"row {columns.table.header_row}", message)
    for name in MEASURED if asked.weighing is None else ():
        if columns.has(name):
            heading = columns.table.headers[columns.at[name]]
            message = f"the column “{heading}” is not read: the division forms no groups"
            yield Problem(f"row {columns.table.header_row}", message)


def _read(columns: Columns, row: Row, asked: Asked, problems: list[Problem]) -> RosterRow | None:
    """The row, or nothing when it is wrong; what is wrong is added to `problems`."""
    before = len(problems)
    cells = Cells(columns, row, problems)
    given, family = _name(cells, columns)
    publish = cells.among("publish", PUBLISH)
    scoring = cells.among("scoring", SCORING)
    made = RosterRow(
        row=row.number,
        weight=_weight(cells, asked),
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
        region=_region(cells, asked.regions),
        **(measured(cells, asked.weighing) if asked.weighing else {}),
    )
    _fits(cells, made, asked.regions)
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


def _weight(cells: Cells, asked: Asked) -> str:
    said = cells.text("weight", 40)
    words = weight_words(asked.weights)
    label = words.get(bare_weight(said), "")
    known = f"known: {', '.join(dict.fromkeys(words.values()))}"
    if asked.weighing:
        if said and not label:
            message = (
                f"{said} is not a weight of this division, which forms groups after weigh-in; "
                "leave it blank, and put what was weighed under the heading “weighed”"
            )
            cells.refuse("weight", message)
    elif not said:
        cells.refuse("weight", f"the weight is missing; {known}")
    elif not label:
        cells.refuse("weight", f"{said} is not a weight class of this division; {known}")
    return label


def _region(cells: Cells, regions: Regions | None) -> str | None:
    said = cells.text("region", 120)
    if said.casefold() in BLANK:
        return None
    if regions is None or not regions.names:
        message = "the tournament takes nobody from regions yet; plan it under “Qualifying” first"
        cells.refuse("region", message)
        return None
    words = {folded(name): letter for letter, name in regions.names.items()}
    words |= {folded(letter): letter for letter in regions.names}
    if folded(said) not in words:
        known = ", ".join(f"{letter} ({name})" for letter, name in regions.names.items())
        cells.refuse("region", f"“{said}” is not a region of this tournament; known: {known}")
    return words.get(folded(said))


def _fits(cells: Cells, row: RosterRow, regions: Regions | None) -> None:
    """A region needs a place, and only who advanced by it has a seed."""
    if row.region is None or regions is None:
        return
    if row.qualifying_place is None:
        cells.refuse("region", "the place in the region is missing; put it under “place”")
    elif row.seed and row.qualifying_place > regions.places:
        message = (
            f"{regions.places} of each region advance; with place {row.qualifying_place} he "
            "stands by and has no seed"
        )
        cells.refuse("seed", message)


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
