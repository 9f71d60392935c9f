"""The grid of pairs: who holds the criteria over whom."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations

from django.utils.translation import gettext_lazy

from seeding.core.pairs import key
from seeding.core.reasons import Step
from seeding.queries.order import Order

OVER, UNDER, EVEN = "over", "under", "even"
SAID = {
    OVER: gettext_lazy("%(one)s over %(other)s"),
    UNDER: gettext_lazy("%(one)s under %(other)s"),
    EVEN: gettext_lazy("%(one)s and %(other)s are even"),
}


@dataclass(frozen=True, slots=True)
class Cell:
    """Who holds the criteria between two: `over`, `under` or `even`, seen from the row.

    `against`: the order puts the two the other way round; `text`: all of it in words.
    """

    number: int
    uid: str
    name: str
    holds: str
    criterion: str
    against: bool
    text: str


@dataclass(frozen=True, slots=True)
class Row:
    """One wrestler of the grid against all others, himself left out as None."""

    number: int
    uid: str
    name: str
    family: str
    cells: tuple[Cell | None, ...]

    @property
    def over(self) -> int:
        return self._count(OVER)

    @property
    def under(self) -> int:
        return self._count(UNDER)

    @property
    def even(self) -> int:
        return self._count(EVEN)

    def _count(self, holds: str) -> int:
        return sum(cell is not None and cell.holds == holds for cell in self.cells)


def grid(order: Order) -> list[Row]:
    """Every two of the weight, in the order as it stands."""
    held = _held(order)
    return [
        Row(
            number=number,
            uid=uid,
            name=order.names[uid],
            family=order.entries[uid].wrestler.family,
            cells=tuple(
                None if uid == other else _cell(order, uid, at, held)
                for at, other in enumerate(order.order, 1)
            ),
        )
        for number, uid in enumerate(order.order, 1)
    ]


@dataclass(frozen=True, slots=True)
class Holds:
    """Who of two is better by the list (None: neither), and by what."""

    better: str | None
    criterion: str


def _held(order: Order) -> dict[frozenset[str], Holds]:
    return {frozenset(two): _holds(order, *two) for two in combinations(order.order, 2)}


def _holds(order: Order, a: str, b: str) -> Holds:
    """What the list says of the two alone; where it looks at no pairs, what parts them in it."""
    pair = order.proposal.arrangement.pairs.get(key(a, b))
    if pair is None:
        reason = order.proposal.reason(a, b)
        return Holds(
            None if reason.step in (Step.LOT, Step.OPEN) else reason.above, reason.criterion
        )
    return Holds(pair.better, pair.deciding.criterion if pair.deciding else "")


def _cell(order: Order, uid: str, at: int, held: Mapping[frozenset[str], Holds]) -> Cell:
    other = order.order[at - 1]
    found = held[frozenset((uid, other))]
    holds = EVEN if found.better is None else OVER if found.better == uid else UNDER
    higher = order.order.index(uid) < at - 1
    words = str(SAID[holds]) % {"one": order.names[uid], "other": order.names[other]}
    return Cell(
        number=at,
        uid=other,
        name=order.names[other],
        holds=holds,
        criterion=found.criterion,
        against=holds == (UNDER if higher else OVER),
        text=f"{words} ({found.criterion})" if found.criterion else words,
    )
