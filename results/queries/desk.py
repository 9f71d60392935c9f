"""Bouts as the desk sees them: full names, versions, the state of each result."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from django.db.models import QuerySet
from django.utils.translation import gettext as _

from brackets.core.graph import BoutKey, Bracket, Line, Round
from brackets.models import Bout, Drawn
from brackets.queries import bracket, numbered
from results.core.outcomes import MANNERS, Kind, notation
from results.models import Result
from results.queries.coming import Coming
from results.queries.implied import implied_kinds
from results.queries.leavers import leavers
from results.queries.overruled import Overruled
from seeding.entries.models import Entry, Tournament

OPEN = (Bout.Status.READY, Bout.Status.WAITING)


@dataclass(frozen=True, slots=True)
class DeskSide:
    """A side of a bout, 0 the top one: who stands there, else from where somebody comes.

    `out`: that he wrestles no more, and why; told while the bout waits for another.
    """

    slot: int
    entry: Entry | None
    won: bool
    empty: bool
    line: int | None
    coming: Coming
    out: str

    @property
    def taken(self) -> bool:
        return self.entry is not None

    @property
    def name(self) -> str:
        return full_name(self.entry) if self.entry else ""

    @property
    def forms(self) -> tuple[str, ...]:
        """The name of who stands here from its longest form to its shortest."""
        return (self.name, self.entry.wrestler.family) if self.entry else ()


@dataclass(frozen=True, slots=True)
class DeskBout:
    """A bout with its result; `written` is in the rule book's notation.

    `implied`: how it is decided without a result, because somebody is out.
    """

    row: Bout
    round: Round
    sides: tuple[DeskSide, DeskSide]
    result: Result | None
    implied: Kind | None

    @property
    def ready(self) -> bool:
        return self.row.status == Bout.Status.READY

    @property
    def state(self) -> str:
        """Where the bout stands, or once it has a result, where that does."""
        return self.result.state if self.result else self.row.status

    @property
    def written(self) -> str:
        if self.result:
            return notation(self.result.outcome)
        return MANNERS[self.implied].notation if self.implied else ""

    @property
    def overruled(self) -> Overruled | None:
        """The result that a ruling went before."""
        return Overruled.of(self.row, self.result)

    @property
    def decision(self) -> str:
        """What decided it, in little room: its result, or a ruling in its place."""
        return _("by ruling") if self.overruled else self.written

    @property
    def winner(self) -> DeskSide | None:
        return next((side for side in self.sides if side.won), None)

    @property
    def loser(self) -> DeskSide | None:
        """Who lost to somebody."""
        return self.sides[1 - self.winner.slot] if self.winner else None


def full_name(entry: Entry) -> str:
    """How an entry is called at the desk."""
    return f"{entry.wrestler.given} {entry.wrestler.family}".strip()


STATUSES = ("ready", "waiting", "decided", "entered", "confirmed", "official")


def listed(
    tournament: Tournament, *, mat: str = "", weight: str = "", status: str = ""
) -> QuerySet[Bout]:
    """The numbered bouts, or those of a mat, a weight, or one of `STATUSES`."""
    rows = numbered(tournament)
    if mat:
        rows = rows.filter(mat=mat)
    if weight:
        rows = rows.filter(drawn__weight_class__key=weight)
    if status in Bout.Status.values:
        return rows.filter(status=status)
    if status in Result.State.values:
        return rows.filter(pk__in=Result.objects.filter(state=status).values("bout"))
    return rows


def seen(rows: Iterable[Bout]) -> list[DeskBout]:
    """These bouts with results and sides; three to six queries whatever their number."""
    found = list(rows)
    implied = implied_kinds(found)
    results = {one.bout_id: one for one in Result.objects.filter(bout__in=[b.pk for b in found])}
    drawn = {
        one.pk: bracket(one)
        for one in Drawn.objects.filter(pk__in={row.drawn_id for row in found}).select_related(
            "weight_class__division"
        )
    }
    numbers = {
        (pk, BoutKey(code, position)): number
        for pk, code, position, number in Bout.objects.filter(drawn__in=drawn).values_list(
            "drawn_id", "round", "position", "number"
        )
    }
    here = {pk for row in found for pk in (row.top_id, row.bottom_id) if pk}
    around = _Around(numbers, leavers(here))
    return [
        replace(
            _seen(row, drawn[row.drawn_id], results.get(row.pk), around),
            implied=implied.get(row.pk),
        )
        for row in found
    ]


@dataclass(frozen=True, slots=True)
class _Around:
    """The numbers of the bouts of some weights, and why those are out who are."""

    numbers: Mapping[tuple[int, BoutKey], int | None]
    left: Mapping[int, str]


def _seen(row: Bout, built: Bracket, result: Result | None, around: _Around) -> DeskBout:
    return DeskBout(
        row=row,
        round=built.round_of(row.key),
        sides=(_side(row, built, 0, around), _side(row, built, 1, around)),
        result=result,
        implied=None,
    )


def _side(row: Bout, built: Bracket, slot: int, around: _Around) -> DeskSide:
    entry = row.bottom if slot else row.top
    side = open_side(built, row.key, slot, lambda key: around.numbers.get((row.drawn_id, key)))
    won = entry is not None and row.winner_id == entry.pk
    waits = row.status == Bout.Status.WAITING
    return replace(
        side,
        entry=entry,
        won=won,
        empty=entry is None and row.status not in OPEN,
        out=around.left.get(entry.pk, "") if entry and waits else "",
    )


def open_side(
    built: Bracket, key: BoutKey, slot: int, number: Callable[[BoutKey], int | None]
) -> DeskSide:
    """A side of a bout with nobody on it yet; bouts are called by their `number`."""
    came = built.sources[key][slot]
    return DeskSide(
        slot=slot,
        entry=None,
        won=False,
        empty=False,
        line=came.number if isinstance(came, Line) else None,
        coming=Coming.of(built, key, slot, number),
        out="",
    )


@dataclass(frozen=True, slots=True)
class MatQueue:
    """A mat: what can be wrestled on it and what comes then, in order; the last result there."""

    name: str
    now: DeskBout | None
    coming: tuple[DeskBout, ...]
    left: int
    last: DeskBout | None

    @property
    def on_deck(self) -> DeskBout | None:
        return self.coming[0] if self.coming else None

    @property
    def in_the_hole(self) -> DeskBout | None:
        return self.coming[1] if len(self.coming) > 1 else None


AHEAD = 8


def mat_queue(tournament: Tournament, mat: str, number: int | None = None) -> MatQueue:
    """What is on a mat: the first open bout that can be wrestled, or the open bout `number`."""
    rows = numbered(tournament).filter(mat=mat)
    coming = rows.filter(status__in=OPEN)
    ready = coming.filter(status=Bout.Status.READY)
    now = (ready.filter(number=number).first() if number else None) or ready.first()
    then = [row for row in coming[: AHEAD + 1] if not now or row.pk != now.pk][:AHEAD]
    last = rows.filter(pk__in=_last(tournament, mat)).first()
    shown = {one.row.pk: one for one in seen([row for row in (now, *then, last) if row])}
    return MatQueue(
        name=mat,
        now=shown[now.pk] if now else None,
        coming=tuple(shown[row.pk] for row in then),
        left=coming.count(),
        last=shown[last.pk] if last else None,
    )


def _last(tournament: Tournament, mat: str) -> list[int]:
    """The bout of the mat whose result was received last."""
    told = Result.objects.filter(bout__mat=mat, bout__drawn__weight_class__tournament=tournament)
    return list(told.order_by("-received_at", "-pk").values_list("bout_id", flat=True)[:1])
