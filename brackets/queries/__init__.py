"""Every read of drawn brackets."""

import json
from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, NoReturn

from django.db.models import QuerySet

from brackets.core.errors import FieldSizeNotOffered
from brackets.core.formats import Shape, build, shape
from brackets.core.graph import BoutKey, Bracket, Format, LineUp
from brackets.core.latest import exchanges
from brackets.core.rules import BracketRules
from brackets.models import Bout, Drawn
from seeding.entries.core.rulebook import upgrade
from seeding.entries.models import Division, Entry, Tournament, WeightClass
from seeding.journal.core.chain import canonical
from seeding.journal.core.errors import NotFound

FORMER: list[Callable[[Tournament, int], None]] = []
"""Refuses a number that was a bout's and is not any more; lent by a later app."""


def rules_of(division: Division) -> BracketRules:
    """The bracket section of the division's rule book."""
    return _rules(canonical(upgrade(division.snapshot)["bracket"]))


@lru_cache(maxsize=64)
def _rules(section: str) -> BracketRules:
    return BracketRules.from_section(json.loads(section))


def find_drawn(weight: WeightClass) -> Drawn | None:
    """The drawn bracket of a weight, if there is one."""
    return (
        Drawn.objects.select_related("weight_class__division").filter(weight_class=weight).first()
    )


def drawn(weight: WeightClass) -> Drawn:
    """The drawn bracket of a weight."""
    return find_drawn(weight) or _missing("bracket of weight", weight.label)


def bracket(of: Drawn) -> Bracket:
    """The bracket as the core knows it; entries by their keys."""
    lines = line_up(of.lines)
    return _built(lines, of.places, rules_of(of.weight_class.division))


def crossings_of(of: Drawn) -> list[list[int]]:
    """Of an elimination, for championship rounds 2 to the semifinals: the bouts whose losers meet
    the winners of consolation bouts 1, 2, ..., in this order."""
    if bracket(of).format is not Format.ELIMINATION:
        return []
    size = rules_of(of.weight_class.division).size(len(of.lines))
    return [list(one.order) for one in exchanges(size)]


@lru_cache(maxsize=256)
def _built(lines: LineUp, places: int, rules: BracketRules) -> Bracket:
    return build(lines, rules, places)


def entry_ids(of: Drawn) -> dict[str, int]:
    """The entries of a weight: key to primary key."""
    rows = Entry.objects.filter(weight_class_id=of.weight_class_id)
    return dict(rows.values_list("key", "pk"))


def line_up(stored: Iterable[Any]) -> LineUp:
    """The stored lines as the core's value."""
    return tuple(tuple(line) if isinstance(line, list) else line for line in stored)


def bouts(of: Drawn) -> QuerySet[Bout]:
    """Every node of a weight's bracket."""
    return Bout.objects.filter(drawn=of)


def bout(weight: WeightClass, key: str) -> Bout:
    """A bout of a weight by its identity, such as R1-9."""
    try:
        parsed = BoutKey.parse(key)
    except ValueError:
        _missing("bout", key)
    found = _full().filter(drawn__weight_class=weight, round=parsed.round, position=parsed.position)
    return found.first() or _missing("bout", key)


def numbered_bout(tournament: Tournament, number: int) -> Bout:
    """A bout of a tournament by its number."""
    found = _full().filter(drawn__weight_class__tournament=tournament, number=number).first()
    if found is None:
        for refuse in FORMER:
            refuse(tournament, number)
    return found or _missing("bout", str(number))


def bout_named(tournament: Tournament, name: str) -> Bout:
    """A bout by its number, or by weight and identity, such as 17 or 125.R1-9."""
    weight, _, key = name.rpartition(".")
    if weight:
        found = WeightClass.objects.filter(tournament=tournament, key=weight).first()
        return bout(found, key) if found else _missing("bout", name)
    whole = name.isascii() and name.isdecimal() and len(name) < 10
    return numbered_bout(tournament, int(name)) if whole else _missing("bout", name)


def numbered(tournament: Tournament) -> QuerySet[Bout]:
    """All numbered bouts in the order of their numbers."""
    return (
        _full().filter(drawn__weight_class__tournament=tournament).exclude(number=None)
    ).order_by("number")


def shape_for(weight: WeightClass, entrants: int) -> Shape | None:
    """The format that so many entrants take by the weight's rule book."""
    try:
        return shape(entrants, rules_of(weight.division))
    except FieldSizeNotOffered:
        return None


def shape_of(made: Drawn) -> Shape:
    """The format of a draw as it was made."""
    lines = line_up(made.lines)
    return Shape(Format(made.format), len(lines), sum(isinstance(one, tuple) for one in lines))


def to_come(of: Tournament, mat: str) -> QuerySet[Bout]:
    """The bouts still to be wrestled on a mat, in the order of their numbers."""
    return numbered(of).filter(mat=mat, status__in=[Bout.Status.WAITING, Bout.Status.READY])


@dataclass(frozen=True, slots=True)
class Starter:
    """A starting line: its number and who stands there, two where a pigtail decides, none a bye."""

    line: int
    entries: tuple[Entry, ...]


def starters(weight: WeightClass) -> list[Starter]:
    """The line-up of a drawn weight from top to bottom; empty before the draw."""
    made = find_drawn(weight)
    if not made:
        return []
    rows = Entry.objects.filter(weight_class=weight).select_related("wrestler", "team")
    by_key = {row.key: row for row in rows}
    sides = [one if isinstance(one, tuple) else (one,) for one in line_up(made.lines)]
    return [
        Starter(at, tuple(by_key[key] for key in keys if key))
        for at, keys in enumerate(sides, start=1)
    ]


def bout_name(of: Bout) -> str:
    """How people call a bout: its number, else weight and round."""
    return str(of.number) if of.number else f"{of.drawn.weight_class.label} {of.key}"


def bout_names(keys: Collection[int]) -> dict[int, str]:
    """How bouts are called, for the log."""
    rows = Bout.objects.filter(pk__in=keys).select_related("drawn__weight_class")
    return {row.pk: bout_name(row) for row in rows}


def _full() -> QuerySet[Bout]:
    return Bout.objects.select_related(
        "drawn__weight_class__division",
        "drawn__weight_class__tournament",
        "top__wrestler",
        "top__team",
        "bottom__wrestler",
        "bottom__team",
    )


def _missing(what: str, name: str) -> NoReturn:
    raise NotFound(what=what, name=name)
