"""Qualifying: the plan, the regions, who holds which place, wild cards and alternates."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from django.db.models import F

from seeding.core.errors import NoPlan, StillQualified
from seeding.core.qualifying import SPOT, Spot
from seeding.entries.core.errors import TakenName
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.permissions import Right, require
from seeding.entries.services.entry import open_weight
from seeding.journal.core.errors import Invalid, Problem, Stale
from seeding.journal.services import Call, Deed, act, advance_version
from seeding.models import Berth, QualifyingPlan, Region
from seeding.queries.qualifying import candidates, plan_of, region


@dataclass(frozen=True, slots=True)
class Numbers:
    """What a plan says, per weight; `alternates_until` None: until the weight is drawn."""

    places: int
    wild_cards: int
    alternates: int
    alternates_until: datetime | None


@act
def set_plan(*, call: Call, tournament: Tournament, numbers: Numbers) -> Deed:
    """Say how many places of each region advance, and how many come in or wait beside them."""
    require(call, tournament.pk, Right.DIRECT)
    plan, _made = QualifyingPlan.objects.get_or_create(
        tournament=tournament, defaults={"places": numbers.places}
    )
    rows = QualifyingPlan.objects.filter(pk=plan.pk)
    advance_version(rows, call, "The qualifying plan")
    rows.update(
        places=numbers.places,
        wild_cards=numbers.wild_cards,
        alternates=numbers.alternates,
        alternates_until=numbers.alternates_until,
    )
    return Deed(tournament.log_id, "qualifying.planned", {"places": numbers.places})


@act
def set_region(
    *,
    call: Call,
    tournament: Tournament,
    letter: str,
    name: str,
    source: Tournament | None = None,
    before: str = "",
) -> Deed:
    """Add a region, or (`before`, its letter until now) change one.

    `source` is a tournament of the same organisation in which the caller may read.
    """
    require(call, tournament.pk, Right.DIRECT)
    _check_letter(tournament, letter, but=before)
    _check_source(call, tournament, source)
    row = region(tournament, before) if before else Region(tournament=tournament)
    row.letter, row.name, row.source = letter, name.strip(), source
    row.save()
    return Deed(tournament.log_id, "region.set", {"region": row.pk})


def _check_letter(tournament: Tournament, letter: str, but: str) -> None:
    if not SPOT.fullmatch(f"{letter}1"):
        raise Invalid([Problem("letter", "Choose one or two letters from A to Z.")])
    others = Region.objects.filter(tournament=tournament, letter=letter).exclude(letter=but)
    if others.exists():
        raise TakenName(what="region", name=letter)


def _check_source(call: Call, tournament: Tournament, source: Tournament | None) -> None:
    if source is None:
        return
    strange = source.organisation_id != tournament.organisation_id or source.pk == tournament.pk
    if strange:
        hint = "Choose another tournament of the same organisation."
        raise Invalid([Problem("source", hint)])
    require(call, source.pk, Right.READ)


@act
def remove_region(*, call: Call, tournament: Tournament, letter: str) -> Deed:
    """Remove a region from which nobody came."""
    require(call, tournament.pk, Right.DIRECT)
    row = region(tournament, letter)
    count = Berth.objects.filter(region=row).count()
    if count:
        raise StillQualified(count=count, letter=letter)
    gone = row.pk
    row.delete()
    return Deed(tournament.log_id, "region.removed", {"region": gone})


@act
def set_places(*, call: Call, weight: WeightClass, places: Mapping[int, Spot | None]) -> Deed:
    """Say by hand for which place of which region entries (by id) are here; None: for none.

    Who holds a place that advances is in the field; anybody else is a candidate and stands by.
    """
    require(call, weight.tournament_id, Right.DIRECT)
    open_weight(weight)
    plan = needed_plan(weight.tournament)
    rows = Entry.objects.filter(weight_class=weight, pk__in=places).select_related("tournament")
    changed = [row.pk for row in rows.order_by("pk") if give_place(row, places[row.pk], plan)]
    return Deed(weight.tournament.log_id, "places.set", {"weight": weight.pk, "entry": changed})


def needed_plan(tournament: Tournament) -> QualifyingPlan:
    """The plan of a tournament; refused where nobody has made one."""
    plan = plan_of(tournament)
    if plan is None:
        raise NoPlan
    return plan


def give_place(entry: Entry, spot: Spot | None, plan: QualifyingPlan) -> bool:
    """Write down how an entry came; whether anything changed."""
    row = Berth.objects.filter(entry=entry).select_related("region").first()
    if spot is None:
        return row is not None and _forget(entry, row)
    at = region(entry.tournament, spot.region)
    if row and (row.region_id, row.place) == (at.pk, spot.place):
        return False
    how = str(Berth.How.PLACE if spot.place <= plan.places else Berth.How.CANDIDATE)
    if row and how == Berth.How.CANDIDATE and row.how != Berth.How.PLACE:
        how = row.how
    write_berth(entry, at, spot.place, how)
    return True


def take_place(entry: Entry, letter: str | None, place: int | None) -> None:
    """Write down, inside an act, for which place of which region an entry is here; None: none."""
    spot = Spot(letter, place) if letter and place else None
    give_place(entry, spot, needed_plan(entry.tournament))


def write_berth(entry: Entry, at: Region, place: int, how: str) -> None:
    """The berth of an entry with a place at a region's event, and the entry's status by it."""
    order = {} if how in (Berth.How.WILD_CARD, Berth.How.ALTERNATE) else {"order": None}
    values = {"region": at, "place": place, "how": how, **order}
    Berth.objects.update_or_create(entry=entry, defaults=values)
    Entry.objects.filter(pk=entry.pk).update(qualifying_place=place, version=F("version") + 1)
    if how == Berth.How.PLACE:
        put(entry, Entry.Status.ENTERED)
    elif how == Berth.How.CANDIDATE:
        put(entry, Entry.Status.STANDBY)


def _forget(entry: Entry, row: Berth) -> bool:
    row.delete()
    put(entry, Entry.Status.ENTERED)
    return True


def put(entry: Entry, status: str) -> None:
    """Bring an entry into the field, or let it stand by without a seed; the scratched stay so."""
    rows = Entry.objects.filter(pk=entry.pk).exclude(status=Entry.Status.SCRATCHED)
    more = {} if status == Entry.Status.ENTERED else {"seed": None}
    rows.exclude(status=status).update(status=status, version=F("version") + 1, **more)


@act
def accept_candidates(*, call: Call, weight: WeightClass, mark: str = "") -> Deed:
    """Make the best candidates wild cards and the next alternates, in the order of the list.

    `mark`: that of the order which was seen; refused where it reads otherwise now.
    """
    require(call, weight.tournament_id, Right.SEED)
    open_weight(weight)
    found = candidates(weight, needed_plan(weight.tournament))
    if mark and mark != found.mark:
        raise Stale(what=f"The order of the candidates of {weight.label}")
    _forget_scratched(weight)
    for (how, order), row in found.wanted():
        Berth.objects.filter(pk=row.pk).update(how=how, order=order)
        is_in = how == Berth.How.WILD_CARD
        put(row.entry, Entry.Status.ENTERED if is_in else Entry.Status.STANDBY)
    chosen = {
        "entry": [found.berths[uid].entry_id for uid in found.choice.wild_cards],
        "alternates": [found.berths[uid].entry_id for uid in found.choice.alternates],
    }
    return Deed(weight.tournament.log_id, "candidates.accepted", {"weight": weight.pk, **chosen})


def _forget_scratched(weight: WeightClass) -> None:
    """Who is scratched and replaced by nobody is no wild card and no alternate of a new order."""
    rows = Berth.objects.filter(entry__weight_class=weight, stepped_in_at=None)
    gone = rows.filter(
        how__in=[Berth.How.WILD_CARD, Berth.How.ALTERNATE],
        entry__status=Entry.Status.SCRATCHED,
    )
    replaced = Berth.objects.exclude(stepped_in_for=None).values("stepped_in_for")
    gone.exclude(entry__in=replaced).update(how=Berth.How.CANDIDATE, order=None)
