"""The rows of a file read as ranks, places and ballots; every problem at once, by row and column.

A file with a column for the voter holds ballots, any other ranks and places.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from seeding.core.criteria import InputKind
from seeding.core.put_in.ballots import Voted, ballot_problems
from seeding.core.put_in.field import Entered, Field, Table
from seeding.entries.core import columns as read
from seeding.entries.core.columns import Cells, Columns
from seeding.entries.core.spelling import folded
from seeding.entries.core.table import Row
from seeding.entries.core.table import Table as Sheet
from seeding.entries.core.weights import bare_weight, weight_words
from seeding.journal.core.errors import Problem

_WHO = (
    read.Field("weight", ("weight", "weight class", "wt", "class")),
    read.Field("wrestler", ("wrestler", "name", "wrestler name")),
    read.Field("team", ("team", "school", "club", "wrestler team")),
)
RANKS = (
    *_WHO,
    read.Field("table", ("table", "list", "ranking", "event")),
    read.Field("kind", ("kind", "type")),
    read.Field("value", ("value", "rank", "place", "rank or place")),
    read.Field("at", ("at weight", "at", "place at weight")),
)
BALLOTS = (
    *_WHO,
    read.Field("voter", ("voter", "coach", "voted by")),
    read.Field("own", ("voter's team", "voter team", "voters team", "coach team", "own team")),
    read.Field("rank", ("rank", "vote", "value")),
)
NEEDED = {RANKS: ("weight", "wrestler", "table"), BALLOTS: ("weight", "voter", "wrestler", "rank")}
KINDS = {
    "rank": ("rank", "ranking", "ranked"),
    "place": ("place", "placed", "places"),
    "took part": ("took part", "part", "qualifier", "qualified", "did not place", "dnp"),
}
OF_KIND = {InputKind.RANKING: ("rank",), InputKind.PLACES: ("place", "took part")}


@dataclass(frozen=True, slots=True)
class Said:
    """What a row says of an entry: a rank, or a place (0 = took part) at a weight ("" = his)."""

    row: int
    entry: str
    table: Table
    value: int
    weight: str


@dataclass(frozen=True, slots=True)
class PutIn:
    """What a file says. With a problem nothing of it should be kept."""

    said: tuple[Said, ...]
    ballots: tuple[Voted, ...]
    problems: tuple[Problem, ...]
    warnings: tuple[Problem, ...]


def read_put_in(sheet: Sheet, field: Field) -> PutIn:
    """The ranks and places, or the ballots, in a table.

    Ranks and places need weight, wrestler and table; team, kind (rank, place, took part), value
    and "at weight" may be there. Ballots need weight, voter, wrestler and rank; the voter's team
    and the wrestler's may be there.
    """
    ballots = read.matched(sheet, BALLOTS)[0].has("voter")
    fields = BALLOTS if ballots else RANKS
    columns, found = read.matched(sheet, fields)
    problems = [*found, *_missing(columns, fields), *read.too_long(sheet)]
    warnings = [
        *(Problem("", text) for text in sheet.warnings),
        *(
            Problem(f"row {sheet.header_row}", f"the column “{heading}” is not read")
            for heading in read.unread(columns)
        ),
    ]
    if list(_missing(columns, fields)):
        return PutIn((), (), tuple(problems), tuple(warnings))
    reader = _Reader(columns, field, problems)
    if ballots:
        voted = tuple(_ballots(reader, warnings))
        return PutIn((), voted, tuple(problems), tuple(warnings))
    said = _once([one for row in sheet.rows if (one := reader.said(row))], problems)
    warnings += _shared(said, field)
    return PutIn(said, (), tuple(problems), tuple(warnings))


def _missing(columns: Columns, fields: Sequence[read.Field]) -> Iterator[Problem]:
    for one in fields:
        if one.name in NEEDED[tuple(fields)] and not columns.has(one.name):
            message = f"no column for the {one.name}; give it the heading “{one.aliases[0]}”"
            yield Problem(f"row {columns.table.header_row}", message)


@dataclass(frozen=True, slots=True)
class _Vote:
    """A row of a ballot."""

    row: Row
    weight: str
    voter: str
    team: str
    entry: Entered
    rank: int


class _Reader:
    """Rows told to entries and tables; what does not fit is noted."""

    def __init__(self, columns: Columns, field: Field, problems: list[Problem]) -> None:
        self.columns, self.field, self.problems = columns, field, problems
        self._words = weight_words(field.weights)

    def cells(self, row: Row) -> Cells:
        return Cells(self.columns, row, self.problems)

    def entry(self, cells: Cells) -> Entered | None:
        """The entry of the row."""
        text = cells.text("weight", 40)
        weight = self._words.get(bare_weight(text))
        if weight is None:
            cells.refuse("weight", f"“{text}” is no weight of this tournament{self._hint(text)}")
        elif weight in self.field.drawn:
            cells.refuse("weight", f"{weight} is drawn; its order stands")
        else:
            found = self.field.find(weight, cells.text("wrestler", 160), cells.text("team", 120))
            if isinstance(found, Entered):
                return found
            cells.refuse("wrestler", found)
        return None

    def _hint(self, text: str) -> str:
        """The weights of several divisions that have this label."""
        said = bare_weight(text)
        meant = [one for one in self.field.weights if bare_weight(one).endswith(f" {said}")]
        return f"; write {' or '.join(f'“{one}”' for one in meant)}" if said and meant else ""

    def said(self, row: Row) -> Said | None:
        """What a row of ranks and places says."""
        before, cells = len(self.problems), self.cells(row)
        entry = self.entry(cells)
        if entry is None:
            return None
        table = self.field.table(entry.weight, cells.text("table", 60))
        if isinstance(table, str):
            cells.refuse("table", table)
            return None
        value = _value(cells, table)
        at = "" if table.kind is InputKind.RANKING else self._at(cells, entry)
        return (
            Said(row.number, entry.key, table, value, at) if len(self.problems) == before else None
        )

    def _at(self, cells: Cells, entry: Entered) -> str:
        bare = bare_weight(cells.text("at", 40))
        at = self._words.get(bare, bare)
        return "" if at == entry.weight else at

    def vote(self, row: Row) -> _Vote | None:
        """What a row of a ballot says."""
        before, cells = len(self.problems), self.cells(row)
        entry, voter, team = self.entry(cells), cells.text("voter", 120), cells.text("own", 120)
        rank = cells.whole("rank", 1)
        if not voter:
            cells.refuse("voter", "the voter is missing")
        if team and folded(team) not in self.field.teams:
            cells.refuse("own", f"“{team}” is no team of this tournament")
        if rank is None and len(self.problems) == before:
            cells.refuse("rank", "the rank is missing")
        if entry is None or rank is None or len(self.problems) > before:
            return None
        key = self.field.teams[folded(team)] if team else ""
        return _Vote(row, entry.weight, voter, key, entry, rank)


def _value(cells: Cells, table: Table) -> int:
    """The rank or place; 0 for one who took part."""
    kind = cells.among("kind", KINDS) or OF_KIND[table.kind][0]
    if kind not in OF_KIND[table.kind]:
        cells.refuse("kind", f"“{table.name}” is a table of {table.kind}, not of this kind")
        return 0
    value = cells.whole("value", 1 if kind == "rank" else 0)
    if kind == "took part":
        if value:
            cells.refuse("value", "who took part without placing has no place; leave it empty")
        return 0
    if value is None:
        cells.refuse("value" if cells.has("value") else "table", f"the {kind} is missing")
    return value or 0


def _once(said: Sequence[Said], problems: list[Problem]) -> tuple[Said, ...]:
    """Each thing once. A second row must say the same, or it is a problem."""
    first: dict[tuple[str, Table, str], Said] = {}
    for one in said:
        known = first.setdefault((one.entry, one.table, one.weight), one)
        if known.value != one.value:
            message = f"row {known.row} says {known.value} of the same; correct one of them"
            problems.append(Problem(f"row {one.row}", message))
    return tuple(first.values())


def _shared(said: Sequence[Said], field: Field) -> Iterator[Problem]:
    """A rank that two of one weight hold."""
    weights = {one.key: one.weight for one in field.entries}
    held: dict[tuple[str, Table, int], Said] = {}
    for one in said:
        if one.table.kind is InputKind.RANKING:
            known = held.setdefault((weights[one.entry], one.table, one.value), one)
            if known is not one:
                message = f"rank {one.value} of “{one.table.name}” stands in row {known.row} too"
                yield Problem(f"row {one.row}", message)


def _ballots(reader: _Reader, warnings: list[Problem]) -> Iterator[Voted]:
    votes: dict[tuple[str, str], list[_Vote]] = defaultdict(list)
    for row in reader.columns.table.rows:
        vote = reader.vote(row)
        if vote:
            votes[vote.weight, folded(vote.voter)].append(vote)
    for rows in votes.values():
        ranks = _ranks(reader, rows)
        _own_team(reader, rows)
        voted = Voted(rows[0].weight, rows[0].voter, rows[0].team, ranks)
        warnings += _left_out(reader.field, voted, rows[0].row.number)
        yield voted


def _ranks(reader: _Reader, rows: Sequence[_Vote]) -> Mapping[str, int]:
    at: dict[str, _Vote] = {}
    for vote in rows:
        known = at.setdefault(vote.entry.key, vote)
        if known.rank != vote.rank:
            reader.cells(vote.row).refuse("wrestler", f"he has rank {known.rank} in this ballot")
    ranks = {key: vote.rank for key, vote in at.items()}
    entries = {one.key: one for one in reader.field.entries}
    own = own_of(reader.field, rows[0].weight, rows[0].team)
    for key, message in ballot_problems(ranks, entries, own):
        reader.cells(at[key].row).refuse("rank", message)
    return ranks


def own_of(field: Field, weight: str, team: str) -> frozenset[str]:
    """The entries of a weight that are of the team."""
    names = {name for name, key in field.teams.items() if key == team}
    here = (one for one in field.entries if one.weight == weight)
    return frozenset(one.key for one in here if team and one.teams & names)


def _own_team(reader: _Reader, rows: Sequence[_Vote]) -> None:
    for vote in rows:
        if vote.team != rows[0].team:
            message = f"the voter has another team in row {rows[0].row.number}; correct one of them"
            reader.cells(vote.row).refuse("voter", message)


def _left_out(field: Field, voted: Voted, row: int) -> Iterator[Problem]:
    known = own_of(field, voted.weight, voted.team) | voted.ranks.keys()
    left = [
        one.name for one in field.entries if one.weight == voted.weight and one.key not in known
    ]
    if left:
        message = f"{voted.voter} ranks not everybody at {voted.weight}: {', '.join(left)}"
        yield Problem(f"row {row}", message)
