"""Rows of a roster beside the entries that they speak of."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from seeding.entries.core.measures import MEASURED
from seeding.entries.core.names import Publish
from seeding.entries.core.roster import Asked, RosterRow
from seeding.entries.core.spelling import folded
from seeding.entries.core.teams import KnownTeam

OF_A_WEIGHT = ("seed", "rank", "qualifying_place", "region")
CHANGEABLE = ("weight", "scoring", "publish", *OF_A_WEIGHT, *MEASURED)
Value = str | int | bool | Decimal | None
Person = tuple[str, str, str]


@dataclass(frozen=True, slots=True)
class KnownEntry:
    """An entry that the tournament already has; `team` is the team's name, `weight` its label.

    `scratched`: not in the field, also where he only stands by (`stands_by`).
    """

    key: str
    weight: str
    team: str
    given: str
    family: str
    seed: int | None = None
    scoring: bool = True
    publish: Publish = Publish.FULL
    rank: int | None = None
    qualifying_place: int | None = None
    scratched: bool = False
    stands_by: bool = False
    region: str | None = None
    weighed: Decimal | None = None
    age: int | None = None
    experience: int | None = None

    @property
    def name(self) -> str:
        """The whole name, as a person would say it."""
        return f"{self.given} {self.family}".strip()


@dataclass(frozen=True, slots=True)
class Known:
    """What the division holds before the file."""

    asked: Asked
    teams: tuple[KnownTeam, ...] = ()
    entries: tuple[KnownEntry, ...] = ()


@dataclass(frozen=True, slots=True)
class Change:
    """One value of an entry that the file says otherwise."""

    row: int
    key: str
    field: str
    before: Value
    after: Value


@dataclass(frozen=True, slots=True)
class Pair:
    """A row, with the entry that it speaks of if there is one already."""

    row: RosterRow
    entry: KnownEntry | None

    def changes(self) -> Iterator[Change]:
        """What the row says otherwise than the entry; seed and ranks of another weight lapse."""
        if self.entry is None:
            return
        moved = self.row.weight != self.entry.weight
        for field in CHANGEABLE:
            before, after = getattr(self.entry, field), getattr(self.row, field)
            lapsed = moved and field in OF_A_WEIGHT
            if after != before and (after is not None or lapsed):
                yield Change(self.row.row, self.entry.key, field, before, after)

    def after(self) -> KnownEntry:
        """The entry as it would be when the row is carried out; a new one has no key."""
        row = self.row
        if self.entry:
            values: dict[str, Any] = {change.field: change.after for change in self.changes()}
            return replace(self.entry, **values)
        return KnownEntry(
            "",
            row.weight,
            row.team,
            row.given,
            row.family,
            seed=row.seed,
            scoring=row.scoring is not False,
            region=row.region,
            qualifying_place=row.qualifying_place,
        )


def paired(
    rows: Sequence[RosterRow], entries: Sequence[KnownEntry], waiting: str = ""
) -> tuple[Pair, ...]:
    """Each row with its entry: the one of the same person, at the row's weight if there is one.

    A row without a weight leaves its entry where it is; a new one goes to `waiting`.
    """
    known: dict[Person, list[KnownEntry]] = defaultdict(list)
    for entry in entries:
        known[person(entry)].append(entry)
    found = ((row, _same(row, known[person(row)])) for row in rows)
    return tuple(
        Pair(row if row.weight else replace(row, weight=same.weight if same else waiting), same)
        for row, same in found
    )


def person(one: RosterRow | KnownEntry) -> Person:
    """What makes two rows or entries the same person."""
    return folded(one.team), folded(one.given), folded(one.family)


def _same(row: RosterRow, entries: Sequence[KnownEntry]) -> KnownEntry | None:
    ranked = sorted(entries, key=lambda entry: (entry.weight != row.weight, entry.scratched))
    return ranked[0] if ranked else None
