"""Every read of drawn brackets."""

import json
from collections.abc import Iterable
from functools import lru_cache
from typing import Any, NoReturn

from django.db.models import QuerySet

from brackets.core.formats import build
from brackets.core.graph import BoutKey, Bracket, LineUp
from brackets.core.rules import BracketRules
from brackets.models import Bout, Drawn
from seeding.entries.core.rulebook import upgrade
from seeding.entries.models import Division, Entry, Tournament, WeightClass
from seeding.journal.core.chain import canonical
from seeding.journal.core.errors import NotFound


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
    found = _full().filter(drawn__weight_class__tournament=tournament, number=number)
    return found.first() or _missing("bout", str(number))


def numbered(tournament: Tournament) -> QuerySet[Bout]:
    """All numbered bouts in the order of their numbers."""
    return (
        _full().filter(drawn__weight_class__tournament=tournament).exclude(number=None)
    ).order_by("number")


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
