"""Every read of drawn brackets."""

import json
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, NoReturn

from django.db.models import Count, Q, QuerySet

from brackets.core.errors import FieldSizeNotOffered
from brackets.core.formats import Shape, build, shape
from brackets.core.graph import BoutKey, Bracket, Format, LineUp
from brackets.core.latest import exchanges
from brackets.core.rules import BracketRules
from brackets.models import Bout, Drawn
from seeding.entries.core.rulebook import upgrade
from seeding.entries.models import Division, Entry, Tournament, WeightClass
from seeding.entries.queries.groups import is_waiting
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
    found = _full().filter(drawn__weight_class__tournament=tournament, number=number)
    return found.first() or _missing("bout", str(number))


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


OVER = Q(status=Bout.Status.DECIDED)
WRESTLED = Q(status=Bout.Status.DECIDED, implied=False)
LAPSED = Q(status__in=[Bout.Status.BYE, Bout.Status.VACANT, Bout.Status.SPARED])


@dataclass(frozen=True, slots=True)
class Stage:
    """How far a weight is on the way from its entries to numbered bouts.

    `shape`: the format that its field takes, None where there is none for it, and where wrestlers
    wait to be grouped (`waits`), who are drawn in their groups. `bouts`: how many
    there are in all if everybody appears, less those that have lapsed since because nobody won an
    earlier one or they are not needed; `wrestled` and `numbered` are of these.
    """

    weight: WeightClass
    entered: int
    seeded: int
    shape: Shape | None
    drawn: Drawn | None
    bouts: int
    wrestled: int
    numbered: int
    waits: bool

    @property
    def byes(self) -> int:
        """How many lines of an elimination stay empty."""
        return max(0, self.shape.lines - self.entered) if self.shape else 0


@dataclass(frozen=True, slots=True)
class MatLoad:
    """How many bouts a mat has in all, and how many of them are still to come."""

    name: str
    bouts: int
    left: int


def stages(of: Tournament) -> list[Stage]:
    """Every weight from light to heavy; four queries whatever their number."""
    entered = Entry.objects.filter(tournament=of, status=Entry.Status.ENTERED).order_by()
    field = {
        row["weight_class"]: row
        for row in entered.values("weight_class").annotate(all=Count("pk"), seeded=Count("seed"))
    }
    every = Bout.objects.filter(drawn__weight_class__tournament=of).order_by()
    counts = {
        row["drawn__weight_class"]: row
        for row in every.values("drawn__weight_class").annotate(
            wrestled=Count("pk", filter=WRESTLED),
            numbered=Count("number"),
            lapsed=Count("number", filter=LAPSED),
        )
    }
    made = Drawn.objects.filter(weight_class__tournament=of)
    drawn = {row.weight_class_id: row for row in made.select_related("weight_class__division")}
    none = {"all": 0, "seeded": 0, "wrestled": 0, "numbered": 0, "lapsed": 0}
    return [
        _stage(row, drawn.get(row.pk), field.get(row.pk, none), counts.get(row.pk, none))
        for row in WeightClass.objects.filter(tournament=of).select_related("division")
    ]


def _stage(weight: WeightClass, made: Drawn | None, field: Any, counts: Any) -> Stage:
    waits = is_waiting(weight)
    return Stage(
        weight=weight,
        entered=field["all"],
        seeded=field["seeded"],
        shape=shape_of(made) if made else shape_for(weight, 0 if waits else field["all"]),
        drawn=made,
        bouts=len(bracket(made).bouts) - counts["lapsed"] if made else 0,
        wrestled=counts["wrestled"],
        numbered=counts["numbered"] - counts["lapsed"],
        waits=waits,
    )


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


def mat_loads(of: Tournament) -> list[MatLoad]:
    """The mats of a tournament with their bouts; mats that it no longer has come last."""
    rows = _real(of).exclude(number=None).values("mat").order_by()
    found = {
        row["mat"]: MatLoad(row["mat"], row["all"], row["all"] - row["over"])
        for row in rows.annotate(all=Count("pk"), over=Count("pk", filter=OVER))
    }
    named = [found.pop(mat, MatLoad(mat, 0, 0)) for mat in of.mats]
    return [*named, *sorted(found.values(), key=lambda load: load.name)]


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


def _real(of: Tournament) -> QuerySet[Bout]:
    return Bout.objects.filter(drawn__weight_class__tournament=of).exclude(LAPSED)


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
