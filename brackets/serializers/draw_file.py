"""How a draw stands in a tournament file."""

from typing import Any

from brackets.core.apart.basis import Basis
from brackets.models import Drawn
from brackets.queries.commitment import commitment_of, taken_back
from brackets.queries.draw_file import DrawFile
from seeding.entries.models import Tournament
from seeding.entries.serializers.people import moment

Item = dict[str, Any]


def commitment_section(tournament: Tournament) -> Item:
    """`draw_commitment`: the published digest, and the secret once it is revealed."""
    kept = commitment_of(tournament)
    if not kept:
        return {}
    item = {"digest": kept.digest, "at": moment(kept.at)}
    if kept.revealed_at:
        item |= {"secret": kept.secret, "revealed_at": moment(kept.revealed_at)}
    back = [
        {
            "weight_class": row.weight_class.key,
            "number": row.number,
            "reason": row.reason,
            "at": moment(row.at),
        }
        for row in taken_back(tournament)
    ]
    return {"draw_commitment": item | {"taken_back": back}}


def draw_item(row: Drawn, file: DrawFile) -> Item:
    """`draw` of a bracket: seed, versions, what came out, and what was different at the draw."""
    item: Item = {"seed": row.lot_seed, "version": row.lot_version}
    if row.committed:
        item["commitment"] = file.document["draw_commitment"]["digest"]
    if row.drawn_at:
        item["at"] = moment(row.drawn_at)
    if row.anew_because:
        item["anew_because"] = row.anew_because
    if not row.draw_version:
        return item
    weight = row.weight_class.key
    basis = Basis.read(weight, row.basis)
    return item | {
        "number": row.number,
        "draw_version": row.draw_version,
        **row.parting,
        "basis": basis.mark(row.lot_seed),
        **_as_drawn(basis.changes_since(file.basis(weight))),
    }


def _as_drawn(changes: Item) -> Item:
    return {"as_drawn": changes} if changes else {}
