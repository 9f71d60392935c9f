"""How the log names bouts."""

from collections.abc import Sequence

from brackets.models import Bout


def logged(**named: Bout | Sequence[Bout]) -> dict[str, object]:
    """The part of an act's subject that names bouts: their ids, and by these the numbers that they
    have now, which a later act may change. No bouts are left out."""
    subject: dict[str, object] = {}
    numbers: dict[str, int] = {}
    for kind, found in named.items():
        bouts = [found] if isinstance(found, Bout) else found
        if bouts:
            subject[kind] = found.pk if isinstance(found, Bout) else [one.pk for one in bouts]
        numbers |= {f"{kind} {one.pk}": one.number for one in bouts if one.number}
    return subject | ({"numbers": numbers} if numbers else {})
