"""What taking the places of the regions' events into a tournament would do."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from hashlib import sha256

from brackets.models import Placing
from seeding.core.qualifiers import Here, How, Intake, Placed, Wanted, intake
from seeding.entries.core.spelling import folded
from seeding.entries.models import Entry, Team, Tournament, WeightClass
from seeding.models import Berth, QualifyingPlan, Region
from seeding.queries.qualifying import plan_of

Key = tuple[str, str]


@dataclass(frozen=True)
class Look:
    """The intake with the rows that it speaks of; weights by their label in it.

    `found` None: nobody has said how many advance.
    """

    plan: QualifyingPlan | None
    regions: tuple[Region, ...]
    weights: Mapping[str, WeightClass]
    entries: Mapping[int, Entry]
    found: Intake

    @cached_property
    def mark(self) -> str:
        """What is seen, in a few letters: to take in only that."""
        return sha256(repr(self.found).encode()).hexdigest()[:16]


def look(tournament: Tournament) -> Look:
    """Compare the places of every region that was run here with the entries of a tournament."""
    plan = plan_of(tournament)
    rows = Region.objects.filter(tournament=tournament).exclude(source=None)
    regions = tuple(rows.select_related("source"))
    weights = _named(WeightClass.objects.filter(tournament=tournament).select_related("division"))
    there = {at.letter: list(_won(at, weights)) for at in regions}
    entries = {row.pk: row for won in there.values() for _, row in won}
    wanted = Wanted(
        places=plan.places if plan else 0,
        regions=tuple(there),
        weights=tuple(weights),
        closed=frozenset(label for label, row in weights.items() if row.locked),
    )
    placed = [one for won in there.values() for one, _ in won]
    here = list(_here(tournament, weights))
    return Look(plan, regions, weights, entries, intake(wanted, placed, here, _teams(tournament)))


def _named(rows: Iterable[WeightClass]) -> dict[str, WeightClass]:
    """Weights by their label; where two divisions have one label, by division and label."""
    every = list(rows)
    labels = [folded(row.label) for row in every]
    return {
        row.label
        if labels.count(folded(row.label)) == 1
        else f"{row.division.name} {row.label}": row
        for row in every
    }


def _won(region: Region, weights: Mapping[str, WeightClass]) -> Iterable[tuple[Placed, Entry]]:
    """The certain places of a region's event, at the weights that are wrestled here too."""
    names = {folded(name): name for name in weights}
    theirs = _named(
        WeightClass.objects.filter(tournament=region.source_id).select_related("division")
    )
    called = {row.pk: names.get(folded(name)) for name, row in theirs.items()}
    rows = Placing.objects.filter(drawn__weight_class__tournament=region.source_id)
    for row in rows.select_related("drawn", "entry__wrestler", "entry__team"):
        weight = called[row.drawn.weight_class_id]
        if weight is not None:
            yield _placed(region, weight, row), row.entry


def _placed(region: Region, weight: str, row: Placing) -> Placed:
    entry = row.entry
    return Placed(
        region=region.letter,
        weight=weight,
        place=row.place,
        entry=entry.pk,
        wrestler=entry.wrestler.uid,
        name=entry.wrestler.name,
        team=entry.team.name,
    )


def _here(tournament: Tournament, weights: Mapping[str, WeightClass]) -> Iterable[Here]:
    called = {row.pk: name for name, row in weights.items()}
    berths = Berth.objects.filter(entry__tournament=tournament).select_related("region")
    known = {row.entry_id: row for row in berths}
    rows = Entry.objects.filter(tournament=tournament).select_related("wrestler", "team")
    for row in rows.order_by("pk"):
        berth = known.get(row.pk)
        yield Here(
            entry=row.pk,
            weight=called[row.weight_class_id],
            wrestler=row.wrestler.uid,
            name=row.wrestler.name,
            team=row.team.name,
            entered=row.status == Entry.Status.ENTERED,
            how=How(berth.how) if berth else None,
            region=berth.region.letter if berth and berth.region else "",
            place=berth.place or 0 if berth else 0,
        )


def _teams(tournament: Tournament) -> list[str]:
    return list(Team.objects.filter(tournament=tournament).values_list("name", flat=True))
