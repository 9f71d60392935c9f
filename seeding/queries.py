"""Every read of the seeding room."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta
from functools import lru_cache

from django.db.models import Q, QuerySet

from seeding.core.order import Flag, Proposal, flags, propose
from seeding.core.reasons import Reason
from seeding.core.rules import SeedingRules
from seeding.core.season import Placing, Season
from seeding.core.season import PriorBout as Known
from seeding.entries.core.rulebook import upgrade
from seeding.entries.models import Division, Entry, Tournament, WeightClass
from seeding.journal.core.chain import canonical
from seeding.models import Override, PriorBout, SeedOrder

WINDOW = timedelta(days=300)
"""A season: what lies at most this long before the tournament."""


@dataclass(frozen=True, slots=True)
class Order:
    """The order of a weight as it stands: the proposal, and the committee's moves over it.

    `entries` by wrestler's opaque id; `order` are those ids, best first; `seeds` primary keys of
    the seeded entries, best first.
    """

    proposal: Proposal
    order: tuple[str, ...]
    entries: Mapping[str, Entry]
    overrides: tuple[Override, ...]
    flags: tuple[Flag, ...]
    version: int
    adopted: bool

    @property
    def seeds(self) -> list[int]:
        return [self.entries[uid].pk for uid in self.order[: self.proposal.count]]

    @property
    def names(self) -> dict[str, str]:
        """How each wrestler is called at the desk, for the sentences of reasons."""
        return {
            uid: f"{row.wrestler.given} {row.wrestler.family}".strip()
            for uid, row in self.entries.items()
        }

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


def season_of(weight: WeightClass, entries: Sequence[Entry]) -> Season:
    """What is known of the entrants: their bouts, and those of everyone whom they met."""
    bouts = season_bouts(weight.tournament)
    own = [row.wrestler_id for row in entries]
    met = bouts.filter(Q(winner__in=own) | Q(loser__in=own)).values_list("winner", "loser")
    near = {pk for pair in met for pk in pair} | set(own)
    rows = bouts.filter(Q(winner__in=near) | Q(loser__in=near)).select_related("winner", "loser")
    return Season(
        weight=weight.label,
        bouts=tuple(_known(row) for row in rows),
        rankings={"coaches": {row.wrestler.uid: row.rank for row in entries if row.rank}},
        placings=tuple(
            Placing("qualifying event", row.wrestler.uid, row.qualifying_place, weight.label)
            for row in entries
            if row.qualifying_place
        ),
    )


def _known(row: PriorBout) -> Known:
    return Known(
        date=row.date,
        weight=row.weight,
        winner=row.winner.uid,
        loser=row.loser.uid,
        kind=row.kind,
        score="-".join(str(points) for points in row.score) if row.score else "",
        event=row.event,
    )


def order_of(weight: WeightClass) -> Order:
    """The order of a weight with its evidence."""
    entered = Entry.objects.filter(weight_class=weight, status=Entry.Status.ENTERED)
    entries = {row.wrestler.uid: row for row in entered.select_related("wrestler", "team")}
    kept = SeedOrder.objects.filter(weight_class=weight).first()
    season = season_of(weight, list(entries.values()))
    lot_seed = kept.lot_seed if kept else first_lot_seed(weight)
    proposal = propose(entries, season, rules_of(weight.division), lot_seed)
    overrides = tuple(
        Override.objects.filter(order=kept).select_related("entry__wrestler", "author")
        if kept
        else ()
    )
    order = moved(proposal.order, overrides)
    return Order(
        proposal=proposal,
        order=order,
        entries=entries,
        overrides=overrides,
        flags=flags(order, season.entered(entries), rules_of(weight.division).meetings),
        version=kept.version if kept else 0,
        adopted=bool(kept and kept.adopted_at),
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
