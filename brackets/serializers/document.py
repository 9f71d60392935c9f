"""Drawn brackets as sections of a tournament file."""

from typing import Any

from brackets.models import Bout, Drawn, Placing
from brackets.queries import crossings_of
from brackets.queries.draw_file import DrawFile
from brackets.serializers.draw_file import commitment_section, draw_item
from seeding.entries.models import Tournament
from seeding.entries.serializers.document import ground_sections
from seeding.entries.serializers.people import moment
from seeding.serializers.document import season_sections
from seeding.serializers.qualifying import qualifying_section

Item = dict[str, Any]


def drawn_sections(tournament: Tournament) -> Item:
    """What draws were made from, and `brackets`: all that is needed to draw again."""
    read = {
        **ground_sections(tournament),
        **season_sections(tournament),
        **qualifying_section(tournament),
        **commitment_section(tournament),
    }
    return read | {"brackets": _brackets(tournament, DrawFile(read))}


def _brackets(tournament: Tournament, file: DrawFile) -> list[Item]:
    """Format, lines from top to bottom, and how the lot fell.

    `crossings`: those of an elimination, so that nobody has to search for the latest.
    """
    rows = Drawn.objects.filter(weight_class__tournament=tournament)
    rows = rows.prefetch_related("line_changes__author")
    return [
        {
            "weight_class": row.weight_class.key,
            "format": row.format,
            "lines": row.lines,
            **({"crossings": crossed} if (crossed := crossings_of(row)) else {}),
            **_changes(row),
            "draw": draw_item(row, file),
        }
        for row in rows.select_related("weight_class__division").order_by("weight_class__position")
    ]


def _changes(row: Drawn) -> Item:
    """`line_changes`: what was changed after the draw; `drawn_lines`: the lines before it.

    Lines that differ without a record of how come out of a file that did not say it either.
    """
    items = [
        {
            **one.given,
            "reason": one.reason,
            **({"author": one.author.username} if one.author else {}),
            "at": moment(one.at),
        }
        for one in row.line_changes.all()
    ]
    if not items:
        return {"drawn_lines": row.drawn_lines} if row.drawn_lines != row.lines else {}
    return {"drawn_lines": row.drawn_lines, "line_changes": items}


def bout_items(tournament: Tournament) -> list[tuple[Bout, Item]]:
    """Every bout and bye of the tournament with what brackets know of it, in running order."""
    rows = Bout.objects.filter(drawn__weight_class__tournament=tournament).select_related(
        "drawn__weight_class", "top", "bottom", "winner"
    )
    ordered = rows.exclude(status=Bout.Status.VACANT, number=None).order_by(
        "drawn__weight_class__position", "column", "round", "position"
    )
    return [(row, _bout(row)) for row in ordered]


def _bout(row: Bout) -> Item:
    return {
        "weight_class": row.drawn.weight_class.key,
        "round": row.round,
        "position": row.position,
        "number": row.number,
        "mat": row.mat,
        "status": row.status,
        "sides": [side.key if side else None for side in (row.top, row.bottom)],
        "winner": row.winner.key if row.winner else None,
    }


def places_section(tournament: Tournament) -> list[Item]:
    """`places`: every place that is final."""
    rows = Placing.objects.filter(drawn__weight_class__tournament=tournament).select_related(
        "drawn__weight_class", "entry"
    )
    ordered = rows.order_by("drawn__weight_class__position", "place", "entry__key")
    return [
        {
            "weight_class": row.drawn.weight_class.key,
            "place": row.place,
            "entry": row.entry.key,
        }
        for row in ordered
    ]
