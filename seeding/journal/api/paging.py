"""Lists a part at a time."""

from collections.abc import Callable, Sequence
from typing import Any, TypeVar

from django.db.models import QuerySet
from django.utils.http import urlencode
from rest_framework.request import Request

from seeding.journal.api.bodies import Data

T = TypeVar("T")


def page(
    request: Request, asked: Data, rows: "Sequence[T] | QuerySet[Any]", item: Callable[[T], Any]
) -> dict[str, Any]:
    """`count`, `items` from `offset` on, at most `limit`, and the address where they go on."""
    count = rows.count() if isinstance(rows, QuerySet) else len(rows)
    first, most = asked["offset"], asked["limit"]
    last = first + most
    following = {**asked, "offset": last, "limit": most}
    following.pop("after", None)
    return {
        "count": count,
        "next": f"{request.path}?{urlencode(following)}" if last < count else None,
        "items": [item(row) for row in rows[first:last]],
    }
