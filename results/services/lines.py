"""Changing the lines of a drawn weight without losing anything that was wrestled."""

from collections.abc import Mapping
from dataclasses import replace

from django.db.models import ProtectedError

from brackets.core.errors import BoutNotReady
from brackets.core.late import ChangeKind, LineChange, line_of
from brackets.models import Bout, Drawn
from brackets.queries import line_up
from brackets.services import change_lines, lock_bracket
from results.core.errors import BoutsStand, HasWrestled, LeftBehindByes, RulingNames
from results.core.rulings import entries_named
from results.models import LedgerPart, Result, Ruling, VoidBout, Withdrawal
from results.queries.facts import facts
from results.queries.late import led_elsewhere, wrestled
from results.services.settle import settle
from seeding.entries.models import Entry
from seeding.journal.services import Call

Sides = Mapping[int, tuple[int | None, int | None]]


def lay_lines(call: Call, drawn: Drawn, change: LineChange, reason: str) -> None:
    """Change lines inside a greater act and settle the weight.

    Refuses, by name, where anybody on these lines has a result, where a bout with a result would
    have other sides or none, and where a ruling stands on the lines as they are.
    """
    lock_bracket(drawn)
    if change.gone:
        change = replace(change, lines=(line_of(line_up(drawn.lines), change.gone),))
    _nobody_wrestled(drawn, change)
    if change.kind is ChangeKind.FILLED and led_elsewhere(drawn, facts(drawn), change.lines[0]):
        raise RulingNames(weight=drawn.weight_class.label)
    before = _sides(drawn)
    keys = {row.key for row in Bout.objects.filter(drawn=drawn)}
    LedgerPart.objects.filter(weight_class_id=drawn.weight_class_id).delete()
    try:
        fresh = change_lines(call, drawn, change, reason)
        gone = keys - {row.key for row in Bout.objects.filter(drawn=drawn)}
        _known_elsewhere(drawn, {str(key) for key in gone})
        settle(fresh)
    except (BoutNotReady, ProtectedError) as error:
        raise BoutsStand(weight=drawn.weight_class.label, bouts=_named(list(before))) from error
    after = _sides(drawn)
    if moved := [pk for pk in before if before[pk] != after.get(pk)]:
        raise BoutsStand(weight=drawn.weight_class.label, bouts=_named(moved))


def standing_on(drawn: Drawn, change: LineChange) -> list[Entry]:
    """The entries that a change moves, who are in the bracket already."""
    keys = {change.gone} if change.gone else set()
    for number in change.lines if change.kind is ChangeKind.SWAPPED else ():
        if 1 <= number <= len(drawn.lines):
            line = drawn.lines[number - 1]
            keys |= set(line) if isinstance(line, list) else {line}
    rows = Entry.objects.filter(weight_class_id=drawn.weight_class_id, key__in=keys - {None})
    return list(rows.select_related("wrestler").order_by("wrestler__family", "pk"))


def _nobody_wrestled(drawn: Drawn, change: LineChange) -> None:
    people = standing_on(drawn, change)
    for one in people:
        if bouts := wrestled([one]):
            raise HasWrestled(who=one.wrestler.name, bouts=_named([row.pk for row in bouts]))
    gone = Withdrawal.objects.filter(entry__in=people).exclude(behind="")
    if left := gone.select_related("entry__wrestler").first():
        raise LeftBehindByes(who=left.entry.wrestler.name)
    keys = {one.key for one in people}
    for row in Ruling.objects.filter(drawn=drawn):
        if keys & set(entries_named(row.value)):
            raise RulingNames(weight=drawn.weight_class.label)


def _known_elsewhere(drawn: Drawn, gone: set[str]) -> None:
    """Refuse where bouts would go that a ruling or a withdrawal speaks of."""
    if not gone:
        return
    behind = Withdrawal.objects.filter(
        entry__weight_class_id=drawn.weight_class_id, behind__in=gone
    )
    if behind.exists() or Ruling.objects.filter(drawn=drawn).exists():
        raise RulingNames(weight=drawn.weight_class.label)


def _sides(drawn: Drawn) -> Sides:
    """Who stands in the bouts that were wrestled; a void bout keeps its own two on record."""
    results = Result.objects.filter(bout__drawn=drawn)
    found = results.values_list("bout", "bout__top", "bout__bottom")
    void = VoidBout.objects.filter(bout__drawn=drawn).values_list("bout", flat=True)
    return dict.fromkeys(void, (None, None)) | {pk: (top, low) for pk, top, low in found}


def _named(bouts: list[int]) -> str:
    rows = Bout.objects.filter(pk__in=bouts).order_by("number", "column", "position")
    return ", ".join(str(row.number or row.key) for row in rows)
