"""The section `[seeding]` of a rule book: which list of criteria orders a weight, and how.

Every key below is required; an unknown key, value or criterion is refused with its path and
with what is allowed. Numbers may be TOML numbers or strings.

Keys of the section
    shape     "weighted-pairs" or "pair-points"
    count     how many wrestlers of a weight are seeded (0 = none); the rest is drawn
    undecided weighted-pairs: the weight of a criterion that decides nothing is "dropped",
              "split" or "renormalised" (the weights that decided are raised to make up a whole);
              pair-points: a pair that no criterion decides gives each "half" a point or "nothing"
    order_by  weighted-pairs: one or both of "pairs-won", "sum-of-weights", first first;
              pair-points: ["points"]
    circles   pair-points only. A head-to-head circle of three (A beat B, B beat C, C beat A):
              the bouts "stand", each pair gives each "half" a point, or the "next-criterion"
              decides the pair
    ties      second list, for wrestlers whose totals are equal: names of criteria of the first
              list, or whole criteria (tables as below, without weight); [] = the lot at once.
              After it comes the lot
    criteria  array of tables, strongest first
    counting  table: which kinds of result count

Keys of `[seeding.counting]`
    win, loss          for records: win percentage, quality wins, RPI
    head_to_head, common_opponents
    Each is a list of kinds out of "decision", "major decision", "technical fall", "fall",
    "injury default", "forfeit", "medical forfeit", "disqualification".

Keys of every `[[seeding.criteria]]`
    name       what people read; unique in its list; overrides go by it
    criterion  which one (below)
    weight     weighted-pairs only: a number above 0, on any scale
    and the settings of that criterion:

    head-to-head      bouts; rule = "majority" | "most-recent" | "majority-then-recent" | "sweep"
    common-opponents  bouts; rule = "more-wins" | "percentage" | "beat-one-who-beat"; repeats;
                      minimum_opponents
    win-percentage    bouts; minimum_bouts; equal = "more-wins" | "nobody"; missing
    quality-wins      bouts; repeats; over = "ranked" (then also ranking, top) | "field" (wins
                      over wrestlers entered in this weight) | "winning" (then also percentage,
                      minimum_bouts, both of the one who was beaten)
    rpi               bouts; parts = three numbers; minimum_bouts; missing
    ranking           ranking = name of a ranking put in by form or file; missing
    earlier-place     event = name of a table of places put in; places_at; missing
    returning-placer  event; places_at; groups = lists of places, best group first, equal inside
                      a group; 0 = took part without placing

    bouts, places_at  "this-weight" | "any-weight"
    repeats           "every-bout" | "each-opponent-once"
    missing           how a wrestler without a number (too few bouts, not ranked, did not place)
                      stands against one who has one: "worse", or "nobody" (decides nothing)

Example

    [seeding]
    shape = "weighted-pairs"
    count = 33
    undecided = "dropped"
    order_by = ["pairs-won", "sum-of-weights"]
    ties = ["head-to-head", "win percentage"]

    [seeding.counting]
    win = ["decision", "major decision", "technical fall", "fall", "injury default",
           "medical forfeit", "disqualification"]
    loss = ["decision", "major decision", "technical fall", "fall", "injury default",
            "medical forfeit", "disqualification"]
    head_to_head = ["decision", "major decision", "technical fall", "fall", "injury default",
                    "disqualification"]
    common_opponents = ["decision", "major decision", "technical fall", "fall", "injury default",
                        "disqualification"]

    [[seeding.criteria]]
    name = "head-to-head"
    criterion = "head-to-head"
    weight = 25
    bouts = "any-weight"
    rule = "majority"

    [[seeding.criteria]]
    name = "quality wins"
    criterion = "quality-wins"
    weight = 20
    bouts = "this-weight"
    repeats = "every-bout"
    over = "field"

    [[seeding.criteria]]
    name = "coaches' ranking"
    criterion = "ranking"
    weight = 15
    ranking = "coaches"
    missing = "worse"

    [[seeding.criteria]]
    name = "common opponents"
    criterion = "common-opponents"
    weight = 10
    bouts = "this-weight"
    rule = "percentage"
    repeats = "every-bout"
    minimum_opponents = 1

    [[seeding.criteria]]
    name = "RPI"
    criterion = "rpi"
    weight = 10
    bouts = "this-weight"
    parts = [0.25, 0.50, 0.25]
    minimum_bouts = 15
    missing = "worse"

    [[seeding.criteria]]
    name = "qualifying place"
    criterion = "earlier-place"
    weight = 10
    event = "qualifying event"
    places_at = "this-weight"
    missing = "worse"

    [[seeding.criteria]]
    name = "win percentage"
    criterion = "win-percentage"
    weight = 10
    bouts = "this-weight"
    minimum_bouts = 1
    equal = "nobody"
    missing = "worse"

A list of the other shape differs in these keys:

    [seeding]
    shape = "pair-points"
    count = 8
    undecided = "half"
    order_by = ["points"]
    circles = "half"
    ties = ["head-to-head", "win percentage"]

    [[seeding.criteria]]
    name = "common opponent"
    criterion = "common-opponents"
    bouts = "any-weight"
    rule = "beat-one-who-beat"
    repeats = "each-opponent-once"
    minimum_opponents = 1

    [[seeding.criteria]]
    name = "returning 2nd or 3rd"
    criterion = "returning-placer"
    event = "state last season"
    places_at = "any-weight"
    groups = [[2, 3]]

    [[seeding.criteria]]
    name = "returning qualifier"
    criterion = "returning-placer"
    event = "state last season"
    places_at = "any-weight"
    groups = [[1, 2, 3, 4, 5, 6, 7, 8, 0]]
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Self

from seeding.core.criteria import Criterion, Input
from seeding.core.criterion_rules import (
    Counting,
    bad,
    choice,
    choices,
    counting,
    criterion,
    positive,
)
from seeding.core.pair_points import Circles, Nobody, PairPoints
from seeding.core.season import At, Counted
from seeding.core.shapes import Shape
from seeding.core.weighted_pairs import PairsOrder, Undecided, Weighted, WeightedPairs
from seeding.entries.core.rulebook import Section

WEIGHTED_PAIRS, PAIR_POINTS = "weighted-pairs", "pair-points"
SHAPES = (WEIGHTED_PAIRS, PAIR_POINTS)


@dataclass(frozen=True, slots=True)
class SeedingRules:
    """The section as values.

    `meetings`: the bouts between two wrestlers that are shown where a lower seed beat a higher.
    `inputs`: the tables that must be put in for this list.
    """

    shape: Shape
    count: int
    ties: tuple[Criterion, ...]
    meetings: Counted
    inputs: tuple[Input, ...]

    @classmethod
    def from_section(cls, mapping: Mapping[str, object]) -> Self:
        """Read the section out of a rule book's snapshot; raises a RuleBookRefusal."""
        with Section("seeding", mapping) as section:
            with section.section("counting") as table:
                kinds = counting(table)
            name = section.text("shape", among=SHAPES)
            lines = _criteria(section, kinds, weighed=name == WEIGHTED_PAIRS)
            shape = _weighted(section, lines) if name == WEIGHTED_PAIRS else _points(section, lines)
            first = tuple(line.criterion for line in lines)
            ties = _ties(section, kinds, first)
            used = (*first, *ties)
            return cls(
                shape=shape,
                count=section.whole("count"),
                ties=ties,
                meetings=Counted(kinds.head_to_head, At.ANY_WEIGHT),
                inputs=tuple(dict.fromkeys(need for line in used for need in line.inputs)),
            )


def _criteria(section: Section, kinds: Counting, *, weighed: bool) -> tuple[Weighted, ...]:
    lines: list[Weighted] = []
    for table in section.sections("criteria"):
        with table:
            weight = positive(table, "weight") if weighed else Fraction(1)
            lines.append(Weighted(criterion(table, kinds), weight))
    if not lines:
        raise bad(section, "criteria", "a list of at least one table")
    _unique(section, "criteria", [line.criterion for line in lines])
    return tuple(lines)


def _weighted(section: Section, lines: tuple[Weighted, ...]) -> WeightedPairs:
    return WeightedPairs(
        lines,
        choice(section, "undecided", Undecided),
        choices(section, "order_by", PairsOrder),
    )


def _points(section: Section, lines: tuple[Weighted, ...]) -> PairPoints:
    if section.texts("order_by", among=("points",)) != ("points",):
        raise bad(section, "order_by", "the list of points")
    return PairPoints(
        tuple(line.criterion for line in lines),
        choice(section, "undecided", Nobody),
        choice(section, "circles", Circles),
    )


def _ties(section: Section, kinds: Counting, first: tuple[Criterion, ...]) -> tuple[Criterion, ...]:
    known = {line.name: line for line in first}
    items = section.raw("ties")
    if not isinstance(items, list | tuple):
        raise bad(section, "ties", "a list")
    found: list[Criterion] = []
    for at, item in enumerate(items):
        if isinstance(item, Mapping):
            with Section(f"{section.path('ties')}.{at}", item) as table:
                found.append(criterion(table, kinds))
        elif item in known:
            found.append(known[item])
        else:
            raise bad(section, "ties", f"a list of tables or of {', '.join(known)}")
    _unique(section, "ties", found)
    return tuple(found)


def _unique(section: Section, key: str, lines: Sequence[Criterion]) -> None:
    names = [line.name for line in lines]
    for name in names:
        if names.count(name) > 1:
            raise bad(section, key, f"a list in which {name} stands once")
