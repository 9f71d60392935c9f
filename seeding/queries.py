"""Every read of the seeding room."""

import json
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from typing import Any

from django.db.models import Count, Q, QuerySet

from seeding.core.criteria import Input, InputKind
from seeding.core.order import Flag, Proposal, flags, propose
from seeding.core.reasons import Reason
from seeding.core.rules import SeedingRules
from seeding.core.season import Placing, Season
from seeding.core.season import PriorBout as Known
from seeding.entries.core.rulebook import upgrade
from seeding.entries.models import Division, Entry, Tournament, WeightClass, Wrestler
from seeding.entries.queries import weights
from seeding.journal.core.chain import canonical
from seeding.models import Override, PriorBout, SeedOrder

WINDOW = timedelta(days=300)
"""A season: what lies at most this long before the tournament."""


@dataclass(frozen=True, slots=True)
class Order:
    """The order of a weight as it stands: the proposal, and the committee's moves over it.

    `entries` by wrestler's opaque id; `order` are those ids, best first; `seeds` primary keys of
    the seeded entries, best first. `names`: how everyone who is spoken of is called at the desk.
    """

    proposal: Proposal
    order: tuple[str, ...]
    entries: Mapping[str, Entry]
    names: Mapping[str, str]
    overrides: tuple[Override, ...]
    flags: tuple[Flag, ...]
    inputs: tuple[Input, ...]
    kept: SeedOrder | None

    @property
    def version(self) -> int:
        return self.kept.version if self.kept else 0

    @property
    def adopted(self) -> bool:
        return bool(self.kept and self.kept.adopted_at)

    @property
    def seeds(self) -> list[int]:
        return [self.entries[uid].pk for uid in self.order[: self.proposal.count]]

    @property
    def stands(self) -> bool:
        """Whether the seeds of the entries are those of this order."""
        held = {row.pk: row.seed for row in self.entries.values() if row.seed}
        return held == {pk: seed for seed, pk in enumerate(self.seeds, 1)}

    @property
    def settled(self) -> bool:
        """Whether it is adopted, and nothing has changed since."""
        return self.adopted and self.stands

    def reasons(self) -> list[Reason]:
        """Why each stands above the next, from the top."""
        return [
            self.proposal.reason(above, below)
            for above, below in zip(self.order, self.order[1:], strict=False)
        ]


def rules_of(division: Division) -> SeedingRules:
    """The seeding section of the division's rule book."""
    return _rules(canonical(upgrade(division.snapshot)["seeding"]))


@lru_cache(maxsize=64)
def _rules(section: str) -> SeedingRules:
    return SeedingRules.from_section(json.loads(section))


def season_bouts(tournament: Tournament) -> QuerySet[PriorBout]:
    """The organisation's bouts of the season before the tournament."""
    return PriorBout.objects.filter(
        organisation_id=tournament.organisation_id,
        date__lt=tournament.starts_on,
        date__gte=tournament.starts_on - WINDOW,
    )


def season_of(weight: WeightClass, entries: Sequence[Entry], inputs: Sequence[Input]) -> Season:
    """What is known of the entrants: their bouts, those of everyone whom they met, and those of
    everyone whom these met, whose records RPI reads.

    The rank of an entry stands for each ranking that the rule book's list reads, its qualifying
    place for each table of places.
    """
    bouts = season_bouts(weight.tournament)
    near = {row.wrestler_id for row in entries}
    for _ring in ("opponents", "their opponents"):
        met = bouts.filter(_of(near)).values_list("winner", "loser")
        near |= {pk for pair in met for pk in pair}
    rows = bouts.filter(_of(near)).values_list(*COLUMNS)
    ranks = {row.wrestler.uid: row.rank for row in entries if row.rank}
    places = [(row.wrestler.uid, row.qualifying_place) for row in entries if row.qualifying_place]
    return Season(
        weight=weight.label,
        bouts=tuple(_known(row) for row in rows),
        rankings={need.name: ranks for need in inputs if need.kind is InputKind.RANKING},
        placings=tuple(
            Placing(need.name, uid, place, weight.label)
            for need in inputs
            if need.kind is InputKind.PLACES
            for uid, place in places
        ),
    )


def _of(wrestlers: Collection[int]) -> Q:
    return Q(winner__in=wrestlers) | Q(loser__in=wrestlers)


def known_bouts(tournament: Tournament, days: Collection[date]) -> list[Known]:
    """Every bout of the organisation from the first of the days to the last."""
    if not days:
        return []
    rows = PriorBout.objects.filter(
        organisation=tournament.organisation_id, date__range=(min(days), max(days))
    )
    return [_known(row) for row in rows.values_list(*COLUMNS)]


COLUMNS = ("date", "weight", "winner__uid", "loser__uid", "kind", "score", "event")


def _known(row: tuple[Any, ...]) -> Known:
    day, weight, winner, loser, kind, score, event = row
    text = "-".join(str(points) for points in score) if score else ""
    return Known(day, weight, winner, loser, kind, text, event)


def names_of(tournament: Tournament, season: Season) -> dict[str, str]:
    """The names of everyone in the season."""
    people = {uid for bout in season.bouts for uid in (bout.winner, bout.loser)}
    rows = Wrestler.objects.filter(organisation=tournament.organisation_id)
    return {
        uid: f"{given} {family}".strip()
        for uid, given, family in rows.values_list("uid", "given", "family")
        if uid in people
    }


def seed_order(weight: WeightClass) -> SeedOrder | None:
    """What is kept of the order of a weight; None until somebody acts on it."""
    return SeedOrder.objects.filter(weight_class=weight).select_related("adopted_by").first()


def order_of(weight: WeightClass) -> Order:
    """The order of a weight with its evidence."""
    entered = Entry.objects.filter(weight_class=weight, status=Entry.Status.ENTERED)
    entries = {row.wrestler.uid: row for row in entered.select_related("wrestler", "team")}
    kept = seed_order(weight)
    rules = rules_of(weight.division)
    season = season_of(weight, list(entries.values()), rules.inputs)
    proposal = propose(entries, season, rules, kept.lot_seed if kept else first_lot_seed(weight))
    overrides = tuple(
        Override.objects.filter(order=kept).select_related("entry__wrestler", "author")
        if kept
        else ()
    )
    order = moved(proposal.order, overrides)
    own = {
        uid: f"{row.wrestler.given} {row.wrestler.family}".strip() for uid, row in entries.items()
    }
    return Order(
        proposal=proposal,
        order=order,
        entries=entries,
        names=names_of(weight.tournament, season) | own,
        overrides=overrides,
        flags=flags(order, season.entered(entries), rules.meetings),
        inputs=rules.inputs,
        kept=kept,
    )


def first_lot_seed(weight: WeightClass) -> str:
    """What lots of a weight's order are drawn from: fixed when the tournament is made."""
    return f"{weight.tournament.log.key}/{weight.key}"


def moved(order: Sequence[str], overrides: Sequence[Override]) -> tuple[str, ...]:
    """The order after the committee's moves, one after the other; who is gone is passed over."""
    new = list(order)
    for row in overrides:
        uid = row.entry.wrestler.uid
        if uid in new:
            new.remove(uid)
            new.insert(row.to - 1, uid)
    return tuple(new)


@dataclass(frozen=True, slots=True)
class WeightState:
    """How far the seeding of a weight is; the weight carries its counts."""

    weight: WeightClass
    moves: int
    order: SeedOrder | None


def weight_states(tournament: Tournament) -> list[WeightState]:
    """Every weight of the tournament with the state of its order, light to heavy."""
    moves = Count("overrides")
    rows = SeedOrder.objects.filter(weight_class__tournament=tournament).annotate(moves=moves)
    orders = {row.weight_class_id: row for row in rows.select_related("adopted_by")}
    return [
        WeightState(
            weight=row,
            moves=orders[row.pk].moves if row.pk in orders else 0,
            order=orders.get(row.pk),
        )
        for row in weights(tournament)
    ]
