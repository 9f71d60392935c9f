"""Bouts that are decided without a result, because somebody is out."""

from collections.abc import Iterable

from brackets.models import Bout
from results.core.outcomes import Kind
from results.models import Withdrawal


def implied_kinds(rows: Iterable[Bout]) -> dict[int, Kind]:
    """What such bouts ended in, by primary key: a forfeit where the loser did not report, else a
    medical forfeit. One query, and none where there is no such bout.
    """
    losers = {row.pk: _loser(row) for row in rows if row.implied and row.winner_id}
    if not losers:
        return {}
    gone = Withdrawal.objects.filter(kind=Withdrawal.Kind.ABSENT, entry__in=losers.values())
    absent = set(gone.values_list("entry", flat=True))
    return {pk: Kind.FORFEIT if one in absent else Kind.MEDICAL for pk, one in losers.items()}


def _loser(row: Bout) -> int | None:
    return row.bottom_id if row.winner_id == row.top_id else row.top_id
