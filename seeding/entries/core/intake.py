"""What a roster would do to a tournament: which rows are new, which change something, which not.

Nothing is done here. A plan with problems is carried out in no part.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from seeding.entries.core.doubts import doubts, repeated, shared_places, shared_seeds
from seeding.entries.core.pairing import Change, Known, paired
from seeding.entries.core.roster import RosterRow, read_roster
from seeding.entries.core.table import Table
from seeding.entries.core.teams import NewTeam, name_teams
from seeding.journal.core.errors import Problem


@dataclass(frozen=True, slots=True)
class Plan:
    """What the file would do. `unchanged` are keys of entries; a row says nothing new of them.

    `team` of each row in `adds` is the exact name of a known team or of one of `new_teams`. All
    changes together are one step: two entries may exchange their seeds.
    """

    adds: tuple[RosterRow, ...]
    unchanged: tuple[str, ...]
    changes: tuple[Change, ...]
    new_teams: tuple[NewTeam, ...]
    problems: tuple[Problem, ...]
    warnings: tuple[Problem, ...]


def plan_roster(table: Table, known: Known, *, strict: bool) -> Plan:
    """What the file would do to the division; `strict` refuses teams that are not known.

    A person is the same person when team, given and family name agree (case aside); a row of the
    same person at another weight moves the entry there. A file that was carried out changes
    nothing the second time.
    """
    roster = read_roster(table, known.asked)
    naming = name_teams(roster, known.teams, strict=strict)
    waiting = known.asked.weighing.waiting if known.asked.weighing else ""
    pairs = paired(naming.rows, known.entries, waiting)
    problems = (
        *roster.problems,
        *naming.problems,
        *repeated(roster, [pair.row for pair in pairs]),
        *shared_seeds(roster, pairs, known.entries),
        *shared_places(roster, pairs, known.entries),
    )
    warnings = (*roster.warnings, *naming.warnings, *doubts(roster, pairs, known.entries, waiting))
    changes = tuple(change for pair in pairs for change in pair.changes())
    changed = {change.key for change in changes}
    met = dict.fromkeys(pair.entry.key for pair in pairs if pair.entry)
    return Plan(
        adds=tuple(pair.row for pair in pairs if pair.entry is None),
        unchanged=tuple(key for key in met if key not in changed),
        changes=changes,
        new_teams=naming.new,
        problems=_in_order(problems),
        warnings=_in_order(warnings),
    )


def _in_order(problems: Sequence[Problem]) -> tuple[Problem, ...]:
    """By row; what concerns the whole file first."""

    def row(problem: Problem) -> int:
        words = problem.where.replace(",", "").split()
        return int(words[1]) if len(words) > 1 and words[1].isdecimal() else 0

    return tuple(sorted(problems, key=row))
