"""Who is out of the tournament, and from whom one can withdraw."""

from django.db.models import QuerySet

from brackets.models import Drawn
from brackets.queries import find_drawn
from results.core.errors import NotWithdrawn
from results.models import Withdrawal
from results.queries.consequences import NOTHING, Choices, Preview
from results.queries.facts import facts
from results.queries.preview import compare, without_withdrawal
from seeding.entries.models import Entry, Tournament


def withdrawals(tournament: Tournament) -> QuerySet[Withdrawal]:
    """The withdrawals of a tournament, the last first."""
    return (
        Withdrawal.objects.filter(entry__tournament=tournament)
        .select_related("entry__wrestler", "entry__team", "entry__weight_class", "author")
        .order_by("-at", "-pk")
    )


def still_in(tournament: Tournament) -> QuerySet[Entry]:
    """The entries of drawn weights that have not withdrawn, light to heavy."""
    return (
        Entry.objects.filter(
            tournament=tournament,
            status=Entry.Status.ENTERED,
            weight_class__in=Drawn.objects.values("weight_class"),
        )
        .exclude(pk__in=Withdrawal.objects.values("entry"))
        .select_related("weight_class", "wrestler", "team")
        .order_by("weight_class__position", "wrestler__family", "wrestler__given", "pk")
    )


def withdrawal_of(entry: Entry) -> Withdrawal:
    """The withdrawal of an entry; refused where it is not out."""
    row = withdrawals(entry.tournament).filter(entry=entry).first()
    if not row:
        raise NotWithdrawn(entry=entry.key)
    return row


def look_at_return(entry: Entry, choices: Choices | None = None) -> Preview:
    """What follows where somebody who is out wrestles on."""
    gone = withdrawal_of(entry).entry
    drawn = find_drawn(gone.weight_class)
    if drawn is None:
        return NOTHING
    known = facts(drawn)
    return compare(drawn, known, without_withdrawal(known, gone.key), choices)
