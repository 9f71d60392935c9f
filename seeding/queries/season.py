"""Reads of the season: its bouts, and what is known of a weight's entrants."""

from collections.abc import Collection, Iterable, Sequence
from datetime import date, timedelta
from typing import Any

from django.db.models import Q, QuerySet

from seeding.core.people import Person
from seeding.core.rules import SeedingRules
from seeding.core.season import PriorBout as Known
from seeding.core.season import Season
from seeding.entries.models import Entry, Tournament, WeightClass, Wrestler
from seeding.journal.models import Act, Job
from seeding.models import OtherName, PriorBout
from seeding.queries.put_in import told

WINDOW = timedelta(days=300)
"""A season: what lies at most this long before the tournament."""


def season_bouts(tournament: Tournament, days: int = 0) -> QuerySet[PriorBout]:
    """The organisation's bouts of the season before the tournament; struck ones are none.

    `days`: how long a season is, where the rule book says longer than usual.
    """
    window = max(WINDOW, timedelta(days=days))
    return PriorBout.objects.filter(
        organisation_id=tournament.organisation_id,
        struck_at=None,
        date__lt=tournament.starts_on,
        date__gte=tournament.starts_on - window,
    )


def season_of(weight: WeightClass, entries: Sequence[Entry], rules: SeedingRules) -> Season:
    """What is known of the entrants: their bouts, those of everyone whom they met, and those of
    everyone whom these met, whose records RPI reads; of the whole season where the list rates.
    """
    tournament = weight.tournament
    bouts = season_bouts(tournament, rules.days)
    rows = bouts if rules.whole_season else bouts.filter(_of(_near(bouts, entries)))
    put_in = told(weight, entries, rules.inputs)
    labels = WeightClass.objects.filter(division=weight.division_id).values_list("label", flat=True)
    homes = Wrestler.objects.filter(organisation=tournament.organisation_id)
    return Season(
        weight=weight.label,
        bouts=tuple(as_known(row) for row in rows.values_list(*COLUMNS)),
        rankings=put_in.rankings,
        placings=put_in.placings,
        ballots=put_in.ballots,
        homes=dict(homes.values_list("uid", "home")),
        weights=tuple(labels),
        starts=tournament.starts_on,
    )


def _near(bouts: QuerySet[PriorBout], entries: Iterable[Entry]) -> set[int]:
    """The entrants, whom they met, and whom these met."""
    near = {row.wrestler_id for row in entries}
    for _ring in ("opponents", "their opponents"):
        met = bouts.filter(_of(near)).values_list("winner", "loser")
        near |= {pk for pair in met for pk in pair}
    return near


def _of(wrestlers: Collection[int]) -> Q:
    return Q(winner__in=wrestlers) | Q(loser__in=wrestlers)


def people_of(organisation: int) -> list[Person]:
    """The wrestlers of an organisation by every name under which files speak of them."""
    rows = Wrestler.objects.filter(organisation=organisation).order_by("pk")
    known = rows.values_list("uid", "given", "family", "home")
    others = OtherName.objects.filter(organisation=organisation).order_by("pk")
    learned = others.values_list("wrestler__uid", "given", "family", "home")
    return [Person(*row) for row in (*known, *learned)]


def known_bouts(tournament: Tournament, days: Collection[date]) -> list[Known]:
    """Every bout of the organisation from the first of the days to the last, struck ones too."""
    if not days:
        return []
    rows = PriorBout.objects.filter(
        organisation=tournament.organisation_id, date__range=(min(days), max(days))
    )
    return [as_known(row) for row in rows.values_list(*COLUMNS)]


CHANGES = ("season.committed", "season.given-back", "wrestlers.merged")


def season_changed(tournament: Tournament, job: Job) -> bool:
    """Whether known bouts of the organisation may be others than when the job had read its file."""
    logs = Tournament.objects.filter(organisation=tournament.organisation_id).values("log")
    return Act.objects.filter(log__in=logs, verb__in=CHANGES, at__gt=job.finished_at).exists()


COLUMNS = (
    *("date", "weight", "winner__uid", "loser__uid", "kind", "score", "event", "time", "level"),
    *("winner_division", "loser_division"),
)


def as_known(row: tuple[Any, ...]) -> Known:
    """The core value of a row of `COLUMNS`."""
    day, weight, winner, loser, kind, score, *rest = row
    text = "-".join(str(points) for points in score) if score else ""
    return Known(day, weight, winner, loser, kind, text, *rest)


def names_of(tournament: Tournament, season: Season) -> dict[str, str]:
    """The names of everyone in the season."""
    people = {uid for bout in season.bouts for uid in (bout.winner, bout.loser)}
    rows = Wrestler.objects.filter(organisation=tournament.organisation_id)
    return {
        uid: f"{given} {family}".strip()
        for uid, given, family in rows.values_list("uid", "given", "family")
        if uid in people
    }
