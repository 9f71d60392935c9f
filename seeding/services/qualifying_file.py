"""The section `qualifying` of a tournament file, written into the tables."""

from datetime import datetime

from seeding.entries.models import Organisation, Tournament
from seeding.entries.permissions import Right, rights
from seeding.entries.services.document import Document, Ground, look_up
from seeding.journal.services import Call
from seeding.models import Berth, QualifyingPlan, Region

WHERE = "qualifying"


def load_qualifying(call: Call, ground: Ground, document: Document) -> None:
    """Plan, regions and berths; a region's event is found again where the caller may read it."""
    item = document.get(WHERE)
    if not item:
        return
    _plan(ground, item["plan"])
    regions = {
        one["letter"]: Region.objects.create(
            tournament=ground.tournament,
            letter=one["letter"],
            name=one["name"],
            source=_source(call, ground.tournament.organisation, one.get("source", "")),
        )
        for one in item["regions"]
    }
    for at, one in enumerate(item["berths"]):
        _berth(ground, regions, one, f"{WHERE}.berths[{at}]")


def _plan(ground: Ground, item: Document) -> None:
    QualifyingPlan.objects.create(
        tournament=ground.tournament,
        places=item["places"],
        wild_cards=item["wild_cards"],
        alternates=item["alternates"],
        alternates_until=_moment(item.get("alternates_until")),
    )


def _source(call: Call, organisation: Organisation, slug: str) -> Tournament | None:
    found = Tournament.objects.filter(organisation=organisation, slug=slug).first()
    return found if found and Right.READ in rights(call.actor, found.pk) else None


def _berth(ground: Ground, regions: dict[str, Region], item: Document, where: str) -> None:
    region, came_for = item.get("region"), item.get("stepped_in_for")
    Berth.objects.create(
        entry=look_up(ground.entries, item["entry"], f"{where}.entry"),
        how=item["how"],
        region=look_up(regions, region, f"{where}.region") if region else None,
        place=item.get("place"),
        order=item.get("order"),
        stepped_in_at=_moment(item.get("stepped_in_at")),
        stepped_in_for=look_up(ground.entries, came_for, f"{where}.stepped_in_for")
        if came_for
        else None,
    )


def _moment(text: str | None) -> datetime | None:
    return datetime.fromisoformat(text) if text else None
