"""The brackets of a tournament file, written into the tables."""

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any

from django.db.models import QuerySet

from brackets.models import Bout, Drawn
from brackets.queries import crossings_of, line_up
from brackets.queries.commitment import commitment_of
from brackets.queries.draw_file import DrawFile
from brackets.services.draw import lay, set_lines
from brackets.services.lines import load_changes
from brackets.services.number import give_numbers, last_number
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.queries.groups import is_waiting
from seeding.entries.services.document import Document, Ground, look_up
from seeding.journal.core.errors import Invalid, Problem


def load_brackets(ground: Ground, document: Document) -> dict[str, Drawn]:
    """Draw or restore every weight, then number the bouts; returns the brackets by weight.

    Where the file has no `brackets` at all, every weight with two entries or more is drawn from
    its seeds, the rest by lot; otherwise only the weights listed are drawn.
    """
    given = document.get("brackets")
    wanted: dict[str, Document]
    if given is None:
        wanted = {
            key: {}
            for key, row in ground.weights.items()
            if _field(row).count() > 1 and not is_waiting(row)
        }
    else:
        wanted = {item["weight_class"]: item for item in given}
    drawn, file = {}, DrawFile(document)
    for at, (key, item) in enumerate(wanted.items()):
        weight = look_up(ground.weights, key, f"brackets[{at}].weight_class")
        drawn[key] = _restore(weight, file, item, f"brackets[{at}]")
    give_numbers(ground.tournament)
    _restore_numbers(drawn, document.get("bouts", ()))
    highest = last_number(ground.tournament, fresh=True)
    Tournament.objects.filter(pk=ground.tournament.pk).update(last_number=highest)
    return drawn


def _restore(weight: WeightClass, file: DrawFile, item: Document, where: str) -> Drawn:
    lot_seed = item.get("draw", {}).get("seed") or f"{weight.tournament.slug}/{weight.key}"
    if "lines" in item:
        lines, kept = line_up(item["lines"]), _told(weight, file, item)
    else:
        laid = lay(weight, lot_seed)
        lines, kept = laid.draw.lines, laid.kept
    for name in ("lines", "drawn_lines"):
        _check_lines(weight, line_up(item.get(name, ())), f"{where}.{name}")
    WeightClass.objects.filter(pk=weight.pk).update(locked=True)
    made = set_lines(weight, lines, lot_seed, kept)
    _check_crossings(made, item.get("crossings"), f"{where}.crossings")
    load_changes(made, item.get("line_changes", ()), f"{where}.line_changes")
    return made


def _check_crossings(made: Drawn, given: object, where: str) -> None:
    if given is not None and given != (used := crossings_of(made)):
        hint = f"By the rule book of this division they are {used}; correct it, or leave this out."
        raise Invalid([Problem(where, hint)])


def _told(weight: WeightClass, file: DrawFile, item: Document) -> dict[str, object]:
    """What the file says of a draw; that it comes to these lines is for `verify_draw`."""
    told = item.get("draw", {})
    made = commitment_of(weight.tournament)
    found: dict[str, object] = {
        "committed": made is not None and told.get("commitment") == made.digest,
        "number": told.get("number", 1),
        "anew_because": told.get("anew_because", ""),
        "drawn_at": datetime.fromisoformat(told["at"]) if "at" in told else None,
    }
    if "drawn_lines" in item:
        found["drawn_lines"] = item["drawn_lines"]
    if "draw_version" not in told:
        return found
    return found | {
        "draw_version": told["draw_version"],
        "basis": file.basis(weight.key).overlaid(told.get("as_drawn", {})).plain(),
        "parting": {"kept": told.get("kept", []), "patterns": told.get("patterns", "0")},
    }


def _check_lines(weight: WeightClass, lines: Iterable[Any], where: str) -> None:
    known = set(Entry.objects.filter(weight_class=weight).values_list("key", flat=True))
    named = [one for line in lines if line for one in (line if isinstance(line, tuple) else [line])]
    strange = [one for one in named if one not in known]
    if strange:
        hint = f"{', '.join(strange)}: no entry of weight {weight.label}."
        raise Invalid([Problem(where, hint)])


def _field(weight: WeightClass) -> QuerySet[Entry]:
    return Entry.objects.filter(weight_class=weight, status=Entry.Status.ENTERED)


def _refuse_twice(items: Iterable[Mapping[str, Any]]) -> None:
    seen: set[int] = set()
    for at, item in enumerate(items):
        number = item.get("number")
        if number in seen:
            raise Invalid([Problem(f"bouts[{at}].number", f"There are two bouts {number}.")])
        seen |= {number} if number else set()


def _restore_numbers(drawn: Mapping[str, Drawn], items: Iterable[Mapping[str, Any]]) -> None:
    given = {(item["weight_class"], item["round"], item["position"]): item for item in items}
    if not given:
        return
    _refuse_twice(items)
    changed = []
    for key, row in drawn.items():
        for bout in Bout.objects.filter(drawn=row):
            item = given.get((key, bout.round, bout.position))
            bout.number = item.get("number") if item else None
            bout.mat = item.get("mat", "") if item else ""
            changed.append(bout)
    Bout.objects.bulk_update(changed, ["number", "mat"], batch_size=200)
