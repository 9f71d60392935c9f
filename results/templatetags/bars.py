"""Bars of team points: `{% load bars %}`."""

from dataclasses import dataclass
from decimal import Decimal

from django import template

from results.core.points import TeamLine

register = template.Library()


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of a bar, in points."""

    part: str
    x: Decimal
    width: Decimal


@register.inclusion_tag("results/_bar.html")
def bar(line: TeamLine, most: Decimal) -> dict[str, object]:
    """The parts of a total in a row; what was taken away stands behind the total."""
    pieces, x = [], Decimal(0)
    for part in ("placement", "advancement", "bonus", "adjustments"):
        width = getattr(line, part)
        if width < 0:
            x, width = line.total, -width
        if width:
            pieces.append(Piece(part, max(x, Decimal(0)), width))
        x += width
    return {"pieces": pieces, "width": most or Decimal(1)}
