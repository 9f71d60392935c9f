"""Who wrestles no more: by a withdrawal, or thrown out in a bout. That is public, why is not."""

from collections.abc import Iterable

from django.db.models import BooleanField, ExpressionWrapper, Q

from results.core.outcomes import thrown_out
from results.models import Result, Withdrawal
from seeding.entries.models import Tournament


def is_out(tournament: Tournament) -> "ExpressionWrapper[Q]":
    """Of an entry whether it is out, as a column of the query that reads it."""
    gone = Withdrawal.objects.filter(entry__tournament=tournament)
    sent = Result.objects.filter(misconduct=True, bout__drawn__weight_class__tournament=tournament)
    out = (
        Q(pk__in=gone.values("entry"))
        | Q(pk__in=sent.exclude(winner_side=0).values("bout__top"))
        | Q(pk__in=sent.exclude(winner_side=1).values("bout__bottom"))
    )
    return ExpressionWrapper(out, output_field=BooleanField())


def leavers(entries: Iterable[int]) -> dict[int, str]:
    """Why those of these entries are out who are, for who directs; two queries, none of nobody."""
    if not (among := list(entries)):
        return {}
    sent = Result.objects.filter(misconduct=True)
    found = {
        pk: str(Withdrawal.Kind.MISCONDUCT.label)
        for row in sent.filter(Q(bout__top__in=among) | Q(bout__bottom__in=among)).select_related(
            "bout"
        )
        for pk in _thrown_out(row)
    }
    gone = Withdrawal.objects.filter(entry__in=among).values_list("entry", "kind")
    return found | {pk: str(Withdrawal.Kind(kind).label) for pk, kind in gone}


def _thrown_out(row: Result) -> list[int]:
    sides = (row.bout.top_id, row.bout.bottom_id)
    return [pk for side in thrown_out(row.outcome) if (pk := sides[side])]
