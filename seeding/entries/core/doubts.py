"""What a roster gets wrong against itself or the entries, and what to look at twice."""

from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

from seeding.entries.core.pairing import KnownEntry, Pair, Person, person
from seeding.entries.core.roster import Roster, RosterRow
from seeding.entries.core.spelling import alike, folded
from seeding.journal.core.errors import Problem


def repeated(roster: Roster, rows: Sequence[RosterRow]) -> Iterator[Problem]:
    """A problem for each row of a person who stands in an earlier row."""
    first: dict[Person, RosterRow] = {}
    for row in rows:
        earlier = first.setdefault(person(row), row)
        if earlier is not row:
            message = (
                f"{row.name} of {row.team} stands in row {earlier.row} already, at "
                f"{earlier.weight}; take one of the two rows out, or tell two persons of one name "
                "apart by a middle initial"
            )
            yield Problem(roster.where(row.row, "name", "family"), message)


def shared_seeds(
    roster: Roster, pairs: Sequence[Pair], entries: Sequence[KnownEntry]
) -> Iterator[Problem]:
    """A problem for each row whose seed would stand twice in a weight afterwards."""
    return _twice(roster, pairs, entries, "seed", _seed)


def shared_places(
    roster: Roster, pairs: Sequence[Pair], entries: Sequence[KnownEntry]
) -> Iterator[Problem]:
    """A problem for each row whose place of a region would stand twice in a weight afterwards."""
    return _twice(roster, pairs, entries, "qualifying_place", _place)


def _seed(entry: KnownEntry) -> str:
    held = entry.seed and not entry.scratched
    return f"seed {entry.seed} at {entry.weight}" if held else ""


def _place(entry: KnownEntry) -> str:
    held = entry.region and (entry.stands_by or not entry.scratched)
    if not held:
        return ""
    return f"place {entry.qualifying_place} of region {entry.region} at {entry.weight}"


def _twice(
    roster: Roster,
    pairs: Sequence[Pair],
    entries: Sequence[KnownEntry],
    column: str,
    held: Callable[[KnownEntry], str],
) -> Iterator[Problem]:
    """A problem for each row after which two would hold the same; `held` in words, or nothing."""
    touched = {pair.entry.key for pair in pairs if pair.entry}
    holder = {
        held(entry): f"{entry.name} of {entry.team}, who is entered already"
        for entry in entries
        if held(entry) and entry.key not in touched
    }
    for pair in pairs:
        what, row = held(pair.after()), f"row {pair.row.row}"
        if what and (who := holder.setdefault(what, row)) != row:
            message = f"{what} belongs to {who}; change one of them"
            yield Problem(roster.where(pair.row.row, column), message)


def doubts(
    roster: Roster, pairs: Sequence[Pair], entries: Sequence[KnownEntry], waiting: str = ""
) -> Iterator[Problem]:
    """Warnings: spellings that look alike, two scorers of a team, scratched entries.

    At `waiting` a team may have any number: they are to be grouped.
    """
    yield from _misspelled(roster, pairs, entries)
    yield from _both_scoring(roster, pairs, entries, waiting)
    for pair in pairs:
        if pair.entry and pair.entry.scratched and not pair.entry.stands_by:
            message = f"{pair.row.name} is scratched and stays scratched"
            yield Problem(roster.where(pair.row.row), message)
        if pair.entry and pair.entry.name != pair.row.name:
            message = f"{pair.row.name} is entered as {pair.entry.name}; the spelling stays"
            yield Problem(roster.where(pair.row.row, "name", "family"), message)


def _misspelled(
    roster: Roster, pairs: Sequence[Pair], entries: Sequence[KnownEntry]
) -> Iterator[Problem]:
    """New rows whose name looks like another one of the same team, in the file or entered."""
    names: dict[str, dict[str, str]] = defaultdict(dict)
    for entry in entries:
        names[folded(entry.team)][entry.name] = "entered already"
    for pair in pairs:
        others = names[folded(pair.row.team)]
        for other in alike(pair.row.name, others) if pair.entry is None else ():
            message = f"“{pair.row.name}” is spelled almost like “{other}”, {others[other]}"
            yield Problem(roster.where(pair.row.row, "name", "family"), message)
        others.setdefault(pair.row.name, f"in row {pair.row.row}")


def _both_scoring(
    roster: Roster, pairs: Sequence[Pair], entries: Sequence[KnownEntry], waiting: str
) -> Iterator[Problem]:
    """Rows after which a team has a second scoring entry in a weight."""
    touched = {pair.entry.key for pair in pairs if pair.entry}
    seats: dict[tuple[str, str], list[tuple[int, KnownEntry]]] = defaultdict(list)
    rest = ((0, entry) for entry in entries if entry.key not in touched)
    for row, entry in (*rest, *((pair.row.row, pair.after()) for pair in pairs)):
        if entry.scoring and not entry.scratched and entry.weight != waiting:
            seats[folded(entry.team), entry.weight].append((row, entry))
    for held in seats.values():
        for (_, first), (row, second) in pairwise(held):
            if row:
                message = (
                    f"{second.team} has {first.name} and {second.name} both scoring at "
                    f"{second.weight}"
                )
                yield Problem(roster.where(row, "scoring"), message)
