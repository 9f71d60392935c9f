"""After a fact changed: play the weight again and write its ledger anew."""

from collections import defaultdict
from collections.abc import Mapping
from typing import Any

from brackets.core.standing import Standing
from brackets.models import Bout, Drawn
from brackets.queries import entry_ids
from brackets.services import advance
from results.core.points import Part
from results.models import LedgerPart
from results.queries.facts import Facts, facts
from results.queries.standing import parts_of, pool_order

COLUMNS = ("entry_id", "item", "points", "bout_id", "place", "reason")


def settle(drawn: Drawn) -> Standing:
    """Bring bouts, places and points of one weight into line with its facts."""
    known = facts(drawn)
    standing = project(drawn, known)
    _write_ledger(drawn, parts_of(drawn, standing, known))
    return standing


def project(drawn: Drawn, known: Facts) -> Standing:
    """Bring bouts and places of one weight into line with these facts."""
    return advance(
        drawn,
        known.verdicts,
        out=known.out,
        vacating=known.vacating,
        pool_order=pool_order(drawn, known),
        rulings=known.rulings,
    )


def _write_ledger(drawn: Drawn, new: tuple[Part, ...]) -> None:
    """Bring the weight's ledger to `new`; a part that stays keeps its row."""
    entries = entry_ids(drawn)
    bouts = {
        (code, position): pk
        for pk, code, position in Bout.objects.filter(drawn=drawn).values_list(
            "pk", "round", "position"
        )
    }
    old: dict[tuple[Any, ...], list[int]] = defaultdict(list)
    weight = drawn.weight_class_id
    known = LedgerPart.objects.filter(weight_class_id=weight)
    for pk, *row in known.values_list("pk", *COLUMNS):
        old[tuple(row)].append(pk)
    added = []
    for part in new:
        values = _row(part, entries, bouts)
        if old[values]:
            old[values].pop()
        else:
            added.append(dict(zip(COLUMNS, values, strict=True)))
    known.filter(pk__in=[pk for left in old.values() for pk in left]).delete()
    LedgerPart.objects.bulk_create(LedgerPart(weight_class_id=weight, **row) for row in added)


def _row(
    part: Part, entries: Mapping[str, int], bouts: Mapping[tuple[str, int], int]
) -> tuple[Any, ...]:
    bout = bouts[part.bout.round, part.bout.position] if part.bout else None
    return entries[part.entry], str(part.item), part.points, bout, part.place, part.reason
