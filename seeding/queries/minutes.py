"""The minutes of a weight: everything that its order of seeds rests on, in words."""

from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass
from datetime import datetime
from hashlib import sha256
from zoneinfo import ZoneInfo

from django.conf import settings
from django.utils.translation import gettext as _
from django.utils.translation import override

from seeding.entries.models import User, WeightClass
from seeding.journal.core.chain import canonical
from seeding.models import Challenge, Signature
from seeding.queries.list_used import ListUsed, PutIn, list_used, put_in
from seeding.queries.lots import drawn
from seeding.queries.order import Order, order_of
from seeding.queries.places import Place, ShownCircle, circles, places, undecided
from seeding.queries.recusal import own_wrestlers, recused


@dataclass(frozen=True, slots=True)
class Line:
    """One place of the final order, and the reason between it and the next.

    `seed`: 0 = not seeded. `numbers` are the sums of the list, `why` and `bouts` the reason and its
    evidence (`more` bouts than these), `flags` whom above him he has beaten.
    """

    place: int
    seed: int
    entry: str
    name: str
    team: str
    proposed: int
    record: str
    numbers: tuple[str, ...]
    flags: tuple[str, ...]
    criterion: str
    why: str
    bouts: tuple[str, ...]
    more: int


@dataclass(frozen=True, slots=True)
class Moved:
    """One move of the committee."""

    entry: str
    name: str
    before: int
    to: int
    reason: str
    author: str
    at: str


@dataclass(frozen=True, slots=True)
class Heard:
    """One challenge and what became of it."""

    name: str
    over: str
    by: str
    reason: str
    recorded_by: str
    at: str
    state: str
    answer: str
    answered_by: str
    answered_at: str


@dataclass(frozen=True, slots=True)
class Recused:
    """A member of the committee, his teams, and whom of this weight he has no say over."""

    member: str
    teams: tuple[str, ...]
    wrestlers: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Minutes:
    """What is signed. Times are those of the tournament's zone."""

    tournament: str
    starts_on: str
    time_zone: str
    division: str
    weight: str
    state: str
    adopted_at: str
    adopted_by: str
    rules: ListUsed
    put_in: PutIn
    lot_seed: str
    lot_version: int
    drawn: tuple[tuple[str, ...], ...]
    proposal: tuple[str, ...]
    circles: tuple[ShownCircle, ...]
    undecided: tuple[tuple[str, ...], ...]
    moves: tuple[Moved, ...]
    challenges_until: str
    challenges: tuple[Heard, ...]
    recusals: tuple[Recused, ...]
    order: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Signed:
    """A signature; it stands as long as the minutes read as they were signed."""

    name: str
    username: str
    at: str
    digest: str
    stands: bool


@dataclass(frozen=True, slots=True)
class Signable:
    """Minutes with their digest and those who signed them; `locked`: the weight is drawn."""

    minutes: Minutes
    digest: str
    signatures: tuple[Signed, ...]
    locked: bool
    version: int


def signable(weight: WeightClass) -> Signable:
    """The minutes of a weight as they read now.

    They are kept in the language of the site, whatever the reader's: all sign the same words.
    """
    order = order_of(weight)
    with override(settings.LANGUAGE_CODE):
        found = minutes(weight, order)
    mark = digest_of(found)
    rows = Signature.objects.filter(order=order.kept).select_related("user") if order.kept else ()
    signed = tuple(
        Signed(
            name=row.name,
            username=row.user.username,
            at=_time(row.at, weight),
            digest=row.digest,
            stands=row.digest == mark,
        )
        for row in rows
    )
    return Signable(found, mark, signed, weight.locked, order.version)


def digest_of(found: Minutes) -> str:
    """SHA-256 (hex) of the minutes in canonical JSON, as the interface gives them."""
    return sha256(canonical(asdict(found)).encode()).hexdigest()


def minutes(weight: WeightClass, order: Order) -> Minutes:
    """Everything that the order of a weight rests on."""
    tournament, kept = weight.tournament, order.kept
    lines = places(order)
    challenges = list(challenges_of(order))
    until = kept.challenges_until if kept else None
    return Minutes(
        tournament=tournament.name,
        starts_on=tournament.starts_on.isoformat(),
        time_zone=tournament.time_zone,
        division=weight.division.name,
        weight=weight.label,
        state=_state(order),
        adopted_at=_time(kept.adopted_at if kept else None, weight),
        adopted_by=_called(kept.adopted_by) if kept and kept.adopted_at else "",
        rules=list_used(weight, order),
        put_in=put_in(weight, order),
        lot_seed=order.proposal.lot_seed,
        lot_version=order.proposal.lot_version,
        drawn=tuple(group.names for group in drawn(order)),
        proposal=tuple(order.names[uid] for uid in order.proposal.order),
        circles=circles(order),
        undecided=tuple(tuple(group) for group in undecided(order)),
        moves=tuple(_moves(weight, order)),
        challenges_until=_time(until, weight) if until else "",
        challenges=tuple(_heard(row, weight, order) for row in challenges),
        recusals=tuple(_recusals(weight, order)),
        order=tuple(_line(place) for place in lines),
    )


def challenges_of(order: Order) -> Iterable[Challenge]:
    """The challenges to an order, oldest first."""
    if order.kept is None:
        return ()
    return Challenge.objects.filter(order=order.kept).select_related(
        "entry__wrestler", "over__wrestler", "author", "answered_by", "move"
    )


def _state(order: Order) -> str:
    if order.settled:
        return _("adopted")
    return _("changed since it was adopted") if order.adopted else _("proposal")


def _line(place: Place) -> Line:
    why = place.why
    return Line(
        place=place.number,
        seed=place.number if place.seeded else 0,
        entry=place.entry.key,
        name=place.name,
        team=place.entry.team.name,
        proposed=place.proposed,
        record=place.record,
        numbers=tuple(f"{name} {number}" for name, number in place.totals),
        flags=tuple(flag.text for flag in place.flags),
        criterion=why.criterion if why else "",
        why=why.text if why else "",
        bouts=tuple(bout.text for bout in why.few) if why else (),
        more=why.more if why else 0,
    )


def _moves(weight: WeightClass, order: Order) -> Iterator[Moved]:
    for row in order.overrides:
        yield Moved(
            entry=row.entry.key,
            name=order.called(row.entry),
            before=row.before,
            to=row.to,
            reason=row.reason,
            author=_called(row.author),
            at=_time(row.at, weight),
        )


def _heard(row: Challenge, weight: WeightClass, order: Order) -> Heard:
    state = row.get_state_display()
    if row.state == Challenge.State.GRANTED and row.move is None:
        state = _("granted; no move stands for it")
    return Heard(
        name=order.called(row.entry),
        over=order.called(row.over),
        by=row.by,
        reason=row.reason,
        recorded_by=_called(row.author),
        at=_time(row.at, weight),
        state=str(state),
        answer=row.answer,
        answered_by=_called(row.answered_by) if row.answered_at else "",
        answered_at=_time(row.answered_at, weight),
    )


def _recusals(weight: WeightClass, order: Order) -> Iterator[Recused]:
    for member, teams in recused(weight.tournament).items():
        own = own_wrestlers(order, teams)
        people = tuple(order.names[uid] for uid in order.order if uid in own)
        if people:
            yield Recused(member, tuple(team.name for team in teams), people)


def _called(user: User | None) -> str:
    return user.username if user else _("operator")


def _time(at: datetime | None, weight: WeightClass) -> str:
    zone = ZoneInfo(weight.tournament.time_zone)
    return f"{at.astimezone(zone):%Y-%m-%d %H:%M}" if at else ""
