"""The season and the committee's moves as sections of a tournament file."""

from typing import Any

from django.db.models import Q

from seeding.entries.models import Entry, Tournament, WeightClass, Wrestler
from seeding.models import Override, PriorBout, SeedOrder
from seeding.queries import season_bouts

Item = dict[str, Any]


def season_sections(tournament: Tournament) -> Item:
    """`wrestlers` and `prior_bouts`: the season of those entered, and whom they met."""
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
    if row.event:
        item["event"] = row.event
    return item


def order_section(weight: WeightClass) -> Item | None:
    """What the committee has recorded for a weight, or None."""
    order = SeedOrder.objects.filter(weight_class=weight).first()
    if not order:
        return None
    moves = Override.objects.filter(order=order).select_related("entry", "author")
    return {
        "lot_seed": order.lot_seed,
        "adopted": order.adopted_at is not None,
        "overrides": [_move(row) for row in moves],
    }


def _move(row: Override) -> Item:
    item: Item = {"entry": row.entry.key, "to": row.to, "reason": row.reason}
    if row.author:
        item["author"] = row.author.username
    return item
