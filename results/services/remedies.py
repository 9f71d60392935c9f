"""Carrying out what was chosen for entries that do not wrestle where they were entered."""

from collections.abc import Callable, Mapping, Sequence

from django.db.models import F

from brackets.core.late import ChangeKind, LineChange
from brackets.models import Drawn
from brackets.queries import drawn as drawn_of
from brackets.queries import find_drawn
from brackets.services import make_draw, reveal_when_drawn
from brackets.services.number import number_on
from results.core.late import Remedy
from results.models import Withdrawal
from results.queries.weigh_in import Chosen
from results.services.draw import undo
from results.services.lines import lay_lines
from results.services.settle import settle
from results.services.withdraw import leave
from seeding.entries.core.errors import TakenName
from seeding.entries.models import Entry, WeightClass
from seeding.entries.services.entry import Person, open_weight, take_from_field
from seeding.entries.services.weighing import bring_in
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call
from seeding.services.alternates import inherit, let_in

NOT_IN_A_REDRAW = (Remedy.BYE, Remedy.FORFEIT, Remedy.WITHDRAW)


def carry(call: Call, cases: Sequence[Chosen], reason: str) -> None:
    """Do what was chosen for every entry; weights that are redrawn wait undrawn for their lot.

    In such a weight the rest is done as before a draw.
    """
    inner = Call(call.actor, call.now)
    redrawn = {one.pk: one for one in to_redraw(cases)}
    if problems := _mixed(cases, redrawn):
        raise Invalid(problems)
    for weight in redrawn.values():
        clear(inner, weight, reason)
    for case in sorted(cases, key=lambda one: one.entry.pk):
        DO[case.remedy](inner, case, reason)


def to_redraw(cases: Sequence[Chosen]) -> list[WeightClass]:
    """The weights that are drawn anew."""
    found = {
        one.entry.weight_class_id: one.entry.weight_class
        for one in cases
        if one.remedy is Remedy.REDRAW
    }
    return [found[pk] for pk in sorted(found)]


def _mixed(cases: Sequence[Chosen], redrawn: Mapping[int, WeightClass]) -> list[Problem]:
    return [
        Problem(
            f"{one.entry.key}.remedy",
            f"{one.entry.weight_class.label} is drawn anew: choose redraw, or who comes instead.",
        )
        for one in cases
        if one.entry.weight_class_id in redrawn and one.remedy in NOT_IN_A_REDRAW
    ]


def clear(call: Call, weight: WeightClass, reason: str) -> None:
    """Take a draw back for a new one; who is out of the weight is out of the new draw too."""
    out = Withdrawal.objects.filter(entry__weight_class=weight)
    left = [row.entry for row in out.select_related("entry__weight_class").order_by("entry")]
    undo(call, weight, reason)
    for entry in left:
        take_from_field(call, entry)


def draw_anew(call: Call, weight: WeightClass, reason: str, lot_seed: str = "") -> None:
    """Draw a cleared weight again, with the reason beside the new draw; numbered if others are."""
    weight.refresh_from_db()
    made = make_draw(Call(call.actor, call.now), weight, lot_seed)
    Drawn.objects.filter(pk=made.pk).update(anew_because=reason.strip())
    settle(made)
    if weight.tournament.last_number:
        number_on(made)
    reveal_when_drawn(call, weight.tournament)


def _scratch(call: Call, case: Chosen, reason: str) -> None:
    take_from_field(call, case.entry)
    _touched(case.entry)


def _other_weight(call: Call, case: Chosen, reason: str) -> None:
    entry, weight = case.entry, case.weight
    if weight is None:
        raise TypeError(case)
    take_from_field(call, entry)
    _touched(entry)
    open_weight(weight)
    name = Person(entry.wrestler.given, entry.wrestler.family, entry.wrestler.home)
    more = {
        "scoring": entry.scoring,
        "publish": entry.publish,
        "weigh_in": Entry.WeighIn.MADE,
    }
    bring_in(weight, entry.team, name, more)


def _substitute(call: Call, case: Chosen, reason: str) -> None:
    entry, person = case.entry, case.person
    if person is None:
        raise TypeError(case)
    drawn = find_drawn(entry.weight_class)
    _out(call, entry, drawn)
    more = {"scoring": entry.scoring}
    came = bring_in(entry.weight_class, entry.team, Person(person.given, person.family), more)
    if came.pk == entry.pk:
        raise TakenName(what=f"wrestler at {entry.weight_class.label}", name=entry.wrestler.name)
    inherit(call, entry, came)
    if drawn:
        _stand_for(call, drawn, entry, came, reason)


def _alternate(call: Call, case: Chosen, reason: str) -> None:
    drawn = find_drawn(case.entry.weight_class)
    _out(call, case.entry, drawn)
    came = let_in(call, case.entry)
    if drawn:
        _stand_for(call, drawn, case.entry, came, reason)


def _stand_for(call: Call, drawn: Drawn, gone: Entry, came: Entry, reason: str) -> None:
    change = LineChange(ChangeKind.REPLACED, gone=gone.key, came=came.key)
    lay_lines(call, drawn, change, reason)


def _bye(call: Call, case: Chosen, reason: str) -> None:
    drawn = drawn_of(case.entry.weight_class)
    _out(call, case.entry, drawn)
    lay_lines(call, drawn, LineChange(ChangeKind.EMPTIED, gone=case.entry.key), reason)


def _forfeit(call: Call, case: Chosen, reason: str) -> None:
    leave(call, case.entry, Withdrawal.Kind.ABSENT, reason)
    _touched(case.entry)


def _withdraw(call: Call, case: Chosen, reason: str) -> None:
    leave(call, case.entry, case.kind, reason)
    _touched(case.entry)


def _out(call: Call, entry: Entry, drawn: Drawn | None) -> None:
    """Out of the field; of a drawn weight the seeds of the others stand."""
    if drawn is None:
        take_from_field(call, entry)
    else:
        Entry.objects.filter(pk=entry.pk).update(status=Entry.Status.SCRATCHED)
    _touched(entry)
    entry.refresh_from_db()


def _touched(entry: Entry) -> None:
    Entry.objects.filter(pk=entry.pk).update(version=F("version") + 1)


DO: Mapping[Remedy, Callable[[Call, Chosen, str], None]] = {
    Remedy.SCRATCH: _scratch,
    Remedy.OTHER_WEIGHT: _other_weight,
    Remedy.SUBSTITUTE: _substitute,
    Remedy.ALTERNATE: _alternate,
    Remedy.BYE: _bye,
    Remedy.FORFEIT: _forfeit,
    Remedy.REDRAW: _scratch,
    Remedy.WITHDRAW: _withdraw,
}
