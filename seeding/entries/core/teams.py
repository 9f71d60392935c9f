"""Which team a row of a roster means: a known one by name or short form, or a new one."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from seeding.entries.core.roster import SHORT_LENGTH, Roster, RosterRow
from seeding.entries.core.spelling import alike, folded, plain
from seeding.journal.core.errors import Problem


@dataclass(frozen=True, slots=True)
class KnownTeam:
    """A team of the tournament; `also` are further names, such as the schools of a co-operative."""

    name: str
    short: str
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class NewTeam:
    """A team that the file would add."""

    name: str
    short: str


@dataclass(frozen=True, slots=True)
class Naming:
    """The rows with the exact name of their team, and the teams that would be new."""

    rows: tuple[RosterRow, ...]
    new: tuple[NewTeam, ...]
    problems: tuple[Problem, ...]
    warnings: tuple[Problem, ...]


def name_teams(roster: Roster, teams: Sequence[KnownTeam], *, strict: bool) -> Naming:
    """The rows of the roster with their teams named; `strict` refuses teams that are not known.

    A row names its team by name, by short form, or both, which must then agree. A new team
    without a short form gets one from its name.
    """
    book = _Book(teams)
    rows: list[RosterRow] = []
    new: dict[str, RosterRow] = {}
    problems: list[Problem] = []
    for row in roster.rows:
        said = row.team or row.short
        team = book.find(said)
        clash = book.clash(row, team)
        if clash:
            problems.append(Problem(roster.where(row.row, "short"), clash))
        elif team is None and strict:
            problems.append(Problem(roster.where(row.row, "team", "short"), _unknown(said, teams)))
        else:
            if team is None:
                team = book.add(said, row.short)
                new[team.name] = row
            rows.append(replace(row, team=team.name))
    added = tuple(NewTeam(name, book.short(name)) for name in new)
    return Naming(tuple(rows), added, tuple(problems), tuple(_doubts(roster, new, teams)))


class _Book:
    """Teams by every word that names them; new ones are added while a file is read."""

    def __init__(self, teams: Sequence[KnownTeam]) -> None:
        self._names: dict[str, KnownTeam] = {}
        self._shorts: dict[str, KnownTeam] = {}
        for team in teams:
            self._note(team)

    def find(self, said: str) -> KnownTeam | None:
        """The team of that name or, failing that, of that short form."""
        return self._names.get(folded(said)) or self._shorts.get(folded(said))

    def clash(self, row: RosterRow, team: KnownTeam | None) -> str:
        """What is wrong when name and short form of a row mean two teams; empty when nothing."""
        other = self._shorts.get(folded(row.short)) if row.short else None
        if other is None or other == team:
            return ""
        return f"{row.short} is the short form of {other.name}, not of {row.team}; change one"

    def add(self, name: str, short: str) -> KnownTeam:
        """A new team, with a short form that is still free."""
        team = KnownTeam(name, short or abbreviated(name, self._taken))
        self._note(team)
        return team

    def short(self, name: str) -> str:
        """The short form of the team of that name."""
        return self._names[folded(name)].short

    def _taken(self, short: str) -> bool:
        return folded(short) in self._shorts

    def _note(self, team: KnownTeam) -> None:
        for name in (team.name, *team.also):
            self._names.setdefault(folded(name), team)
        self._shorts.setdefault(folded(team.short), team)


def abbreviated(name: str, taken: Callable[[str], bool]) -> str:
    """A short form for a team: initials of several words or three letters of one, made unique.

    >>> abbreviated("Alder Valley", lambda short: False), abbreviated("Étang", {"ETA"}.__contains__)
    ('AV', 'ETAN')
    """
    words = ["".join(filter(str.isalnum, word)).upper() for word in plain(name).split()]
    words = [word for word in words if word] or ["TEAM"]
    letters = "".join(words)
    initials = "".join(word[0] for word in words)[:4]
    tries = [initials] if len(words) > 1 else []
    tries += [letters[:length] for length in range(3, SHORT_LENGTH - 2)]
    tries += [f"{letters[: SHORT_LENGTH - 4]}{number}" for number in range(2, 1000)]
    return next(short for short in tries if not taken(short))


def _unknown(said: str, teams: Sequence[KnownTeam]) -> str:
    names = [team.name for team in teams]
    near = alike(said, names)
    hint = f"did you mean {near[0]}?" if near else f"known: {', '.join(names) or 'none'}"
    return f"{said} is not a team of this tournament; {hint}"


def _doubts(
    roster: Roster, new: Mapping[str, RosterRow], teams: Sequence[KnownTeam]
) -> Iterator[Problem]:
    """New teams that look like a slip of the pen for another."""
    known = [name for team in teams for name in (team.name, *team.also)]
    for name, row in new.items():
        for other in alike(name, [*known, *new]):
            message = f"the new team “{name}” is spelled almost like “{other}”"
            yield Problem(roster.where(row.row, "team", "short"), message)
