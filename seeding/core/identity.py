"""What makes two reports of a bout the same bout."""

import hashlib
from datetime import date


def bout_identity(when: date, one: str, other: str, weight: str, event: str) -> str:
    """SHA-256 (hex) of date, the two wrestlers whoever won, weight and event.

    >>> a = bout_identity(date(2026, 1, 3), "w1", "w2", "125", "Dual")
    >>> a == bout_identity(date(2026, 1, 3), "w2", "w1", "125", "dual ")
    True
    """
    pair = "|".join(sorted((one, other)))
    told = "|".join(("bout/1", when.isoformat(), pair, weight.strip(), event.strip().casefold()))
    return hashlib.sha256(told.encode()).hexdigest()
