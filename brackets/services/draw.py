"""Drawing a weight, and taking the draw back."""

import secrets
from collections.abc import Mapping
from dataclasses import dataclass

from brackets.core.apart.basis import Basis, drawn
from brackets.core.apart.result import Draw
from brackets.core.errors import AlreadyDrawn, TooFew
from brackets.core.graph import LineUp
from brackets.models import Drawn
from brackets.queries import find_drawn, rules_of
from brackets.queries.basis import basis_of, field_of
from brackets.services.commitment import (
    committed_seed,
    hold_draws,
    next_number,
    note_taken_back,
)
from brackets.services.lines import lay_out, stored
from brackets.services.progress import advance
from seeding.core.errors import NoSpot, SeedsVoid
from seeding.core.lot import LOT_VERSION
from seeding.core.qualifying import LinesByRegion
from seeding.entries.models import WeightClass
from seeding.journal.services import Call
from seeding.queries import rules_of as seeding_rules
from seeding.queries.scratches import seeds_void
from seeding.services import lock_order, unlock_order


def make_draw(call: Call, weight: WeightClass, lot_seed: str = "") -> Drawn:
    """Draw a weight by its seeds and lot, or by region and place, as its rule book fills lines.

    The seed is the one of the tournament's commitment, else the one given, else a fresh one.
    The act is `results.services.draw_weight`: a place can be certain, and worth points, at once.
    """
    hold_draws(weight.tournament)
    lock_order(call, weight)
    number = next_number(weight)
    settled = committed_seed(weight, number, lot_seed)
    lot_seed = settled or lot_seed or secrets.token_hex(16)
    laid = lay(weight, lot_seed)
    told = {"committed": bool(settled), "number": number, "drawn_at": call.now}
    return set_lines(weight, laid.draw.lines, lot_seed, laid.kept | told)


@dataclass(frozen=True, slots=True)
class Laid:
    """A draw, and what it was made from."""

    draw: Draw
    basis: Basis

    @property
    def kept(self) -> dict[str, object]:
        """Of both what the table of brackets keeps."""
        return {
            "draw_version": self.draw.version,
            "basis": self.basis.plain(),
            "parting": self.draw.record,
        }


def lay(weight: WeightClass, lot_seed: str) -> Laid:
    """The draw that the weight's entries take now; writes nothing."""
    field = field_of(weight)
    if len(field) < 2:
        raise TooFew(weight=weight.label, count=len(field))
    basis, fill = basis_of(weight, field), seeding_rules(weight.division).fill
    if isinstance(fill, LinesByRegion):
        _all_hold_spots(weight, basis, {one.key: one.wrestler.name for one in field})
    elif seeds_void(weight):
        raise SeedsVoid(weight=weight.label)
    return Laid(drawn(basis, rules_of(weight.division), fill, lot_seed), basis)


def _all_hold_spots(weight: WeightClass, basis: Basis, names: Mapping[str, str]) -> None:
    for row in basis.rows:
        if not row.held:
            raise NoSpot(entry=names[row.entry], weight=weight.label)


def set_lines(
    weight: WeightClass, lines: LineUp, lot_seed: str, kept: Mapping[str, object] | None = None
) -> Drawn:
    """Keep a line-up as the weight's bracket and lay out its bouts.

    `kept`: what else the row says of the draw; nothing where the lines were given.
    """
    if find_drawn(weight):
        raise AlreadyDrawn(weight=weight.label)
    made = Drawn.objects.create(
        weight_class=weight,
        places=weight.places,
        lines=stored(lines),
        lot_seed=lot_seed,
        lot_version=LOT_VERSION,
        **{"drawn_lines": stored(lines)} | dict(kept or {}),
    )
    lay_out(made)
    advance(made, {})
    return made


def undo_draw(call: Call, weight: WeightClass, reason: str = "") -> None:
    """Remove a weight's bracket and open its entries again (act: `results`)."""
    row = find_drawn(weight)
    if row and row.committed:
        note_taken_back(call, weight, row.number, reason)
    Drawn.objects.filter(weight_class=weight).delete()
    unlock_order(call, weight)
