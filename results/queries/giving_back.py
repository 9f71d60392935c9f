"""What a tournament's results are as bouts of the organisation's season, and what that changes."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from brackets.models import Bout
from results.core.outcomes import MANNERS, Kind, Use, write_time
from results.models import Result
from results.queries.overview import overview
from seeding.core.repeats import contradict, identity
from seeding.core.season import PriorBout as Known
from seeding.core.season import ResultKind
from seeding.entries.models import Tournament
from seeding.models import PriorBout

NAME = 110
"""So much of a tournament's name stands for the event; the rest is for "(2)"."""
LONGEST = timedelta(days=4)
"""A bout that is said to have happened later than this after the first day, or before it, was
entered by another clock than the tournament's: its day is the first one."""


@dataclass(frozen=True, slots=True)
class Given:
    """A bout of the tournament as one of the season; `key` names it in the tournament."""

    key: str
    value: Known
    winner: int
    loser: int


@dataclass(frozen=True, slots=True)
class GivingBack:
    """What giving the results back would do.

    `left`: bouts still to be wrestled; until there are none, nothing is given back. `joined`: known
    to the season, from a file or with less detail; `corrected`: known otherwise; `gone`: given
    before, and no result any more. `unofficial`: results that are not official yet.
    """

    left: int
    unofficial: int
    added: tuple[Given, ...]
    joined: tuple[tuple[Given, PriorBout], ...]
    corrected: tuple[tuple[Given, PriorBout], ...]
    gone: tuple[PriorBout, ...]
    same: int

    @property
    def changes(self) -> bool:
        return bool(self.added or self.joined or self.corrected or self.gone)

    @property
    def there(self) -> int:
        """How many of the results the season has."""
        return self.same + len(self.joined)


def giving_back(tournament: Tournament) -> GivingBack:
    """The results beside what the season has of them."""
    counts = overview(tournament).counts
    wanted = given(tournament)
    rows = PriorBout.objects.filter(organisation=tournament.organisation_id)
    held = rows.select_related("winner", "loser", "given_by")
    mine = {row.given_as: row for row in held.filter(given_by=tournament)}
    marks = {identity(one.value): one for one in wanted}
    told = {row.identity: row for row in held.filter(identity__in=list(marks), given_by=None)}
    known = [(one, mine.get(one.key) or told.get(identity(one.value))) for one in wanted]
    other = [(one, row) for one, row in known if row and not _says(row, one)]
    return GivingBack(
        left=counts.ready + counts.waiting,
        unofficial=counts.unofficial,
        added=tuple(one for one, row in known if row is None),
        joined=tuple(pair for pair in other if not _contradict(*pair)),
        corrected=tuple(pair for pair in other if _contradict(*pair)),
        gone=tuple(row for key, row in mine.items() if key not in {one.key for one in wanted}),
        same=sum(bool(row and _says(row, one)) for one, row in known),
    )


def _says(row: PriorBout, one: Given) -> bool:
    """Whether the season holds the bout just so, as given by this tournament."""
    return row.given_as == one.key and row.value == one.value


def _contradict(one: Given, row: PriorBout) -> bool:
    return identity(row.value) != identity(one.value) or contradict(row.value, one.value)


def given(tournament: Tournament) -> list[Given]:
    """Every bout that one of two wrestlers has won, in running order.

    The second bout of the same two on one day at one weight is told from the first by its event.
    """
    rows = Result.objects.filter(
        bout__drawn__weight_class__tournament=tournament,
        winner_side__isnull=False,
        bout__top__isnull=False,
        bout__bottom__isnull=False,
    ).select_related("bout__drawn__weight_class", "bout__top__wrestler", "bout__bottom__wrestler")
    ordered = rows.order_by("bout__drawn__weight_class__position", "bout__column", "bout__position")
    return list(_told_apart(_given(tournament, row) for row in ordered))


def _given(tournament: Tournament, row: Result) -> Given:
    bout: Bout = row.bout
    sides = [entry.wrestler for entry in (bout.top, bout.bottom) if entry]
    winner, loser = sides if row.winner_side == 0 else reversed(sides)
    weight = bout.drawn.weight_class
    timed = row.time is not None and MANNERS[Kind(row.kind)].time is Use.MUST
    value = Known(
        date=day_of(tournament, row.occurred_at),
        weight=weight.label,
        winner=winner.uid,
        loser=loser.uid,
        kind=ResultKind(row.kind),
        score="-".join(str(points) for points in row.score or ()),
        event=tournament.name[:NAME],
        time=write_time(row.time) if timed and row.time is not None else "",
        level="varsity",
    )
    return Given(f"{weight.key} {bout.key}", value, winner.pk, loser.pk)


def day_of(tournament: Tournament, at: datetime) -> date:
    """The day of the tournament, by its own clock, on which something happened."""
    day = at.astimezone(ZoneInfo(tournament.time_zone)).date()
    within = timedelta() <= day - tournament.starts_on <= LONGEST
    return day if within else tournament.starts_on


def _told_apart(bouts: Iterable[Given]) -> Iterable[Given]:
    met: Counter[str] = Counter()
    for one in bouts:
        mark = identity(one.value)
        met[mark] += 1
        if met[mark] > 1:
            event = f"{one.value.event} ({met[mark]})"
            yield replace(one, value=replace(one.value, event=event))
        else:
            yield one
