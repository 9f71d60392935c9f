"""The weigh-in of a tournament: the sheet, whom it concerns, and what can be done."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Q, QuerySet

from brackets.models import Drawn
from results.core.late import OFFERED, Newcomer, Phase, Remedy, usual
from results.models import CutOff, Withdrawal
from results.queries.facts import rules_of
from results.queries.late import is_past, wrestled
from seeding.entries.core.errors import Locked
from seeding.entries.models import Division, Entry, Tournament, WeightClass
from seeding.entries.queries.groups import is_group
from seeding.journal.core.errors import Invalid, Problem, Refusal
from seeding.queries.qualifying import first_alternate

CONCERNED = (Entry.WeighIn.MISSED, Entry.WeighIn.WRONG, Entry.WeighIn.ABSENT)


@dataclass(frozen=True, slots=True)
class Case:
    """An entry and what is chosen for it; `remedy` None: what is usual as things stand.

    `weight`: where he is entered instead, left out the one that he made. `person`: who comes in
    his place. `kind`: why he withdraws, where he has wrestled.
    """

    entry: Entry
    remedy: Remedy | None = None
    weight: WeightClass | None = None
    person: Newcomer | None = None
    kind: str = Withdrawal.Kind.MEDICAL.value


@dataclass(frozen=True, slots=True)
class Concerned:
    """An entry that does not wrestle where it was entered, with all that can be chosen."""

    entry: Entry
    phase: Phase
    offered: tuple[Remedy, ...]
    usual: Remedy
    weights: tuple[WeightClass, ...]
    alternate: Entry | None

    @property
    def late_at(self) -> WeightClass | None:
        """The weight that he made, where he can come into it only as a late entry."""
        made = self.entry.weighed_as
        return None if made is None or Remedy.OTHER_WEIGHT in self.offered else made

    @property
    def unnamed(self) -> bool:
        return unnamed(self.entry)


def unnamed(entry: Entry) -> bool:
    """Whether it is on record that he made another weight, and not which one."""
    return entry.weigh_in == Entry.WeighIn.WRONG and entry.weighed_as_id is None


def sheet(tournament: Tournament) -> QuerySet[Entry]:
    """Every entry of the field, light to heavy, by team and name as a scale is walked past."""
    rows = Entry.objects.filter(tournament=tournament, status=Entry.Status.ENTERED)
    gone = Withdrawal.objects.filter(entry__tournament=tournament).values("entry")
    return (
        rows.exclude(pk__in=gone)
        .select_related("wrestler", "team", "weight_class__division", "weighed_as", "tournament")
        .order_by("weight_class__position", "team__name", "wrestler__family", "pk")
    )


def all_concerned(tournament: Tournament) -> QuerySet[Entry]:
    """All whom the weigh-in leaves without their weight, and about whom nothing is done yet."""
    return sheet(tournament).filter(weigh_in__in=CONCERNED)


def concerned(tournament: Tournament, now: datetime) -> list[Concerned]:
    """The same with what can be done about each."""
    return [concern(row, now) for row in all_concerned(tournament)]


def concern(entry: Entry, now: datetime) -> Concerned:
    """What can be done about one entry."""
    phase = phase_of(entry)
    weights = tuple(open_to(entry))
    there = entry.weighed_as
    alternate = first_alternate(entry.weight_class)
    rules = rules_of(entry.weight_class.division).results
    return Concerned(
        entry=entry,
        phase=phase,
        offered=tuple(_possible(OFFERED[phase], weights, alternate is not None)),
        usual=usual(
            phase,
            rules.absent_qualifier,
            past=is_past(cut_off_of(entry.weight_class.division), now),
            elsewhere=there is not None and there in weights,
        ),
        weights=weights,
        alternate=alternate.entry if alternate else None,
    )


def _possible(
    offered: Iterable[Remedy], weights: tuple[WeightClass, ...], stands_by: bool
) -> Iterable[Remedy]:
    for one in offered:
        if one is Remedy.OTHER_WEIGHT and not weights:
            continue
        if one is Remedy.ALTERNATE and not stands_by:
            continue
        yield one


def phase_of(entry: Entry) -> Phase:
    """How far his weight is for an entry."""
    if not Drawn.objects.filter(weight_class=entry.weight_class_id).exists():
        return Phase.BEFORE
    return Phase.DURING if wrestled([entry]) else Phase.DRAWN


def open_to(entry: Entry) -> list[WeightClass]:
    """The other weights of his division that are not drawn and where he is not entered."""
    rows = WeightClass.objects.filter(division=entry.weight_class.division_id, locked=False)
    there = Entry.objects.filter(wrestler=entry.wrestler_id, status=Entry.Status.ENTERED)
    free = rows.exclude(pk__in=there.values("weight_class")).select_related("division")
    return [row for row in free if not is_group(row)]


def cut_offs(tournament: Tournament) -> list[CutOff]:
    """What is stated: for the tournament first, then for divisions of their own."""
    rows = CutOff.objects.filter(tournament=tournament).select_related("division")
    return sorted(rows, key=lambda row: row.division.pk if row.division else 0)


def cut_off_of(division: Division) -> datetime | None:
    """When a bye turns into a forfeit in a division; None where nothing is stated."""
    rows = CutOff.objects.filter(tournament=division.tournament_id)
    rows = rows.filter(Q(division=division) | Q(division=None))
    own = sorted(rows, key=lambda row: row.division_id is None)
    return own[0].at if own else None


@dataclass(frozen=True, slots=True)
class Chosen:
    """A case that can be carried out: the remedy, and all that it needs."""

    entry: Entry
    remedy: Remedy
    weight: WeightClass | None
    person: Newcomer | None
    kind: str


def chosen(case: Case, now: datetime) -> Chosen:
    """The case as it is carried out; refused where what its remedy needs is not said, or where it
    is not offered as things stand.
    """
    key, name = case.entry.key, case.entry.wrestler.name
    seen = concern(case.entry, now)
    remedy = case.remedy or seen.usual
    weight = (case.weight or case.entry.weighed_as) if remedy is Remedy.OTHER_WEIGHT else None
    person = case.person if remedy is Remedy.SUBSTITUTE else None
    if remedy not in OFFERED[seen.phase]:
        words = ", ".join(str(one) for one in OFFERED[seen.phase])
        hint = f"It is {seen.phase} for {name}: choose one of: {words}."
        raise Invalid([Problem(f"{key}.remedy", hint)])
    if remedy is Remedy.OTHER_WEIGHT and weight not in seen.weights:
        raise _elsewhere(seen, weight)
    if remedy is Remedy.SUBSTITUTE and not (person and person.family.strip()):
        raise Invalid([Problem(f"{key}.family", f"Name who comes in the place of {name}.")])
    return Chosen(case.entry, remedy, weight, person, case.kind)


def _elsewhere(seen: Concerned, weight: WeightClass | None) -> Refusal:
    """Why he cannot be entered at that weight."""
    drawn = WeightClass.objects.filter(division=seen.entry.weight_class.division_id, locked=True)
    if weight and drawn.filter(pk=weight.pk).exists():
        return Locked(weight=weight.label)
    listed = ", ".join(row.label for row in seen.weights) or "none is open to him"
    hint = f"Name the weight that {seen.entry.wrestler.name} goes to: {listed}."
    return Invalid([Problem(f"{seen.entry.key}.weight", hint)])
