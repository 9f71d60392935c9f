"""The ground floor's sections of a tournament file, read out of the tables."""

from typing import Any

from seeding.entries.models import Division, Entry, Team, Tournament, WeightClass
from seeding.entries.services.tournament import GATES

Item = dict[str, Any]


def ground_sections(tournament: Tournament) -> Item:
    """`tournament`, `divisions`, `teams`, `weight_classes`, `entries`, each in file order."""
    entries = Entry.objects.filter(tournament=tournament).select_related(
        "wrestler", "team", "weight_class"
    )
    return {
        "tournament": _tournament(tournament),
        "divisions": [_division(row) for row in Division.objects.filter(tournament=tournament)],
        "teams": [
            _team(row)
            for row in Team.objects.filter(tournament=tournament)
            .select_related("merged_into")
            .order_by("key")
        ],
        "weight_classes": [
            _weight(row)
            for row in WeightClass.objects.filter(tournament=tournament).select_related("division")
        ],
        "entries": [_entry(row) for row in entries.order_by("weight_class__position", "key")],
    }


def _tournament(row: Tournament) -> Item:
    return {
        "slug": row.slug,
        "name": row.name,
        "starts_on": row.starts_on.isoformat(),
        "time_zone": row.time_zone,
        "mats": row.mats,
        "publish": {kind: getattr(row, f"shows_{kind}") for kind in GATES},
    }


def _division(row: Division) -> Item:
    return {
        "id": row.key,
        "name": row.name,
        "rulebook": row.rulebook,
        "settings": row.settings,
        "snapshot": row.snapshot,
    }


def _team(row: Team) -> Item:
    item: Item = {"id": row.key, "name": row.name, "short": row.short}
    if row.members:
        item["members"] = row.members
    if row.merged_into:
        item["merged_into"] = row.merged_into.key
    return item


def _weight(row: WeightClass) -> Item:
    return {
        "id": row.key,
        "division": row.division.key,
        "label": row.label,
        "places": row.places,
    }


def _entry(row: Entry) -> Item:
    item: Item = {
        "id": row.key,
        "weight_class": row.weight_class.key,
        "team": row.team.key,
        "wrestler": row.wrestler.uid,
        "given": row.wrestler.given,
        "family": row.wrestler.family,
        "home": row.wrestler.home,
        "publish": row.publish,
        "scoring": row.scoring,
        "status": row.status,
        "weighed_in": row.weigh_in,
    }
    for name in ("seed", "rank", "qualifying_place"):
        value = getattr(row, name)
        if value is not None:
            item[name] = value
    return item
