"""Places at an earlier event as people write them: "3", "took part", "2 at 133"."""

import re
from collections.abc import Iterable

from seeding.entries.core.spelling import tidied

_ONE = re.compile(r"(?:(\d{1,3})(?:st|nd|rd|th)?|(took part|part|q|dnp))(?:\s*(?:at|@)\s*(.+))?")
EXAMPLES = "“3”, “took part”, “2 at 133”, several parted by commas"
Place = tuple[int, str]
"""A place (0 = took part) and the weight at which, empty for the entry's own."""


def read_places(text: str) -> tuple[Place, ...] | None:
    """The places in the text, each weight once; None where it is not understood.

    >>> read_places("3, 2nd at 133"), read_places("took part"), read_places("")
    (((3, ''), (2, '133')), ((0, ''),), ())
    """
    found: dict[str, int] = {}
    for part in filter(None, (tidied(one) for one in text.split(","))):
        match = _ONE.fullmatch(part.casefold())
        weight = match[3] or "" if match else ""
        if match is None or weight in found:
            return None
        found[weight] = int(match[1] or 0)
    return tuple((place, weight) for weight, place in found.items())


def write_places(places: Iterable[Place]) -> str:
    """The places as `read_places` reads them, the own weight first.

    >>> write_places([(2, "133"), (0, "")])
    'took part, 2 at 133'
    """
    return ", ".join(
        (str(place) if place else "took part") + (f" at {weight}" if weight else "")
        for place, weight in sorted(places, key=lambda one: (one[1] != "", one[1]))
    )
