"""The results of a finished tournament become bouts of the organisation's season."""

from collections.abc import Iterable

from results.core.errors import BoutsLeft
from results.queries.giving_back import Given, giving_back
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right, require
from seeding.journal.services import Call, Deed, act
from seeding.models import PriorBout


@act
def give_back(*, call: Call, tournament: Tournament) -> Deed:
    """Give the results back to the season: once more changes nothing, corrected ones correct.

    What a file told otherwise of these bouts is corrected too; a struck bout stays struck.
    """
    require(call, tournament.pk, Right.DIRECT)
    plan = giving_back(tournament)
    if plan.left:
        raise BoutsLeft(count=plan.left)
    known = (*plan.joined, *plan.corrected)
    kept = {one.key: row for one, row in known}
    old = [row.pk for row in (*kept.values(), *plan.gone)]
    PriorBout.objects.filter(pk__in=old).delete()
    _write(tournament, (*plan.added, *(one for one, _row in known)), kept)
    counts = {"bouts": len(plan.added), "corrected": len(plan.corrected), "gone": len(plan.gone)}
    return Deed(tournament.log_id, "season.given-back", counts)


def _write(tournament: Tournament, bouts: Iterable[Given], kept: dict[str, PriorBout]) -> None:
    rows = []
    for one in bouts:
        value, before = one.value, kept.get(one.key)
        row = PriorBout(
            organisation_id=tournament.organisation_id,
            given_by=tournament,
            given_as=one.key,
            date=value.date,
            weight=value.weight,
            winner_id=one.winner,
            loser_id=one.loser,
            event=value.event,
        )
        row.tell(value)
        if before:
            row.struck_at, row.struck_by_id = before.struck_at, before.struck_by_id
            row.struck_reason = before.struck_reason
        rows.append(row)
    PriorBout.objects.bulk_create(rows, batch_size=200)
