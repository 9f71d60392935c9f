"""Reads of a weight's order."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from django.db.models import Count

from seeding.core.criteria import Input
from seeding.core.order import Flag, Proposal, flags, propose
from seeding.core.rules import SeedingRules
from seeding.entries.core.rulebook import upgrade
from seeding.entries.models import Division, Entry, Tournament, WeightClass
from seeding.entries.queries import weights
from seeding.journal.core.chain import canonical
from seeding.models import Override, SeedOrder
from seeding.queries.season import names_of, season_of


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

    def called(self, entry: Entry) -> str:
        """The name of an entry, also of one who is scratched since."""
        return self.names.get(entry.wrestler.uid) or entry.wrestler.name

    @property
    def undecided(self) -> tuple[tuple[str, ...], ...]:
        """Of each group that the list leaves to the committee, those whom it has not placed yet.

        One of a group who is left alone is placed by the others' moves.
        """
        placed = {row.entry.wrestler.uid for row in self.overrides}
        left = (tuple(uid for uid in group if uid not in placed) for group in self.proposal.open)
        return tuple(group for group in left if len(group) > 1)


def rules_of(division: Division) -> SeedingRules:
    """The seeding section of the division's rule book."""
    return _rules(canonical(upgrade(division.snapshot)["seeding"]))


@lru_cache(maxsize=64)
def _rules(section: str) -> SeedingRules:
    return SeedingRules.from_section(json.loads(section))


def seed_order(weight: WeightClass) -> SeedOrder | None:
    """What is kept of the order of a weight; None until somebody acts on it."""
    return SeedOrder.objects.filter(weight_class=weight).select_related("adopted_by").first()


def order_of(weight: WeightClass) -> Order:
    """The order of a weight with its evidence."""
    entered = Entry.objects.filter(weight_class=weight, status=Entry.Status.ENTERED)
    entries = {row.wrestler.uid: row for row in entered.select_related("wrestler", "team")}
    kept = seed_order(weight)
    rules = rules_of(weight.division)
    season = season_of(weight, list(entries.values()), rules)
    proposal = propose(entries, season, rules, kept.lot_seed if kept else first_lot_seed(weight))
    overrides = tuple(
        Override.objects.filter(order=kept).select_related("entry__wrestler", "author")
        if kept
        else ()
    )
    order = moved(proposal.order, overrides)
    own = {uid: row.wrestler.name for uid, row in entries.items()}
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


def reach(order: Order, uid: str, most: int) -> range:
    """The places that lie at most `most` from where the criteria put a wrestler.

    Whom the list leaves to the committee may take any place of his group.
    """
    proposed = order.proposal.order
    group = next((group for group in order.proposal.open if uid in group), (uid,))
    held = [proposed.index(one) + 1 for one in group]
    return range(max(1, min(held) - most), min(len(proposed), max(held) + most) + 1)


@dataclass(frozen=True, slots=True)
class WeightState:
    """How far the seeding of a weight is; the weight carries its counts."""

    weight: WeightClass
    moves: int
    order: SeedOrder | None

    @property
    def changed(self) -> bool:
        """Whether something was done to the order after it was adopted."""
        return bool(self.order and self.order.version > self.order.adopted_version)


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
