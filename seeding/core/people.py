"""Whom a season file means: wrestlers that are known, and those who are new."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from seeding.core.intake import Named, PriorRow, SeasonSheet
from seeding.core.season import PriorBout
from seeding.entries.core.spelling import alike, folded
from seeding.journal.core.errors import Problem


@dataclass(frozen=True, slots=True)
class Person:
    """A wrestler of the organisation by one of his names; he may have several, under one id.

    `home` is his team of the season, empty where unknown.
    """

    uid: str
    given: str
    family: str
    home: str

    @property
    def name(self) -> str:
        return " ".join(filter(None, (self.given, self.family)))

    def __str__(self) -> str:
        return f"{self.name} of {self.home}" if self.home else self.name


@dataclass(frozen=True, slots=True)
class Identified:
    """The bouts of a file between wrestlers by id, with the row of each; and who is new."""

    bouts: tuple[tuple[int, PriorBout], ...]
    new: tuple[Person, ...]
    problems: tuple[Problem, ...]
    warnings: tuple[Problem, ...]


def identify(
    sheet: SeasonSheet,
    known: Iterable[Person],
    teams: Mapping[str, str],
    new_id: Callable[[], str],
) -> Identified:
    """Tell each name of the sheet to a wrestler.

    `teams`: full names by folded short form or other name. A name with a team is the known
    wrestler of that name and team; without a team the only known one of that name, and a problem
    where there are several. Anybody else is new, with a warning where he looks like another.
    """
    roll = _Roll(known, teams, new_id)
    problems: list[Problem] = []
    warnings: list[Problem] = []
    bouts: list[tuple[int, PriorBout]] = []
    for row in sheet.rows:
        pair = [
            _told(roll, _where(sheet, row, side), named, problems, warnings)
            for side, named in (("winner", row.winner), ("loser", row.loser))
        ]
        if pair[0] and pair[1]:
            bouts.append((row.row, row.bout(pair[0], pair[1])))
    return Identified(tuple(bouts), tuple(roll.new), tuple(problems), tuple(warnings))


def _where(sheet: SeasonSheet, row: PriorRow, side: str) -> str:
    heading = sheet.columns.table.headers[sheet.columns.at[side]]
    return f"row {row.row}, column {heading}"


def _told(
    roll: "_Roll", where: str, named: Named, problems: list[Problem], warnings: list[Problem]
) -> str:
    """The wrestler's id, or nothing where the name may mean several."""
    found = roll.find(named)
    if len(found) > 1:
        several = " or ".join(str(one) for one in found)
        message = f"“{named}” may be {several}; name the team in its column"
        problems.append(Problem(where, message))
        return ""
    if found:
        return found[0].uid
    near = roll.near(named)
    made = roll.add(named)
    if near:
        message = (
            f"{made} is new, and looks like {near}; mend the spelling if it is the same person"
        )
        warnings.append(Problem(where, message))
    return made.uid


class _Roll:
    """Wrestlers by name and by team; new ones are added while a file is read."""

    def __init__(
        self, known: Iterable[Person], teams: Mapping[str, str], new_id: Callable[[], str]
    ) -> None:
        self.new: list[Person] = []
        self._teams = teams
        self._new_id = new_id
        self._by_name: dict[tuple[str, str], list[Person]] = defaultdict(list)
        self._by_home: dict[str, dict[str, Person]] = defaultdict(dict)
        for person in known:
            self._note(person)

    def find(self, named: Named) -> Sequence[Person]:
        """The one who is meant; nobody, or several where the name alone does not tell."""
        same = self._by_name[folded(named.given), folded(named.family)]
        if not named.team:
            return list({one.uid: one for one in same}.values())
        home = folded(self._home(named))
        return [one for one in same if folded(one.home) == home][:1] or [
            one for one in same if not one.home
        ][:1]

    def near(self, named: Named) -> Person | None:
        """Somebody else whom the name is perhaps meant for: in another team, or misspelled."""
        same = self._by_name[folded(named.given), folded(named.family)]
        if same:
            return same[0]
        mates = self._by_home[folded(self._home(named))] if named.team else {}
        spelled = alike(str(named), mates)
        return mates[spelled[0]] if spelled else None

    def add(self, named: Named) -> Person:
        """The new wrestler of that name."""
        person = Person(self._new_id(), named.given, named.family, self._home(named))
        self.new.append(person)
        self._note(person)
        return person

    def _home(self, named: Named) -> str:
        return self._teams.get(folded(named.team), named.team)

    def _note(self, person: Person) -> None:
        self._by_name[folded(person.given), folded(person.family)].append(person)
        self._by_home[folded(person.home)].setdefault(person.name, person)
