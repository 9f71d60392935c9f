"""After a fact changed: play the weight again and write its ledger anew."""

from brackets.core.graph import Format
from brackets.core.progress import Standing, Status
from brackets.models import Bout, Drawn
from brackets.queries import bracket
from brackets.services import advance
from results.core.placings import rank_pool
from results.core.points import Part, ledger
from results.models import LedgerPart
from results.queries.facts import Facts, facts, rules_of, scorers


def settle(drawn: Drawn) -> Standing:
    """Bring bouts, places and points of one weight into line with its facts."""
    known = facts(drawn)
    standing = advance(
        drawn,
        known.verdicts,
        out=known.out,
        vacating=known.vacating,
        pool_order=pool_order(drawn, known),
    )
    _write_ledger(drawn, parts(drawn, standing, known))
    return standing


def parts(drawn: Drawn, standing: Standing, known: Facts) -> tuple[Part, ...]:
    """What the weight is worth to the teams, part by part."""
    return ledger(
        bracket(drawn),
        standing,
        known.outcomes,
        scorers(drawn),
        rules_of(drawn.weight_class.division).team_points,
        removed=known.removed,
    )


def _write_ledger(drawn: Drawn, new: tuple[Part, ...]) -> None:
    LedgerPart.objects.filter(weight_class_id=drawn.weight_class_id).delete()
    ids = {row.key: row.pk for row in Bout.objects.filter(drawn=drawn)}
    LedgerPart.objects.bulk_create(
        LedgerPart(
            weight_class_id=drawn.weight_class_id,
            entry_id=int(part.entry),
            item=str(part.item),
            points=part.points,
            bout_id=ids[part.bout] if part.bout else None,
            place=part.place,
            reason=part.reason,
        )
        for part in new
    )
