"""Rulings and void bouts of a tournament file."""

from collections.abc import Mapping
from datetime import datetime

from brackets.core.rulings import Ruling as Value
from brackets.core.rulings import RulingKind
from brackets.core.sources import BoutKey
from results.core.rulings import bouts_named, entries_named, read_ruling
from results.models import Ruling, VoidBout, ended
from results.services.replayed import Weight, outcome_between, wrong
from seeding.entries.models import Entry, Tournament, User
from seeding.entries.services.document import Document, Ground, look_up
from seeding.journal.services import Call

Weights = Mapping[str, Weight]


def load_rulings(call: Call, weights: Weights, document: Document) -> None:
    """Write the rulings down in their order; each is in force for every result of the file."""
    for at, item in enumerate(document.get("rulings", ())):
        where = f"rulings[{at}]"
        weight = look_up(weights, item["weight_class"], f"{where}.weight_class")
        value = read_ruling(RulingKind(item["kind"]), item)
        _check(weight, value, where)
        weight.rulings.append(value)
        row = Ruling.of(weight.drawn, value)
        row.reason, row.author = item["reason"], _user(item.get("author"))
        row.at = datetime.fromisoformat(item["at"]) if "at" in item else call.now
        row.save()


def _check(weight: Weight, value: Value, where: str) -> None:
    known = set(
        Entry.objects.filter(weight_class_id=weight.drawn.weight_class_id).values_list(
            "key", flat=True
        )
    )
    if strange := [entry for entry in entries_named(value) if entry not in known]:
        raise wrong(where, f"{', '.join(strange)}: no entry of this weight.")
    if strange_bouts := [str(key) for key in bouts_named(value) if key not in weight.rows]:
        raise wrong(where, f"{', '.join(strange_bouts)}: no bout of this weight.")


def load_void_bouts(call: Call, ground: Ground, weights: Weights, document: Document) -> None:
    """Write the void bouts down; their numbers are never given again."""
    highest = 0
    for at, item in enumerate(document.get("void_bouts", ())):
        where = f"void_bouts[{at}]"
        weight = look_up(weights, item["weight_class"], f"{where}.weight_class")
        key = BoutKey(item["round"], item["position"])
        if key not in weight.rows:
            raise wrong(where, f"“{key}” is no bout of this weight.")
        sides = [look_up(ground.entries, one, f"{where}.sides") for one in item["sides"]]
        highest = max(highest, item.get("number") or 0)
        VoidBout.objects.create(
            bout=weight.rows[key],
            number=item.get("number"),
            mat=item.get("mat", ""),
            top=sides[0],
            bottom=sides[1],
            reason=item["reason"],
            voided_at=_moment(item, "voided_at", call),
            voided_by=_user(item.get("voided_by")),
            occurred_at=_moment(item, "occurred_at", call),
            received_at=_moment(item, "occurred_at", call),
            **ended(outcome_between(item["sides"], item)),
        )
    of = Tournament.objects.filter(pk=ground.tournament.pk, last_number__lt=highest)
    of.update(last_number=highest)


def _moment(item: Document, name: str, call: Call) -> datetime:
    return datetime.fromisoformat(item[name]) if name in item else call.now


def _user(name: str | None) -> User | None:
    return User.objects.filter(username=name).first() if name else None
