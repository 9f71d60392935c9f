"""Reads of a tournament's qualifying: its plan, its regions, and who is in the field and how."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from itertools import pairwise
from typing import Any

from django.db.models import Count, Q, QuerySet

from seeding.core.order import Proposal, propose
from seeding.core.qualifying import Spot
from seeding.core.reasons import Reason
from seeding.core.wild_cards import Choice, choose
from seeding.entries.core.roster import Regions
from seeding.entries.models import Division, Entry, Tournament, WeightClass
from seeding.journal.core.errors import NotFound
from seeding.models import Berth, QualifyingPlan, Region
from seeding.queries.order import first_lot_seed, rules_of, seed_order
from seeding.queries.season import names_of, season_of

WAYS_IN: list[str] = []
"""Names of the desk's pages that take places in from elsewhere; a later app adds its own when it
is set up."""

How = Berth.How


def plan_of(tournament: Tournament) -> QualifyingPlan | None:
    """How many come from each region; None where nobody has said."""
    return QualifyingPlan.objects.filter(tournament=tournament).first()


@dataclass(frozen=True, slots=True)
class RegionSeen:
    """A region, and how many entries came from it."""

    region: Region
    entries: int


def regions(tournament: Tournament) -> list[RegionSeen]:
    """The regions by letter; two queries."""
    rows = Region.objects.filter(tournament=tournament).select_related("source")
    came = Berth.objects.filter(region__tournament=tournament).order_by()
    counts = dict(came.values_list("region").annotate(Count("pk")))
    return [RegionSeen(row, counts.get(row.pk, 0)) for row in rows]


def region(tournament: Tournament, letter: str) -> Region:
    """The region with that letter."""
    found = Region.objects.filter(tournament=tournament, letter=letter).first()
    if not found:
        raise NotFound(what="region", name=letter)
    return found


def regions_told(tournament: Tournament) -> Regions | None:
    """The regions as a roster may name them; None where nobody has planned a field from them."""
    plan = plan_of(tournament)
    if plan is None:
        return None
    rows = Region.objects.filter(tournament=tournament)
    return Regions(plan.places, dict(rows.values_list("letter", "name")))


def letters(division: Division) -> dict[int, str]:
    """The letter of the region that entries came from, by the ids of these."""
    rows = Berth.objects.filter(entry__weight_class__division=division).exclude(region=None)
    return dict(rows.values_list("entry", "region__letter"))


def berths(rows: Q) -> QuerySet[Berth]:
    """Berths with what is shown of them, by region and place, then by their own order."""
    return (
        Berth.objects.filter(rows)
        .select_related("entry__wrestler", "entry__team", "entry__weight_class", "region")
        .order_by("region__letter", "place", "order", "pk")
    )


@dataclass(frozen=True, slots=True)
class Standing:
    """A berth of the field: the spot that it holds, and who left it to him."""

    berth: Berth
    spot: Spot | None
    root: Berth

    @property
    def name(self) -> str:
        return self.berth.entry.wrestler.name


def standings(rows: Iterable[Berth]) -> dict[int, Standing]:
    """By entry: an alternate who stepped in holds the spot of whom he came for."""
    known = {row.entry_id: row for row in rows}
    found = {}
    for pk, row in known.items():
        root = row
        while root.stepped_in_for_id in known:
            root = known[root.stepped_in_for_id or 0]
        found[pk] = Standing(row, _spot(root), root)
    return found


def _spot(root: Berth) -> Spot | None:
    if root.how == How.PLACE and root.region and root.place:
        return Spot(root.region.letter, root.place)
    if root.how == How.WILD_CARD and root.order:
        return Spot("", root.order)
    return None


def spots(weight: WeightClass) -> dict[str, Spot]:
    """The spot of each entry of the field, by the entry's key; who has none is left out."""
    every = standings(berths(Q(entry__weight_class=weight)))
    return {
        one.berth.entry.key: one.spot
        for one in every.values()
        if one.spot and one.berth.entry.status == Entry.Status.ENTERED
    }


@dataclass(frozen=True, slots=True)
class Candidates:
    """Those who did not advance and are not in as alternates, in the order of the rule book's list.

    `order` are wrestlers' opaque ids, best first; `berths` by them. The order is worked out over
    everybody who did not advance, so that it stays when one steps in or is scratched. `numbers`:
    those of the wild cards, then of the alternates, that nobody holds who stepped in.
    """

    order: tuple[str, ...]
    berths: Mapping[str, Berth]
    names: Mapping[str, str]
    proposal: Proposal | None
    choice: Choice
    numbers: tuple[tuple[int, ...], tuple[int, ...]]

    def reasons(self) -> list[Reason]:
        """Why each stands above the next, from the top."""
        found = self.proposal
        return [found.reason(a, b) for a, b in pairwise(self.order)] if found else []

    @property
    def mark(self) -> str:
        """What the order and its parts are, in a few letters: to accept what was seen."""
        text = repr((self.choice.wild_cards, self.choice.alternates, self.choice.rest))
        return sha256(text.encode()).hexdigest()[:16]

    @property
    def accepted(self) -> bool:
        """Whether the berths are those of this order."""
        return all((row.how, row.order) == wanted for wanted, row in self.wanted())

    def wanted(self) -> Iterator[tuple[tuple[str, int | None], Berth]]:
        """How each candidate would be in, or stand by, and the number of it."""
        parts = ((How.WILD_CARD, self.choice.wild_cards), (How.ALTERNATE, self.choice.alternates))
        for (how, uids), numbers in zip(parts, self.numbers, strict=True):
            for number, uid in zip(numbers, uids, strict=False):
                yield (how, number), self.berths[uid]
        for uid in self.choice.rest:
            yield (How.CANDIDATE, None), self.berths[uid]


def candidates(weight: WeightClass, plan: QualifyingPlan) -> Candidates:
    """The candidates of a weight in order, parted as the plan says."""
    every = list(berths(Q(entry__weight_class=weight)))
    rows = {row.entry.wrestler.uid: row for row in every if row.how != How.PLACE}
    proposal = _proposal(weight, [row.entry for row in rows.values()]) if rows else None
    order = tuple(uid for uid in (proposal.order if proposal else ()) if _waits(rows[uid]))
    numbers = _free(standings(every).values(), plan)
    names = names_of(weight.tournament, proposal.season) if proposal else {}
    return Candidates(
        order=order,
        berths={uid: rows[uid] for uid in order},
        names=names | {uid: row.entry.wrestler.name for uid, row in rows.items()},
        proposal=proposal,
        choice=choose(order, len(numbers[0]), len(numbers[1])),
        numbers=numbers,
    )


def _free(
    every: Iterable[Standing], plan: QualifyingPlan
) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """The numbers of wild cards and of alternates that are still to be given."""
    came = [one for one in every if one.berth.stepped_in_at]
    cards = {one.root.order for one in came if one.root.how == How.WILD_CARD}
    waited = {one.berth.order for one in came}
    return (
        tuple(number for number in range(1, plan.wild_cards + 1) if number not in cards),
        tuple(number for number in range(1, plan.alternates + 1) if number not in waited),
    )


def _waits(row: Berth) -> bool:
    if row.stepped_in_at:
        return False
    return row.entry.status == (
        Entry.Status.ENTERED if row.how == How.WILD_CARD else Entry.Status.STANDBY
    )


def _proposal(weight: WeightClass, entries: Sequence[Entry]) -> Proposal:
    rules = rules_of(weight.division)
    kept = seed_order(weight)
    lot_seed = kept.lot_seed if kept else first_lot_seed(weight)
    season = season_of(weight, entries, rules)
    return propose([row.wrestler.uid for row in entries], season, rules, f"{lot_seed}/wild-cards")


@dataclass(frozen=True, slots=True)
class Field:
    """One weight: who is in by place, who came in as an alternate, and whose line is open.

    `first`: the alternate whose turn it is.
    """

    weight: WeightClass
    by_place: tuple[Standing, ...]
    stepped_in: tuple[Standing, ...]
    vacancies: tuple[Standing, ...]
    first: Berth | None
    without: tuple[Entry, ...]


def field_of(weight: WeightClass) -> Field:
    """Who is in the field of a weight, and how."""
    every = standings(berths(Q(entry__weight_class=weight)))
    replaced = {one.berth.stepped_in_for_id for one in every.values()}
    entered = [one for one in every.values() if one.berth.entry.status == Entry.Status.ENTERED]
    others = Entry.objects.filter(weight_class=weight, status=Entry.Status.ENTERED)
    return Field(
        weight=weight,
        by_place=tuple(one for one in entered if one.berth.how == How.PLACE),
        stepped_in=tuple(one for one in entered if one.berth.stepped_in_at),
        vacancies=tuple(
            one
            for pk, one in every.items()
            if one.spot and pk not in replaced and one.berth.entry.status == Entry.Status.SCRATCHED
        ),
        first=first_alternate(weight),
        without=tuple(others.exclude(pk__in=every).select_related("wrestler", "team")),
    )


def first_alternate(weight: WeightClass) -> Berth | None:
    """The alternate who steps in next: the lowest number among those who stand by."""
    rows = berths(Q(entry__weight_class=weight, how=How.ALTERNATE, stepped_in_at=None))
    waiting = rows.filter(entry__status=Entry.Status.STANDBY).exclude(order=None)
    return waiting.order_by("order").first()


@dataclass(frozen=True, slots=True)
class Tally:
    """How many of a weight are in the field and how, and how many wait."""

    weight: WeightClass
    by_place: int
    wild_cards: int
    stepped_in: int
    alternates: int
    candidates: int


def tallies(tournament: Tournament) -> list[Tally]:
    """Every weight from light to heavy; two queries whatever their number."""
    rows = Berth.objects.filter(entry__tournament=tournament).order_by()
    entered, waits = Q(entry__status=Entry.Status.ENTERED), Q(entry__status=Entry.Status.STANDBY)
    counts: dict[int, Mapping[str, Any]] = {
        row["entry__weight_class"]: row
        for row in rows.values("entry__weight_class").annotate(
            by_place=Count("pk", filter=entered & Q(how=How.PLACE)),
            wild_cards=Count("pk", filter=entered & Q(how=How.WILD_CARD)),
            stepped_in=Count("pk", filter=entered & ~Q(stepped_in_at=None)),
            alternates=Count("pk", filter=waits & Q(how=How.ALTERNATE)),
            candidates=Count("pk", filter=waits & Q(how=How.CANDIDATE)),
        )
    }
    weights = WeightClass.objects.filter(tournament=tournament)
    return [_tally(row, counts.get(row.pk, {})) for row in weights]


def _tally(weight: WeightClass, counts: Mapping[str, Any]) -> Tally:
    return Tally(
        weight=weight,
        by_place=counts.get("by_place", 0),
        wild_cards=counts.get("wild_cards", 0),
        stepped_in=counts.get("stepped_in", 0),
        alternates=counts.get("alternates", 0),
        candidates=counts.get("candidates", 0),
    )
