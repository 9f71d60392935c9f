"""The season and the committee's moves as sections of a tournament file."""

from typing import Any

from django.db.models import Q

from seeding.entries.models import Entry, Tournament, WeightClass, Wrestler
from seeding.models import PriorBout, SeedOrder
from seeding.queries import season_bouts
from seeding.serializers.committee_file import committee_section, own_teams_section
from seeding.serializers.put_in_file import put_in_section

Item = dict[str, Any]


def season_sections(tournament: Tournament) -> Item:
    """`wrestlers` and `prior_bouts`: those entered, and whom they met; `own_teams`."""
    entered = {row.wrestler_id: row.key for row in Entry.objects.filter(tournament=tournament)}
    bouts = list(
        season_bouts(tournament)
        .filter(Q(winner__in=entered) | Q(loser__in=entered))
        .select_related("winner", "loser")
        .order_by("date", "identity")
    )
    met = {pk for row in bouts for pk in (row.winner_id, row.loser_id)} - set(entered)
    others = Wrestler.objects.in_bulk(met)
    names = entered | {pk: row.uid for pk, row in others.items()}
    return {
        "wrestlers": [_wrestler(row) for row in sorted(others.values(), key=lambda row: row.uid)],
        "prior_bouts": [_bout(row, names) for row in bouts],
        **own_teams_section(tournament),
    }


def _wrestler(row: Wrestler) -> Item:
    return {"id": row.uid, "given": row.given, "family": row.family, "team": row.home}


def _bout(row: PriorBout, names: dict[int, str]) -> Item:
    item: Item = {
        "date": row.date.isoformat(),
        "weight": row.weight,
        "winner": names[row.winner_id],
        "loser": names[row.loser_id],
        "kind": row.kind,
    }
    if row.score:
        item["score"] = row.score
    return item | {part: value for part in TOLD if (value := getattr(row, part))}


TOLD = ("time", "event", "level", "winner_division", "loser_division")
"""Texts that a report need not tell."""


def order_section(weight: WeightClass) -> Item | None:
    """What the committee has recorded and put in for a weight, or None."""
    order = SeedOrder.objects.filter(weight_class=weight).first()
    put_in = put_in_section(weight)
    if not order:
        return put_in or None
    return {
        "lot_seed": order.lot_seed,
        "adopted": order.adopted_at is not None,
        **committee_section(order),
        **put_in,
    }
