"""A preview that is the act itself, taken back: what is shown is what would be done."""

from collections.abc import Callable, Sequence

from django.db import transaction

from results.core.errors import NotAsSeen
from results.queries.late import Follows, follows, pictures
from seeding.entries.models import WeightClass


def rehearsed(
    weights: Sequence[WeightClass], do: Callable[[], object], anew: Sequence[str] = ()
) -> Follows:
    """What `do` would change in these weights; nothing of it is kept. Refuses what it refuses."""
    with transaction.atomic():
        found = _followed(weights, do, anew)
        transaction.set_rollback(True)
    return found


def seen_through(
    weights: Sequence[WeightClass],
    do: Callable[[], object],
    mark: str = "",
    anew: Sequence[str] = (),
) -> None:
    """Do it, inside an act; refused where a preview was seen (`mark`) that said otherwise."""
    if not mark:
        do()
    elif mark != _followed(weights, do, anew).mark:
        raise NotAsSeen


def _followed(
    weights: Sequence[WeightClass], do: Callable[[], object], anew: Sequence[str]
) -> Follows:
    before = pictures(weights)
    do()
    return follows(before, pictures(weights), anew)
