"""What the committee did, as parts of a tournament file."""

from typing import Any

from seeding.entries.models import Tournament, User
from seeding.entries.serializers.people import moment
from seeding.models import Challenge, Override, OwnTeam, SeedOrder, Signature

Item = dict[str, Any]


def committee_section(order: SeedOrder) -> Item:
    """Adoption, moves, challenges and signatures of one weight."""
    moves = list(Override.objects.filter(order=order).select_related("entry", "author"))
    numbers = {row.pk: at for at, row in enumerate(moves)}
    challenges = Challenge.objects.filter(order=order).select_related(
        "entry", "over", "author", "answered_by"
    )
    signatures = Signature.objects.filter(order=order).select_related("user")
    found = {
        "adopted_at": moment(order.adopted_at) if order.adopted_at else None,
        "adopted_by": _name(order.adopted_by),
        "overrides": [_move(row) for row in moves],
        "challenges_until": moment(order.challenges_until) if order.challenges_until else None,
        "challenges": [_challenge(row, numbers) for row in challenges],
        "signatures": [_signature(row) for row in signatures],
    }
    return _told(found) | {"overrides": found["overrides"]}


def own_teams_section(tournament: Tournament) -> Item:
    """`own_teams`: who of the committee belongs to which team; absent where nobody does."""
    found: dict[str, list[str]] = {}
    rows = OwnTeam.objects.filter(tournament=tournament).select_related("user", "team")
    for row in rows.order_by("user__username", "team__key"):
        found.setdefault(row.user.username, []).append(row.team.key)
    items = [{"user": user, "teams": teams} for user, teams in found.items()]
    return {"own_teams": items} if items else {}


def _move(row: Override) -> Item:
    return _told(
        {
            "entry": row.entry.key,
            "before": row.before,
            "to": row.to,
            "reason": row.reason,
            "author": _name(row.author),
            "at": moment(row.at),
        }
    )


def _challenge(row: Challenge, moves: dict[int, int]) -> Item:
    told = _told(
        {
            "entry": row.entry.key,
            "over": row.over.key,
            "by": row.by,
            "reason": row.reason,
            "author": _name(row.author),
            "at": moment(row.at),
            "state": row.state,
            "answer": row.answer,
            "answered_by": _name(row.answered_by),
            "answered_at": moment(row.answered_at) if row.answered_at else None,
        }
    )
    return told | ({"move": moves[row.move_id]} if row.move_id in moves else {})


def _signature(row: Signature) -> Item:
    return {
        "user": row.user.username,
        "name": row.name,
        "digest": row.digest,
        "at": moment(row.at),
    }


def _name(user: User | None) -> str:
    return user.username if user else ""


def _told(item: Item) -> Item:
    """Without what there is nothing to say of."""
    return {name: value for name, value in item.items() if value}
