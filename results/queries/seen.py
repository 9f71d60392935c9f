"""A bout and its two sides as the public may see them."""

from dataclasses import dataclass

from django.utils.translation import gettext as _

from brackets.core.graph import BoutKey, Line, Round, Source
from brackets.core.standing import Status
from results.queries.coming import Coming
from results.queries.overruled import Overruled
from results.queries.people import Person
from results.queries.ruled import marked
from seeding.entries.models import WeightClass


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a bout, 0 the top one.

    `taken`: somebody stands here, `person` only where he is published. `empty`: nobody will come.
    `came` is what the bracket feeds the side by, `coming` the same with byes looked through.
    """

    slot: int
    person: Person | None
    taken: bool
    empty: bool
    won: bool
    came: Source
    coming: Coming

    @property
    def line(self) -> int | None:
        return self.came.number if isinstance(self.came, Line) else None

    @property
    def forms(self) -> tuple[str, ...]:
        """The name of who stands here from its longest form to its shortest."""
        return self.person.forms if self.person else ()


@dataclass(frozen=True, slots=True)
class Seen:
    """A bout as published; while results are closed, as the draw alone makes it.

    `result` is in the rule book's notation; `overruled`: a ruling went before it. `winner_to`,
    `loser_to`: the bouts that follow; `loser_may_to`: where the loser goes if the man who beat him
    goes on.
    `rulings`: the numbers of those that are about it, or about a place that it gives.
    """

    pk: int
    key: BoutKey
    weight: WeightClass
    round: Round
    number: int | None
    mat: str
    status: Status
    sides: tuple[Side, Side]
    result: str
    overruled: Overruled | None
    official: bool
    at: str
    winner_to: BoutKey | None
    loser_to: BoutKey | None
    loser_may_to: BoutKey | None
    rulings: tuple[int, ...]

    @property
    def mark(self) -> str:
        return marked(self.rulings)

    @property
    def decision(self) -> str:
        """What decided it, in little room: its result, or a ruling in its place."""
        return _("by ruling") if self.overruled else self.result

    @property
    def decided(self) -> bool:
        return self.status is Status.DECIDED

    @property
    def open(self) -> bool:
        return self.status in (Status.READY, Status.WAITING)

    @property
    def forfeit(self) -> bool:
        """Whether it will be a forfeit once it is known who else stands in it."""
        return self.open and any(side.person and side.person.out for side in self.sides)

    @property
    def spared(self) -> bool:
        """Whether it turned out not to be needed."""
        return self.status is Status.SPARED

    @property
    def unsure(self) -> bool:
        """Whether it may still turn out not to be needed."""
        return self.open and self.round.needed is not None

    def has(self, entry: int) -> bool:
        return any(side.person and side.person.entry == entry for side in self.sides)
