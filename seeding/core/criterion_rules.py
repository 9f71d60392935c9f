"""Reading one criterion of a rule book; the keys are explained in `seeding.core.rules`."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import TypeVar

from seeding.core.criteria import Criterion, Missing, Repeats
from seeding.core.ledger import Ledger
from seeding.core.meetings import CommonOpponents, CommonRule, HeadToHead, HeadToHeadRule
from seeding.core.records import (
    Equal,
    OverField,
    OverRanked,
    OverWinning,
    Quality,
    QualityWins,
    WinPercentage,
)
from seeding.core.rpi import Rpi
from seeding.core.season import At, Counted, ResultKind
from seeding.core.tables import EarlierPlace, Ranked, ReturningPlacer
from seeding.entries.core.errors import BadSetting
from seeding.entries.core.rulebook import Section

E = TypeVar("E", bound=StrEnum)


@dataclass(frozen=True, slots=True)
class Counting:
    """Which kinds of result count as a win, a loss, a meeting, and against common opponents."""

    win: frozenset[str]
    loss: frozenset[str]
    head_to_head: frozenset[str]
    common_opponents: frozenset[str]


def counting(table: Section) -> Counting:
    """Read `[seeding.counting]`."""
    keys = ("win", "loss", "head_to_head", "common_opponents")
    return Counting(*(frozenset(table.texts(key, among=tuple(ResultKind))) for key in keys))


def criterion(table: Section, kinds: Counting) -> Criterion:
    """Read one table of criteria; the keys that nobody reads are refused by leaving it."""
    return READERS[table.text("criterion", among=tuple(READERS))](table, kinds)


def bad(table: Section, key: str, wanted: str) -> BadSetting:
    """The refusal of a value that is readable, but makes no sense."""
    where = table.path(key)
    return BadSetting(name=where, wanted=wanted, value=table.raw(key), where=where)


def choice(table: Section, key: str, among: type[E]) -> E:
    """One of the members."""
    return among(table.text(key, among=tuple(among)))


def choices(table: Section, key: str, among: type[E]) -> tuple[E, ...]:
    """At least one of the members, each at most once."""
    found = tuple(among(text) for text in table.texts(key, among=tuple(among)))
    if not found or len(set(found)) < len(found):
        raise bad(table, key, f"a list of {', '.join(among)}, each at most once")
    return found


def positive(table: Section, key: str) -> Fraction:
    """A number above 0."""
    value = table.points(key)
    if value <= 0:
        raise bad(table, key, "a number above 0")
    return Fraction(value)


def _head_to_head(table: Section, kinds: Counting) -> Criterion:
    counted = Counted(kinds.head_to_head, choice(table, "bouts", At))
    return HeadToHead(table.text("name"), counted, choice(table, "rule", HeadToHeadRule))


def _common_opponents(table: Section, kinds: Counting) -> Criterion:
    return CommonOpponents(
        table.text("name"),
        Counted(kinds.common_opponents, choice(table, "bouts", At)),
        choice(table, "rule", CommonRule),
        choice(table, "repeats", Repeats),
        table.whole("minimum_opponents", 1),
    )


def _ledger(table: Section, kinds: Counting) -> Ledger:
    at = choice(table, "bouts", At)
    return Ledger(Counted(kinds.win, at), Counted(kinds.loss, at))


def _win_percentage(table: Section, kinds: Counting) -> Criterion:
    return WinPercentage(
        table.text("name"),
        choice(table, "missing", Missing),
        _ledger(table, kinds),
        table.whole("minimum_bouts", 1),
        choice(table, "equal", Equal),
    )


def _quality_wins(table: Section, kinds: Counting) -> Criterion:
    ledger = _ledger(table, kinds)
    over = table.text("over", among=tuple(QUALITIES))
    return QualityWins(
        table.text("name"),
        Missing.NOBODY,
        ledger,
        QUALITIES[over](table, ledger),
        choice(table, "repeats", Repeats),
    )


def _ranked(table: Section, _ledger: Ledger) -> Quality:
    return OverRanked(table.text("ranking"), table.whole("top", 1))


def _field(_table: Section, _ledger: Ledger) -> Quality:
    return OverField()


def _winning(table: Section, ledger: Ledger) -> Quality:
    percentage = table.points("percentage")
    if not 0 <= percentage <= 1:
        raise bad(table, "percentage", "a number from 0 to 1")
    return OverWinning(ledger, Fraction(percentage), table.whole("minimum_bouts", 1))


def _rpi(table: Section, kinds: Counting) -> Criterion:
    numbers = table.decimals("parts")
    if len(numbers) != 3 or min(numbers) < 0:
        raise bad(table, "parts", "a list of three numbers from 0")
    parts = [Fraction(number) for number in numbers]
    return Rpi(
        table.text("name"),
        choice(table, "missing", Missing),
        _ledger(table, kinds),
        (parts[0], parts[1], parts[2]),
        table.whole("minimum_bouts", 1),
    )


def _ranking(table: Section, kinds: Counting) -> Criterion:
    return Ranked(
        table.text("name"), choice(table, "missing", Missing), ranking=table.text("ranking")
    )


def _earlier_place(table: Section, kinds: Counting) -> Criterion:
    return EarlierPlace(
        table.text("name"),
        choice(table, "missing", Missing),
        event=table.text("event"),
        places_at=choice(table, "places_at", At),
    )


def _returning_placer(table: Section, kinds: Counting) -> Criterion:
    return ReturningPlacer(
        table.text("name"), table.text("event"), choice(table, "places_at", At), _groups(table)
    )


def _groups(table: Section) -> tuple[tuple[int, ...], ...]:
    wanted = "a list of lists of places from 0, each place once"
    groups = table.raw("groups")
    if not isinstance(groups, list | tuple) or not groups:
        raise bad(table, "groups", wanted)
    places = [place for group in groups if isinstance(group, list | tuple) for place in group]
    known = all(type(place) is int and place >= 0 for place in places)
    filled = all(isinstance(group, list | tuple) and group for group in groups)
    if not known or not filled or len(set(places)) < len(places):
        raise bad(table, "groups", wanted)
    return tuple(tuple(group) for group in groups)


READERS: Mapping[str, Callable[[Section, Counting], Criterion]] = {
    "head-to-head": _head_to_head,
    "common-opponents": _common_opponents,
    "win-percentage": _win_percentage,
    "quality-wins": _quality_wins,
    "rpi": _rpi,
    "ranking": _ranking,
    "earlier-place": _earlier_place,
    "returning-placer": _returning_placer,
}

QUALITIES: Mapping[str, Callable[[Section, Ledger], Quality]] = {
    "ranked": _ranked,
    "field": _field,
    "winning": _winning,
}
