"""Those whom only the lot could part, as they came out, and what it takes to draw them again."""

from dataclasses import dataclass

from seeding.core.lot import Lot
from seeding.queries.order import Order


@dataclass(frozen=True, slots=True)
class Ball:
    """A wrestler in the urn, by his id and name."""

    uid: str
    name: str


@dataclass(frozen=True, slots=True)
class Drawn:
    """A group that was drawn, in the order in which it came out.

    `text`: of this the first numbers are made; empty where a later stage of the list has moved the
    group, so that its places tell no more from which text it was drawn.
    """

    balls: tuple[Ball, ...]
    text: str

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(ball.name for ball in self.balls)

    @property
    def urn(self) -> tuple[Ball, ...]:
        """The group before the draw: by id."""
        return tuple(sorted(self.balls, key=lambda ball: ball.uid))


def drawn(order: Order) -> tuple[Drawn, ...]:
    """Every group that only the lot could part."""
    return tuple(_drawn(order, group) for group in order.proposal.drawn)


def _drawn(order: Order, group: tuple[str, ...]) -> Drawn:
    proposal = order.proposal
    stood = sorted(group, key=proposal.order.index)
    first = proposal.order.index(stood[0]) + 1
    purpose = f"seeding/{proposal.season.weight}/{first}-{first + len(group) - 1}"
    came = Lot(proposal.lot_seed, purpose).shuffled(sorted(group))
    same = came[0] == stood[0]
    text = f"lot/{proposal.lot_version}|{proposal.lot_seed}|{purpose}|0" if same else ""
    balls = tuple(Ball(uid, order.names[uid]) for uid in (came if same else stood))
    return Drawn(balls, text)
