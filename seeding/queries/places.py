"""The order line by line: places, flags, circles, and what is still left to the committee."""

from dataclasses import dataclass

from django.utils.translation import gettext as _

from seeding.core.circles import Beat
from seeding.core.order import Flag
from seeding.entries.models import Entry
from seeding.models import Override
from seeding.queries.evidence import Why, shown, whys
from seeding.queries.order import Order


@dataclass(frozen=True, slots=True)
class Beaten:
    """A flag at the lower one: he has beaten somebody above him; `circle`: how that hangs
    together with other bouts, or empty."""

    sentence: str
    high: int
    name: str
    circle: str

    @property
    def text(self) -> str:
        return " ".join(filter(None, (self.sentence, self.circle)))


@dataclass(frozen=True, slots=True)
class ShownCircle:
    """A circle: who is in it, a shortest round of it, how it was settled, what that goes against.

    `round`, `against`: one sentence per two wrestlers, with the bouts that say so.
    """

    names: tuple[str, ...]
    round: tuple[str, ...]
    settled: str
    against: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Place:
    """One line of the order; `proposed`: the place by the criteria alone.

    `why`: the reason between this one and the next; `open`: in a group that the list leaves to the
    committee and that is not decided yet.
    """

    number: int
    seeded: bool
    uid: str
    entry: Entry
    name: str
    proposed: int
    record: str
    totals: tuple[tuple[str, str], ...]
    flags: tuple[Beaten, ...]
    moves: tuple[Override, ...]
    why: Why | None
    open: bool


def places(order: Order) -> list[Place]:
    """The order, line by line, with the reason between each and the next."""
    reasons = whys(order)
    beaten = _flags(order)
    records = _records(order)
    proposed = {uid: at for at, uid in enumerate(order.proposal.order, 1)}
    left = {uid for group in order.undecided for uid in group}
    return [
        Place(
            number=number,
            seeded=number <= order.proposal.count,
            uid=uid,
            entry=order.entries[uid],
            name=order.names[uid],
            proposed=proposed[uid],
            record="{}-{}".format(*records.get(uid, (0, 0))),
            totals=tuple((total.name, str(total)) for total in order.proposal.totals.get(uid, ())),
            flags=beaten.get(uid, ()),
            moves=tuple(row for row in order.overrides if row.entry_id == order.entries[uid].pk),
            why=reasons[number - 1] if number <= len(reasons) else None,
            open=uid in left,
        )
        for number, uid in enumerate(order.order, 1)
    ]


def _flags(order: Order) -> dict[str, tuple[Beaten, ...]]:
    at = {uid: number for number, uid in enumerate(order.order, 1)}
    found: dict[str, tuple[Beaten, ...]] = {}
    for flag in order.flags:
        one = Beaten(
            sentence=flag.sentence.say(order.names),
            high=at[flag.above],
            name=order.names[flag.above],
            circle=_in_circle(order, flag),
        )
        found[flag.below] = (*found.get(flag.below, ()), one)
    return found


def _in_circle(order: Order, flag: Flag) -> str:
    """What to add where the two are in one circle: no order of it agrees with all its bouts."""
    members = next(
        (
            one.circle.wrestlers
            for one in order.proposal.circles
            if {flag.above, flag.below} <= set(one.circle.wrestlers)
        ),
        (),
    )
    if not members:
        return ""
    bouts = "; ".join(str(bout) for bout in flag.bouts)
    people = ", ".join(order.names[uid] for uid in members)
    return _("In the circle of %(people)s the order goes against this: %(bouts)s.") % {
        "people": people,
        "bouts": bouts,
    }


def circles(order: Order) -> tuple[ShownCircle, ...]:
    """The circles of the proposal as the bouts that make them."""
    at = {uid: number for number, uid in enumerate(order.order, 1)}
    found = []
    for one in order.proposal.circles:
        against = [beat for beat in one.circle.beats if at[beat.better] > at[beat.worse]]
        found.append(
            ShownCircle(
                names=tuple(order.names[uid] for uid in one.circle.wrestlers),
                round=tuple(_beat(beat, order) for beat in one.circle.round),
                settled=one.settled.say(order.names),
                against=tuple(_beat(beat, order) for beat in against),
            )
        )
    return tuple(found)


def _beat(beat: Beat, order: Order) -> str:
    bouts = "; ".join(bout.text for bout in shown(beat.bouts, order.names))
    return _("%(better)s over %(worse)s: %(how)s") % {
        "better": order.names[beat.better],
        "worse": order.names[beat.worse],
        "how": bouts or beat.by,
    }


def _records(order: Order) -> dict[str, tuple[int, int]]:
    """Bouts won and lost in the season, of every kind and at every weight."""
    found: dict[str, tuple[int, int]] = {}
    for bout in order.proposal.season.bouts:
        won, lost = found.get(bout.winner, (0, 0))
        found[bout.winner] = (won + 1, lost)
        won, lost = found.get(bout.loser, (0, 0))
        found[bout.loser] = (won, lost + 1)
    return found


def undecided(order: Order) -> list[list[str]]:
    """The names of each group that still waits for the committee."""
    return [[order.names[uid] for uid in group] for group in order.undecided]
