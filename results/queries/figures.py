"""How points are written where a program reads them."""

from decimal import Decimal


def plain(points: Decimal) -> str:
    """Points as a decimal string: "102", "75.5", "-1".

    >>> plain(Decimal("75.500")), plain(Decimal("100.000")), plain(Decimal("-1"))
    ('75.5', '100', '-1')
    """
    return format(points.normalize(), "f")
