"""How figures and times are written on every page: `{% load shown %}`."""

from datetime import datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

from django import template

register = template.Library()


@register.filter
def points(value: Decimal | int | None) -> str:
    """Points without idle zeros, with a true minus sign; nothing for None.

    >>> points(Decimal("102.0")), points(Decimal("75.50")), points(Decimal("-1.0"))[1:]
    ('102', '75.5', '1')
    """
    if value is None:
        return ""
    text = f"{Decimal(value):f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text.replace("-", "\N{MINUS SIGN}")


@register.filter
def signed(value: Decimal | int | None) -> str:
    """Points that were added or taken away, with their sign: +1, or a minus."""
    text = points(value)
    return text if value is None or value <= 0 else f"+{text}"


@register.filter
def minutes(seconds: int | None) -> str:
    """A time of the bout clock, seconds to 4:25."""
    return "" if seconds is None else f"{seconds // 60}:{seconds % 60:02d}"


@register.filter
def clock(at: datetime | None, zone: str = "UTC") -> str:
    """The time of day, 14:03: `{{ act.at|clock:tournament.time_zone }}`."""
    return f"{at.astimezone(ZoneInfo(zone)):%H:%M}" if at else ""


@register.filter
def moment(at: datetime | None, zone: str = "UTC") -> str:
    """Date and time to the second in the tournament's zone, 2025-03-20 14:03:22."""
    return f"{at.astimezone(ZoneInfo(zone)):%Y-%m-%d %H:%M:%S}" if at else ""
