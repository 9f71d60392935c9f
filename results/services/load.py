"""Loading a tournament file: all of it or nothing."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from brackets.core.graph import BoutKey
from brackets.services.commitment_file import load_commitment
from brackets.services.document import load_brackets
from results.models import Adjustment, CutOff, Result, Withdrawal
from results.queries.facts import Left
from results.services.replayed import Weight
from results.services.ruled_file import load_rulings, load_void_bouts
from results.services.settle import project, settle
from seeding.entries.models import Entry, Organisation
from seeding.entries.permissions import may_found
from seeding.entries.services.document import Document, Ground, load_ground, look_up
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call, Deed, act
from seeding.services.document import load_seeding
from seeding.services.qualifying_file import load_qualifying


@act
def load_tournament(*, call: Call, organisation: Organisation, document: Document) -> Deed:
    """Write a checked tournament file into the tables as a new tournament of the organisation."""
    may_found(call, organisation.pk)
    ground = load_ground(call, organisation, document)
    load_seeding(call, ground, document)
    load_qualifying(call, ground, document)
    load_commitment(call, ground, document)
    drawn = load_brackets(ground, document)
    weights = {key: Weight.of(row) for key, row in drawn.items()}
    leavers = list(_leavers(ground, weights, document))
    for one in leavers:
        if one.told and one.weight:
            one.leave(one.behind)
    load_rulings(call, weights, document)
    _results(call, weights, document)
    _withdrawals(call, leavers)
    _adjustments(call, ground, document)
    _cut_offs(ground, document)
    for weight in weights.values():
        project(weight.drawn, weight.facts())
        settle(weight.drawn)
    load_void_bouts(call, ground, weights, document)
    subject = {"tournament": ground.tournament.pk}
    return Deed(ground.tournament.log_id, "tournament.loaded", subject)


def _results(call: Call, weights: Mapping[str, Weight], document: Document) -> None:
    rows = []
    for at, item in enumerate(document.get("results", ())):
        where = f"results[{at}]"
        weight = look_up(weights, item["weight_class"], f"{where}.weight_class")
        rows.append(weight.apply(call, item, where))
    Result.objects.bulk_create(rows, batch_size=200)


@dataclass(frozen=True, slots=True)
class Leaver:
    """A withdrawal of the file; `told`: the file says what he had behind him when he left."""

    entry: Entry
    weight: Weight | None
    item: Document
    told: bool
    behind: BoutKey | None

    def leave(self, behind: BoutKey | None) -> None:
        """Let his weight know that he left, and what he had behind him then."""
        if self.weight:
            key = self.entry.key
            self.weight.left[key] = Left(key, self.item["kind"], behind)


def _leavers(ground: Ground, weights: Mapping[str, Weight], document: Document) -> Iterator[Leaver]:
    for at, item in enumerate(document.get("withdrawals", ())):
        where = f"withdrawals[{at}]"
        entry = look_up(ground.entries, item["entry"], f"{where}.entry")
        weight = weights.get(entry.weight_class.key)
        behind = BoutKey.parse(item["after"]) if item.get("after") else None
        if behind and (weight is None or behind not in weight.rows):
            hint = f"“{behind}” is no bout of weight {entry.weight_class.label}."
            raise Invalid([Problem(f"{where}.after", hint)])
        yield Leaver(entry, weight, item, "after" in item, behind)


def _withdrawals(call: Call, leavers: Iterable[Leaver]) -> None:
    for one in leavers:
        behind = one.behind
        if not one.told and one.weight:
            behind = one.weight.standing().behind(one.entry.key)
            one.leave(behind)
        Withdrawal.objects.create(
            entry=one.entry,
            kind=one.item["kind"],
            behind=str(behind) if behind else "",
            reason=one.item.get("reason", ""),
            at=call.now,
            author_id=call.author,
        )


def _adjustments(call: Call, ground: Ground, document: Document) -> None:
    first = next(iter(ground.divisions))
    for at, item in enumerate(document.get("adjustments", ())):
        where = f"adjustments[{at}]"
        division = item.get("division", first)
        Adjustment.objects.create(
            division=look_up(ground.divisions, division, f"{where}.division"),
            team=look_up(ground.teams, item["team"], f"{where}.team"),
            points=Decimal(item["points"]),
            reason=item["reason"],
            at=call.now,
            author_id=call.author,
        )


def _cut_offs(ground: Ground, document: Document) -> None:
    for at, item in enumerate(document.get("cut_offs", ())):
        named = item.get("division")
        CutOff.objects.create(
            tournament=ground.tournament,
            division=look_up(ground.divisions, named, f"cut_offs[{at}].division")
            if named
            else None,
            at=datetime.fromisoformat(item["at"]),
        )
