"""Loading a tournament file: all of it or nothing."""

from collections.abc import Mapping
from decimal import Decimal

from brackets.models import Drawn
from brackets.services.document import load_brackets
from results.models import Adjustment, Result, Withdrawal
from results.services.record import author
from results.services.replayed import Weight
from results.services.settle import settle
from seeding.entries.models import Entry, Organisation
from seeding.entries.permissions import may_found
from seeding.entries.services.document import Document, Ground, load_ground, look_up
from seeding.journal.services import Call, Deed, act
from seeding.services.document import load_seeding


@act
def load_tournament(*, call: Call, organisation: Organisation, document: Document) -> Deed:
    """Write a checked tournament file into the tables as a new tournament of the organisation."""
    may_found(call, organisation.pk)
    ground = load_ground(call, organisation, document)
    load_seeding(call, ground, document)
    drawn = load_brackets(ground, document)
    weights = _results(call, drawn, document)
    _withdrawals(call, ground, weights, document)
    _adjustments(call, ground, document)
    for row in drawn.values():
        settle(row)
    subject = {"tournament": ground.tournament.pk}
    return Deed(ground.tournament.log_id, "tournament.loaded", subject)


def _results(call: Call, drawn: dict[str, Drawn], document: Document) -> dict[str, Weight]:
    weights = {key: Weight.of(row) for key, row in drawn.items()}
    rows = []
    for at, item in enumerate(document.get("results", ())):
        where = f"results[{at}]"
        weight = look_up(weights, item["weight_class"], f"{where}.weight_class")
        rows.append(weight.apply(call, item, where))
    Result.objects.bulk_create(rows, batch_size=200)
    return weights


def _withdrawals(
    call: Call, ground: Ground, weights: Mapping[str, Weight], document: Document
) -> None:
    for at, item in enumerate(document.get("withdrawals", ())):
        entry = look_up(ground.entries, item["entry"], f"withdrawals[{at}].entry")
        Withdrawal.objects.create(
            entry=entry,
            kind=item["kind"],
            behind=item.get("after") or _behind(weights, entry),
            reason=item.get("reason", ""),
            at=call.now,
            author_id=author(call),
        )


def _behind(weights: Mapping[str, Weight], entry: Entry) -> str:
    weight = weights.get(entry.weight_class.key)
    behind = weight.standing().behind(entry.key) if weight else None
    return str(behind) if behind else ""


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
            author_id=author(call),
        )
