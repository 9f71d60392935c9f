"""Reading which bouts and which kinds of result count.

Keys of `[seeding.counting]`
    days             a bout counts when it is at most so long before the tournament
    cut_off_days     and at least so long before it (0 = up to the day before)
    line_up          "any" | "varsity"
    team_mates       "count" | "left-out": bouts between wrestlers of one team
    divisions        names of divisions: bouts with teams of others do not count; [] = all count
    medical_forfeits "every" | "first-of-an-event": how many of those of one event are losses,
                     where medical forfeits are losses at all (and none where he lost there by
                     injury default)
    win, loss        kinds of result for records: win percentage, quality wins, RPI, ratings
    head_to_head, common_opponents  kinds of result
    Kinds are "decision", "major decision", "technical fall", "fall", "injury default", "forfeit",
    "medical forfeit", "disqualification".
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import TypeVar

from seeding.core.ledger import MedicalForfeits
from seeding.core.season import At, Counted, Eligible, LineUp, ResultKind, TeamMates
from seeding.entries.core.errors import BadSetting
from seeding.entries.core.rulebook import Section

E = TypeVar("E", bound=StrEnum)


@dataclass(frozen=True, slots=True)
class Counting:
    """Which bouts are eligible, and which kinds count as a win, a loss, a meeting, and so on."""

    eligible: Eligible
    medical: MedicalForfeits
    win: frozenset[str]
    loss: frozenset[str]
    head_to_head: frozenset[str]
    common_opponents: frozenset[str]


def counting(table: Section) -> Counting:
    """Read `[seeding.counting]`."""
    keys = ("win", "loss", "head_to_head", "common_opponents")
    eligible = Eligible(
        days=table.whole("days", 1),
        cut_off_days=table.whole("cut_off_days"),
        line_up=choice(table, "line_up", LineUp),
        team_mates=choice(table, "team_mates", TeamMates),
        divisions=frozenset(table.texts("divisions")),
    )
    medical = choice(table, "medical_forfeits", MedicalForfeits)
    kinds = (frozenset(table.texts(key, among=tuple(ResultKind))) for key in keys)
    return Counting(eligible, medical, *kinds)


def where_counted(table: Section, kinds: frozenset[str], counting: Counting) -> Counted:
    """Bouts of these kinds at the weights that the criterion's key `bouts` says."""
    if not isinstance(table.raw("bouts"), Mapping):
        return Counted(kinds, choice(table, "bouts", At), 0, counting.eligible)
    with table.section("bouts") as bouts:
        return Counted(kinds, choice(bouts, "at", At), bouts.whole("days", 1), counting.eligible)


def bad(table: Section, key: str, wanted: str) -> BadSetting:
    """The refusal of a value that is readable, but makes no sense."""
    where = table.path(key)
    return BadSetting(name=where, wanted=wanted, value=table.raw(key), where=where)


def unique(table: Section, key: str, names: Sequence[str]) -> None:
    """Refuse a list of which two have one name."""
    for name in names:
        if names.count(name) > 1:
            raise bad(table, key, f"a list in which {name} stands once")


def choice(table: Section, key: str, among: type[E]) -> E:
    """One of the members."""
    return among(table.text(key, among=tuple(among)))


def choices(table: Section, key: str, among: type[E]) -> tuple[E, ...]:
    """At least one of the members, each at most once."""
    found = tuple(among(text) for text in table.texts(key, among=tuple(among)))
    if not found or len(set(found)) < len(found):
        raise bad(table, key, f"a list of {', '.join(among)}, each at most once")
    return found


def number(table: Section, key: str) -> Fraction:
    """A number."""
    return Fraction(table.points(key))


def positive(table: Section, key: str) -> Fraction:
    """A number above 0."""
    value = number(table, key)
    if value <= 0:
        raise bad(table, key, "a number above 0")
    return value
