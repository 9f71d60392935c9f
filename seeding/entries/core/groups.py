"""Groups for divisions without fixed weights, formed from what was weighed.

Common practice, no source: about four of nearly the same weight wrestle each other, with limits on
weight, age and experience. Objective, in this order: fewest left alone, fewest groups below the
wanted size, smallest sum of spreads of weight (in units), sizes nearest to the wanted one.

Where only weight is limited the result is optimal: of two groups whose weights overlap, giving the
lighter wrestlers to one and the heavier to the other breaks no limit and adds no spread, so some
best way cuts the order by weight, which dynamic programming finds. Where age or experience is
limited, wrestlers are first divided into bands (age, then experience in each age band); the best
of all ways to do so is taken, and then who is left over is put into any group that can take him.
A group across bands is not looked for otherwise. Ties go by age, experience and key, so the order
in which wrestlers are given changes nothing.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from seeding.entries.core.group_rules import ANY, GroupRules


@dataclass(frozen=True, slots=True)
class Measured:
    """What is known of a wrestler: weight in the division's unit, age and experience in years."""

    key: str
    weight: Decimal | None = None
    age: int | None = None
    experience: int | None = None


class Why(StrEnum):
    """Why somebody is in no group."""

    NOT_WEIGHED = "not-weighed"
    NO_AGE = "no-age"
    NO_EXPERIENCE = "no-experience"
    NOBODY_NEAR = "nobody-near"
    NO_ROOM = "no-room"


@dataclass(frozen=True, slots=True)
class Left:
    """Somebody in no group; `near`: how many others are within every limit of him."""

    key: str
    why: Why
    near: int = 0


@dataclass(frozen=True, slots=True)
class Grouping:
    """Groups of keys, light to heavy, each from light to heavy, and who is left."""

    groups: tuple[tuple[str, ...], ...]
    left: tuple[Left, ...]


class Limit(StrEnum):
    """A limit that a group can break."""

    FEW = "few"
    MANY = "many"
    WEIGHT = "weight"
    AGE = "age"
    EXPERIENCE = "experience"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Broken:
    """A limit that a group breaks: what is found and what is allowed, in the limit's own unit.

    For `UNKNOWN` found is how many lack a figure that a limit needs.
    """

    limit: Limit
    found: Decimal
    allowed: Decimal


@dataclass(frozen=True, slots=True, order=True)
class Cost:
    """How good a grouping is; the lower the better, the first field counting most."""

    alone: int = 0
    undersized: int = 0
    spread: Decimal = Decimal(0)
    off_size: int = 0

    def __add__(self, other: "Cost") -> "Cost":
        return Cost(
            self.alone + other.alone,
            self.undersized + other.undersized,
            self.spread + other.spread,
            self.off_size + other.off_size,
        )


Group = tuple[Measured, ...]
Dimension = Callable[[Measured], int | None]


@dataclass(frozen=True, slots=True)
class Plan:
    """Groups so far, and who is alone."""

    cost: Cost = Cost()
    groups: tuple[Group, ...] = ()
    alone: Group = ()

    def __add__(self, other: "Plan") -> "Plan":
        return Plan(self.cost + other.cost, self.groups + other.groups, self.alone + other.alone)


def form(people: Iterable[Measured], rules: GroupRules) -> Grouping:
    """The best groups under the rules, and who fits nowhere with the reason."""
    everybody = sorted(people, key=lambda one: one.key)
    missing = [Left(one.key, why) for one in everybody if (why := lacking(one, rules))]
    absent = {one.key for one in missing}
    ready = sorted((one for one in everybody if one.key not in absent), key=_light_first)
    plan = _take_in(_banded(ready, _dimensions(rules), rules), rules)
    groups = sorted(plan.groups, key=lambda group: [_light_first(one) for one in group])
    alone = tuple(_left(one, ready, rules) for one in sorted(plan.alone, key=_light_first))
    return Grouping(tuple(tuple(one.key for one in group) for group in groups), (*alone, *missing))


def lacking(one: Measured, rules: GroupRules) -> Why | None:
    """Which figure that the rules need is not known of him."""
    if one.weight is None:
        return Why.NOT_WEIGHED
    if one.age is None and rules.age_spread < ANY:
        return Why.NO_AGE
    if one.experience is None and rules.experience_spread < ANY:
        return Why.NO_EXPERIENCE
    return None


def spread(group: Iterable[Measured]) -> Decimal:
    """From the lightest to the heaviest, in units of weight; of those who were weighed."""
    known = [one.weight for one in group if one.weight is not None]
    return max(known) - min(known) if known else Decimal(0)


def broken(group: Sequence[Measured], rules: GroupRules) -> tuple[Broken, ...]:
    """Every limit that the group breaks, its size first."""
    return tuple(one for one in _measured(group, rules) if one.found > one.allowed) + tuple(
        Broken(Limit.FEW, Decimal(len(group)), Decimal(rules.least))
        for _ in group[:1]
        if len(group) < rules.least
    )


def _measured(group: Sequence[Measured], rules: GroupRules) -> Iterator[Broken]:
    """Each upper limit with what the group has."""
    weights = [one.weight for one in group if one.weight is not None]
    unknown = sum(1 for one in group if lacking(one, rules))
    yield Broken(Limit.MANY, Decimal(len(group)), Decimal(rules.most))
    yield Broken(Limit.UNKNOWN, Decimal(unknown), Decimal(0))
    if weights:
        yield Broken(Limit.WEIGHT, spread(group), rules.allowed(min(weights)))
    ages = [one.age for one in group if one.age is not None]
    yield Broken(Limit.AGE, _range(ages), Decimal(rules.age_spread))
    years = [one.experience for one in group if one.experience is not None]
    yield Broken(Limit.EXPERIENCE, _range(years), Decimal(rules.experience_spread))


def _range(values: Sequence[int]) -> Decimal:
    return Decimal(max(values) - min(values)) if values else Decimal(0)


def _weight(one: Measured) -> Decimal:
    return one.weight or Decimal(0)


def _light_first(one: Measured) -> tuple[Decimal, int, int, str]:
    return _weight(one), one.age or 0, one.experience or 0, one.key


def _dimensions(rules: GroupRules) -> list[tuple[Dimension, int]]:
    """The figures that bands are made of, with the widest band in years."""
    both: list[tuple[Dimension, int]] = [
        (lambda one: one.age, rules.age_spread),
        (lambda one: one.experience, rules.experience_spread),
    ]
    return [(figure, widest) for figure, widest in both if widest < ANY]


def _banded(
    people: Sequence[Measured], dimensions: Sequence[tuple[Dimension, int]], rules: GroupRules
) -> Plan:
    """The best plan over every way to cut the first figure into bands; by weight if none is left.

    `people` are light to heavy.
    """
    if not dimensions:
        return _by_weight(people, rules)
    (figure, widest), *rest = dimensions
    values = sorted({figure(one) or 0 for one in people})
    best = [Plan()]
    for end, highest in enumerate(values, start=1):
        plans = []
        for start in range(end - 1, -1, -1):
            if highest - values[start] > widest:
                break
            lowest = values[start]
            band = [one for one in people if lowest <= (figure(one) or 0) <= highest]
            plans.append(best[start] + _banded(band, rest, rules))
        best.append(min(plans, key=lambda plan: plan.cost))
    return best[-1]


def _by_weight(people: Sequence[Measured], rules: GroupRules) -> Plan:
    """The best way to cut wrestlers from light to heavy, by dynamic programming."""
    best = [Plan()]
    for end in range(1, len(people) + 1):
        plans = [best[end - 1] + Plan(Cost(alone=1), (), (people[end - 1],))]
        for size in range(rules.least, min(rules.most, end) + 1):
            group = tuple(people[end - size : end])
            if spread(group) > rules.allowed(_weight(group[0])):
                break
            plans.append(best[end - size] + Plan(_cost(group, rules), (group,)))
        best.append(min(plans, key=lambda plan: plan.cost))
    return best[-1]


def _cost(group: Group, rules: GroupRules) -> Cost:
    size = len(group)
    return Cost(0, int(size < rules.size), spread(group), abs(size - rules.size))


def _take_in(plan: Plan, rules: GroupRules) -> Plan:
    """Who is alone goes, in order of weight, to the group that he widens least, if one can."""
    groups, alone = list(plan.groups), []
    for one in sorted(plan.alone, key=_light_first):
        ways = [
            (spread((*group, one)) - spread(group), at)
            for at, group in enumerate(groups)
            if not broken((*group, one), rules)
        ]
        if ways:
            at = min(ways)[1]
            groups[at] = tuple(sorted((*groups[at], one), key=_light_first))
        else:
            alone.append(one)
    return Plan(plan.cost, tuple(groups), tuple(alone))


def _left(one: Measured, people: Sequence[Measured], rules: GroupRules) -> Left:
    near = sum(1 for other in people if other is not one and _near((one, other), rules))
    return Left(one.key, Why.NOBODY_NEAR if near < rules.least - 1 else Why.NO_ROOM, near)


def _near(two: Group, rules: GroupRules) -> bool:
    """Whether two wrestlers are within every limit but that of size."""
    return not [one for one in broken(two, rules) if one.limit is not Limit.FEW]
