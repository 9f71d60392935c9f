"""After a fact changed: play the weight again and write its ledger anew."""

from brackets.core.standing import Standing
from brackets.models import Bout, Drawn
from brackets.queries import entry_ids
from brackets.services import advance
from results.core.points import Part
from results.models import LedgerPart
from results.queries.facts import facts
from results.queries.standing import parts_of, pool_order


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
    _write_ledger(drawn, parts_of(drawn, standing, known))
    return standing


def _write_ledger(drawn: Drawn, new: tuple[Part, ...]) -> None:
    LedgerPart.objects.filter(weight_class_id=drawn.weight_class_id).delete()
    bouts = {row.key: row.pk for row in Bout.objects.filter(drawn=drawn)}
    entries = entry_ids(drawn)
    LedgerPart.objects.bulk_create(
        LedgerPart(
            weight_class_id=drawn.weight_class_id,
            entry_id=entries[part.entry],
            item=str(part.item),
            points=part.points,
            bout_id=bouts[part.bout] if part.bout else None,
            place=part.place,
            reason=part.reason,
        )
        for part in new
    )
