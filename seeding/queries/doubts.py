"""What of a season should be looked at twice: names that are alike, bouts perhaps told twice."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from django.db.models import Count, Q, QuerySet
from django.db.models.functions import Greatest, Least

from seeding.core.doubles import Double, Likeness, doubles
from seeding.core.people import Person
from seeding.core.repeats import told_twice
from seeding.core.season import PriorBout as Known
from seeding.entries.models import Entry, Tournament, Wrestler
from seeding.journal.core.errors import NotFound
from seeding.models import BothStand, NotSame, PriorBout
from seeding.queries.season import COLUMNS, as_known, season_bouts


@dataclass(frozen=True, slots=True)
class Trace:
    """What is known of one wrestler in the season, for telling him from another."""

    wrestler: Wrestler
    won: int
    lost: int
    weights: tuple[str, ...]
    first: date | None
    last: date | None
    entered: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Doubt:
    """Two wrestlers who may be one, with what speaks for it and against.

    `met`: bouts against each other, which only two people wrestle. `elsewhere`: days on which they
    wrestled at different events.
    """

    double: Double
    traces: tuple[Trace, Trace]
    met: tuple[Known, ...]
    elsewhere: tuple[date, ...]


def doubles_of(tournament: Tournament) -> tuple[Double, ...]:
    """Every two wrestlers of the organisation whose names are alike, but those judged apart."""
    organisation = tournament.organisation_id
    people = Wrestler.objects.filter(organisation=organisation)
    pairs = NotSame.objects.filter(organisation=organisation).values_list("one__uid", "other__uid")
    return doubles(
        [Person(*row) for row in people.values_list("uid", "given", "family", "home")],
        frozenset(frozenset(pair) for pair in pairs),
    )


def doubts_of(tournament: Tournament, found: Sequence[Double]) -> list[Doubt]:
    """The evidence on these pairs, in a few queries whatever their number."""
    uids = {uid for double in found for uid in (double.one, double.other)}
    rows = Wrestler.objects.filter(organisation=tournament.organisation_id, uid__in=uids)
    wrestlers = {row.uid: row for row in rows}
    bouts = _bouts(tournament, [row.pk for row in wrestlers.values()])
    entered = _entered(wrestlers.values())
    traces = {uid: _trace(row, bouts[uid], entered[row.pk]) for uid, row in wrestlers.items()}
    return [
        Doubt(
            double=double,
            traces=(traces[double.one], traces[double.other]),
            met=tuple(bout for bout in bouts[double.one] if double.other in _sides(bout)),
            elsewhere=_elsewhere(bouts[double.one], bouts[double.other]),
        )
        for double in found
    ]


def doubt(tournament: Tournament, one: Wrestler, other: Wrestler) -> Doubt:
    """The evidence on any two wrestlers, whether their names are alike or not."""
    people = [Person(row.uid, row.given, row.family, row.home) for row in (one, other)]
    unlike = Double(Likeness.NONE, one.home != other.home, one.uid, other.uid)
    return doubts_of(tournament, [next(iter(doubles(people)), unlike)])[0]


def _bouts(tournament: Tournament, keys: Collection[int]) -> Mapping[str, list[Known]]:
    rows = season_bouts(tournament).filter(Q(winner__in=keys) | Q(loser__in=keys))
    found: dict[str, list[Known]] = defaultdict(list)
    for row in rows.values_list(*COLUMNS):
        bout = as_known(row)
        for uid in _sides(bout):
            found[uid].append(bout)
    return found


def _sides(bout: Known) -> tuple[str, str]:
    return bout.winner, bout.loser


def _entered(wrestlers: Iterable[Wrestler]) -> Mapping[int, tuple[str, ...]]:
    rows = Entry.objects.filter(wrestler__in=wrestlers).order_by("tournament__starts_on", "pk")
    found: dict[int, list[str]] = defaultdict(list)
    for pk, name, label in rows.values_list("wrestler", "tournament__name", "weight_class__label"):
        found[pk].append(f"{name}, {label}")
    return defaultdict(tuple, {pk: tuple(places) for pk, places in found.items()})


def _trace(wrestler: Wrestler, bouts: Sequence[Known], entered: tuple[str, ...]) -> Trace:
    days = sorted(bout.date for bout in bouts)
    return Trace(
        wrestler=wrestler,
        won=sum(bout.winner == wrestler.uid for bout in bouts),
        lost=sum(bout.loser == wrestler.uid for bout in bouts),
        weights=tuple(sorted({bout.weight for bout in bouts}, key=lambda text: (len(text), text))),
        first=days[0] if days else None,
        last=days[-1] if days else None,
        entered=entered,
    )


def _elsewhere(one: Sequence[Known], other: Sequence[Known]) -> tuple[date, ...]:
    """Days on which both wrestled and no event is common to them."""
    places = (_places(one), _places(other))
    common = sorted(places[0].keys() & places[1].keys())
    return tuple(day for day in common if not places[0][day] & places[1][day])


def _places(bouts: Iterable[Known]) -> Mapping[date, set[str]]:
    found: dict[date, set[str]] = defaultdict(set)
    for bout in bouts:
        if bout.event:
            found[bout.date].add(bout.event.casefold())
    return found


@dataclass(frozen=True, slots=True)
class Repeat:
    """Two bouts of the same two wrestlers on one day; `differs`: in what their reports differ."""

    one: PriorBout
    other: PriorBout
    differs: tuple[str, ...]

    @property
    def both(self) -> tuple[PriorBout, PriorBout]:
        return self.one, self.other


def repeats_of(tournament: Tournament) -> list[Repeat]:
    """The season's bouts that may be one bout told twice, but those judged to be two; by day."""
    rows = _more_than_once_a_day(tournament).values_list("pk", *COLUMNS)
    found = told_twice({pk: as_known(tuple(rest)) for pk, *rest in rows})
    judged = set(
        BothStand.objects.filter(one__organisation=tournament.organisation_id).values_list(
            "one", "other"
        )
    )
    left = [one for one in found if (one.one, one.other) not in judged]
    keys = {key for one in left for key in (one.one, one.other)}
    bouts = PriorBout.objects.select_related("winner", "loser", "given_by").in_bulk(keys)
    pairs = [Repeat(bouts[one.one], bouts[one.other], one.differs) for one in left]
    return sorted(pairs, key=lambda pair: (pair.one.date, pair.one.pk, pair.other.pk))


def _more_than_once_a_day(tournament: Tournament) -> QuerySet[PriorBout]:
    """The bouts of all who met somebody twice in a day, found by the database."""
    bouts = season_bouts(tournament)
    days = (
        bouts.order_by()
        .annotate(low=Least("winner", "loser"), high=Greatest("winner", "loser"))
        .values("date", "low", "high")
    )
    often = list(days.annotate(times=Count("pk")).filter(times__gt=1))
    people = {row[side] for row in often for side in ("low", "high")}
    return bouts.filter(
        date__in={row["date"] for row in often}, winner__in=people, loser__in=people
    )


def struck_bouts(tournament: Tournament) -> list[PriorBout]:
    """The bouts that were taken out of the organisation's season, the last one first."""
    rows = PriorBout.objects.filter(
        organisation=tournament.organisation_id, struck_at__isnull=False
    )
    return list(rows.select_related("winner", "loser", "struck_by").order_by("-struck_at", "-pk"))


def wrestler_of(tournament: Tournament, uid: str) -> Wrestler:
    """A wrestler of the tournament's organisation by opaque id."""
    found = Wrestler.objects.filter(organisation=tournament.organisation_id, uid=uid).first()
    if found is None:
        raise NotFound(what="wrestler", name=uid)
    return found


def bout_of(tournament: Tournament, key: int) -> PriorBout:
    """A bout of the tournament's organisation by its number in the season."""
    rows = PriorBout.objects.select_related("winner", "loser")
    found = rows.filter(organisation=tournament.organisation_id, pk=key).first()
    if found is None:
        raise NotFound(what="bout", name=str(key))
    return found


def bouts_of(tournament: Tournament, wrestler: Wrestler) -> list[PriorBout]:
    """A wrestler's bouts of the season, by day."""
    rows = season_bouts(tournament).filter(Q(winner=wrestler) | Q(loser=wrestler))
    return list(rows.select_related("winner", "loser"))


def bout_names(keys: Collection[int]) -> Mapping[int, str]:
    """How bouts of the season are told in the log."""
    rows = PriorBout.objects.filter(pk__in=keys).select_related("winner", "loser")
    return {row.pk: f"{row.winner.name}, {row.loser.name}, {row.date.isoformat()}" for row in rows}
