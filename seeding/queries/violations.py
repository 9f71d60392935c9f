"""The order that goes against as few bouts as possible, beside the one that stands."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import permutations

from django.utils.translation import gettext as _

from seeding.core.circles import Beat
from seeding.core.season import wins
from seeding.core.violations import FewestViolations, Part, fewest_violations
from seeding.queries.evidence import shown
from seeding.queries.order import Order, rules_of

LISTED = 10
"""Of so many wrestlers the equally good orders are listed; of more nobody could compare them."""


def read(count: int | None) -> str:
    """A number with its thousands apart; nothing where it is not known."""
    return "" if count is None else f"{count:,}"


@dataclass(frozen=True, slots=True)
class Level:
    """Wrestlers whom circles bind: in how many orders among themselves they break as few bouts.

    `count`: None where it is not known; `tied`: neighbours whose order among themselves is open;
    `alternatives`: some of those orders, each best first.
    """

    names: tuple[str, ...]
    count: int | None
    tied: tuple[tuple[str, ...], ...]
    alternatives: tuple[tuple[str, ...], ...]

    @property
    def orders(self) -> str:
        """The count as people read it."""
        return read(self.count)

    @property
    def listed(self) -> bool:
        """Whether the alternatives can be read one beside the other."""
        return len(self.alternatives) > 1 and self.few

    @property
    def few(self) -> bool:
        return len(self.names) <= LISTED

    @property
    def loose(self) -> bool:
        """Whether no part of them stands above the rest in every one of those orders."""
        return self.tied == (self.names,)


@dataclass(frozen=True, slots=True)
class Line:
    """One place of the order of fewest violations; `stands`: his place in the order as it is."""

    number: int
    name: str
    team: str
    stands: int


@dataclass(frozen=True, slots=True)
class Violations:
    """How often the order, and the best possible one, puts somebody above one who has beaten him.

    `bound`: no order does it less often; it is proven where `fewest` is as low. Two who have each
    beaten the other count once in every order. `broken`: what even the best order goes against.
    """

    now: int
    fewest: int
    bound: int
    count: int | None
    lines: tuple[Line, ...]
    broken: tuple[str, ...]
    levels: tuple[Level, ...]

    @property
    def orders(self) -> str:
        """The count as people read it."""
        return read(self.count)

    @property
    def proven(self) -> bool:
        return self.fewest == self.bound


def violations(order: Order) -> Violations:
    """Work the order of fewest violations out; the one that stands is preferred among equals."""
    found = fewest_violations(order.order, _beats(order), order.order)
    return Violations(
        now=len(order.flags),
        fewest=len(found.violated),
        bound=found.bound,
        count=found.count,
        lines=tuple(_lines(order, found)),
        broken=tuple(_broken(order, found.violated)),
        levels=tuple(_level(order, part) for part in found.parts),
    )


def _beats(order: Order) -> list[Beat]:
    """Who has beaten whom of the field, each direction once however often."""
    weight = next(iter(order.entries.values())).weight_class if order.entries else None
    if weight is None:
        return []
    graph = order.proposal.season.graph(rules_of(weight.division).meetings)
    met = ((a, b, wins(graph, a, b)) for a, b in permutations(sorted(order.order), 2))
    return [Beat(a, b, bouts) for a, b, bouts in met if bouts]


def _lines(order: Order, found: FewestViolations) -> Iterator[Line]:
    for number, uid in enumerate(found.order, 1):
        team, stands = order.entries[uid].team.name, order.order.index(uid) + 1
        yield Line(number, order.names[uid], team, stands)


def _broken(order: Order, beats: Iterable[Beat]) -> Iterator[str]:
    for beat in beats:
        bouts = "; ".join(bout.text for bout in shown(beat.bouts, order.names))
        people = {"better": order.names[beat.better], "worse": order.names[beat.worse]}
        yield _("%(better)s stands below %(worse)s: ") % people + bouts


def _level(order: Order, part: Part) -> Level:
    def named(ids: Iterable[str]) -> tuple[str, ...]:
        return tuple(order.names[uid] for uid in ids)

    return Level(
        names=named(part.wrestlers),
        count=part.count,
        tied=tuple(named(run) for run in part.tied),
        alternatives=tuple(named(one) for one in part.alternatives),
    )
