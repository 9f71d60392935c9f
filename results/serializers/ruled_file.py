"""Rulings and void bouts as sections of a tournament file."""

from collections.abc import Iterator
from typing import Any

from brackets.core.rulings import RulingKind
from results.core.outcomes import write_time
from results.models import Ended
from results.queries.ruled import rulings, void_bouts
from seeding.entries.models import Tournament, User

Item = dict[str, Any]


def ruled_sections(tournament: Tournament) -> Item:
    """`rulings` and `void_bouts`, where there are any."""
    found = {
        "rulings": list(_rulings(tournament)),
        "void_bouts": list(_void_bouts(tournament)),
    }
    return {name: items for name, items in found.items() if items}


def ruled_sides(sections: Item) -> dict[tuple[str, str], list[str]]:
    """By weight and bout whose result is ruled: between whom the last such ruling is in force."""
    return {
        (one["weight_class"], one["bout"]): one["sides"]
        for one in sections.get("rulings", ())
        if one["kind"] == RulingKind.RESULT
    }


def _rulings(tournament: Tournament) -> Iterator[Item]:
    for row in rulings(tournament):
        yield {
            "weight_class": row.drawn.weight_class.key,
            "kind": row.kind,
            **row.given,
            "reason": row.reason,
            **_by("author", row.author),
            "at": row.at.isoformat(),
        }


def _void_bouts(tournament: Tournament) -> Iterator[Item]:
    for row in void_bouts(tournament):
        sides = [row.top.key, row.bottom.key]
        yield {
            "weight_class": row.bout.drawn.weight_class.key,
            "round": row.bout.round,
            "position": row.bout.position,
            "number": row.number,
            "mat": row.mat,
            "sides": sides,
            "winner": None if row.winner_side is None else sides[row.winner_side],
            **ending_of(row),
            "reason": row.reason,
            **_by("voided_by", row.voided_by),
            "voided_at": row.voided_at.isoformat(),
        }


def _by(name: str, user: User | None) -> Item:
    return {name: user.username} if user else {}


def ending_of(row: Ended) -> Item:
    """How a bout ended, without what is as usual."""
    optional = {
        "score": row.score,
        "time": None if row.time is None else write_time(row.time),
        "overtime": row.overtime or None,
        "decided_by": row.decided_by or None,
        "near_fall": None if row.near_fall else False,
        "misconduct": row.misconduct or None,
        "occurred_at": row.occurred_at.isoformat(),
    }
    found = {name: value for name, value in optional.items() if value is not None}
    return {"kind": row.kind, **found}
