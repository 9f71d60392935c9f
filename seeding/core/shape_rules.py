"""Reading the shape of a list.

Keys by shape
    pair-points     criteria; undecided: a pair that no criterion decides gives each "half" a point
                    or "nothing"; order_by = ["points"]; circles: meetings that run in a circle
                    "stand", each such pair gives each "half" a point, or the "next-criterion"
                    decides it
    weighted-pairs  criteria, each with weight, a number above 0 on any scale; undecided: the weight
                    of a criterion that decides nothing is "dropped", "split" or "renormalised" (the
                    weights that decided are raised to make up a whole); order_by = one or both of
                    "pairs-won", "sum-of-weights", first first
    ladder          criteria; restart = true | false: after one of a level or circling group is
                    placed the others go back to the first criterion; circles = "next-criterion" |
                    "weakest-link" | "group" | "fewest-violations" | "committee"; circle_criteria:
                    for "group" the names of criteria, or whole criteria, that order the circle
    additive        terms, "linear" or "shortfall"
    ballot          take = "mean" | "sum"; drop_best; drop_worst
    pipeline        stages, one after the other

Keys of every stage: stage, and
    filter            criterion (the table of one that gives a number), at_least, rest = "behind" |
                      "unseeded"
    groups            name, event, places_at, groups: placers first, group by group, the others last
    order             group (its number; 0 = whoever is not ordered yet), ties, shape and its keys
    swap              group, name, bouts, rule: who beat the one directly above changes with him
    floor             name, event, places_at, groups: those of the first group stand at `place` or
                      better
    team-mates-apart  apart = "half" | "quarter"; count: among so many from the top
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from seeding.core.ballots import ByBallot, Ranks
from seeding.core.circle_policies import CirclePolicy, Policy
from seeding.core.counting_rules import Counting, bad, choice, choices, number, positive, unique
from seeding.core.criteria import Criterion, Input, Missing
from seeding.core.criterion_rules import criterion, head_to_head, returning_placer
from seeding.core.ladder import Ladder
from seeding.core.measured_rules import drops, measured
from seeding.core.mends import Apart, Floor, TeamMatesApart
from seeding.core.pair_points import Circles, Nobody, PairPoints
from seeding.core.pipeline import Pipeline
from seeding.core.point_rules import linear
from seeding.core.points import Additive
from seeding.core.shapes import Shape
from seeding.core.stages import Filter, Groups, Ordered, Rest, Stage, Swaps
from seeding.core.weighted_pairs import PairsOrder, Undecided, Weighted, WeightedPairs
from seeding.entries.core.rulebook import Section


@dataclass(frozen=True, slots=True)
class Listed:
    """A shape with its criteria by name, which a second list may name, and what it must know."""

    shape: Shape
    criteria: tuple[Criterion, ...]
    inputs: tuple[Input, ...]


def listed(section: Section, kinds: Counting, among: Sequence[str]) -> Listed:
    """Read the key `shape` and those that belong to it."""
    return SHAPES[section.text("shape", among=among)](section, kinds)


def named(
    section: Section, key: str, kinds: Counting, first: Sequence[Criterion]
) -> tuple[Criterion, ...]:
    """Read a list of names of criteria of the first list, or of whole criteria."""
    known = {line.name: line for line in first}
    items = section.raw(key)
    if not isinstance(items, list | tuple):
        raise bad(section, key, "a list")
    found: list[Criterion] = []
    for at, item in enumerate(items):
        if isinstance(item, Mapping):
            with Section(f"{section.path(key)}.{at}", item) as table:
                found.append(criterion(table, kinds))
        elif item in known:
            found.append(known[item])
        else:
            raise bad(section, key, f"a list of tables or of {', '.join(known) or 'nothing'}")
    unique(section, key, [line.name for line in found])
    return tuple(found)


def _criteria(section: Section, kinds: Counting) -> tuple[Criterion, ...]:
    return tuple(line.criterion for line in _lines(section, kinds, lambda _: Fraction(1)))


def _lines(
    section: Section, kinds: Counting, weight: Callable[[Section], Fraction]
) -> tuple[Weighted, ...]:
    lines: list[Weighted] = []
    for table in section.sections("criteria"):
        with table:
            lines.append(Weighted(criterion(table, kinds), weight(table)))
    if not lines:
        raise bad(section, "criteria", "a list of at least one table")
    unique(section, "criteria", [line.criterion.name for line in lines])
    return tuple(lines)


def needs(lines: Sequence[Criterion | Stage]) -> tuple[Input, ...]:
    """What must be put in for these, each once."""
    return tuple(dict.fromkeys(need for line in lines for need in line.inputs))


def _weighted_pairs(section: Section, kinds: Counting) -> Listed:
    lines = _lines(section, kinds, lambda table: positive(table, "weight"))
    undecided = choice(section, "undecided", Undecided)
    shape = WeightedPairs(lines, undecided, choices(section, "order_by", PairsOrder))
    first = tuple(line.criterion for line in lines)
    return Listed(shape, first, needs(first))


def _pair_points(section: Section, kinds: Counting) -> Listed:
    if section.texts("order_by", among=("points",)) != ("points",):
        raise bad(section, "order_by", "the list of points")
    first = _criteria(section, kinds)
    circles = choice(section, "circles", Circles)
    return Listed(
        PairPoints(first, choice(section, "undecided", Nobody), circles), first, needs(first)
    )


def _ladder(section: Section, kinds: Counting) -> Listed:
    first = _criteria(section, kinds)
    policy = choice(section, "circles", Policy)
    own = named(section, "circle_criteria", kinds, first)
    if bool(own) != (policy is Policy.GROUP):
        wanted = "a list of criteria" if policy is Policy.GROUP else "[] with these circles"
        raise bad(section, "circle_criteria", wanted)
    shape = Ladder(first, CirclePolicy(policy, own), section.flag("restart"))
    return Listed(shape, first, needs((*first, *own)))


def _additive(section: Section, kinds: Counting) -> Listed:
    shape = Additive(linear(section, kinds))
    return Listed(shape, shape.terms, needs(shape.terms))


def _ballot(section: Section, kinds: Counting) -> Listed:
    ranks = Ranks("ballots", Missing.WORSE, *drops(section))
    return Listed(ByBallot(ranks), (ranks,), ranks.inputs)


def _pipeline(section: Section, kinds: Counting) -> Listed:
    stages: list[Stage] = []
    for table in section.sections("stages"):
        with table:
            stages.append(STAGES[table.text("stage", among=tuple(STAGES))](table, kinds))
    if not stages:
        raise bad(section, "stages", "a list of at least one table")
    return Listed(Pipeline(tuple(stages)), (), needs(stages))


def _filter(table: Section, kinds: Counting) -> Stage:
    with table.section("criterion") as inner:
        asked = measured(inner, kinds)
    return Filter(asked, number(table, "at_least"), choice(table, "rest", Rest))


def _groups(table: Section, kinds: Counting) -> Stage:
    return Groups(returning_placer(table, kinds))


def _order(table: Section, kinds: Counting) -> Stage:
    inner = listed(table, kinds, tuple(name for name in SHAPES if name != "pipeline"))
    ties = named(table, "ties", kinds, inner.criteria)
    asked = tuple(dict.fromkeys((*inner.inputs, *needs(ties))))
    return Ordered(inner.shape, ties, table.whole("group"), asked)


def _swap(table: Section, kinds: Counting) -> Stage:
    return Swaps(head_to_head(table, kinds), table.whole("group"))


def _floor(table: Section, kinds: Counting) -> Stage:
    return Floor(returning_placer(table, kinds), table.whole("place", 1))


def _apart(table: Section, kinds: Counting) -> Stage:
    return TeamMatesApart(choice(table, "apart", Apart), table.whole("count", 2))


SHAPES: Mapping[str, Callable[[Section, Counting], Listed]] = {
    "pair-points": _pair_points,
    "ladder": _ladder,
    "additive": _additive,
    "weighted-pairs": _weighted_pairs,
    "ballot": _ballot,
    "pipeline": _pipeline,
}

STAGES: Mapping[str, Callable[[Section, Counting], Stage]] = {
    "filter": _filter,
    "groups": _groups,
    "order": _order,
    "swap": _swap,
    "floor": _floor,
    "team-mates-apart": _apart,
}
