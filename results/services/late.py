"""Late changes: the weigh-in applied, somebody taken out, a late entry, a swap, a redraw."""

import secrets
from collections.abc import Sequence
from copy import copy
from dataclasses import dataclass, replace
from datetime import datetime

from brackets.core.late import ChangeKind, LineChange, late_line
from brackets.models import Drawn
from brackets.queries import drawn as drawn_of
from brackets.queries import find_drawn
from results.core.late import Newcomer
from results.models import CutOff
from results.queries.late import Follows, usable_lines
from results.queries.weigh_in import Case, Chosen, chosen
from results.services.carrying import need_reason
from results.services.lines import lay_lines
from results.services.rehearsal import rehearsed, seen_through
from results.services.remedies import carry, clear, draw_anew, to_redraw
from seeding.entries.models import Division, Entry, Team, Tournament, WeightClass
from seeding.entries.permissions import Right, require
from seeding.entries.services.entry import Person, open_weight
from seeding.entries.services.weighing import bring_in
from seeding.journal.core.errors import Invalid, NotFound, Problem
from seeding.journal.services import Call, Deed, act, advance_version


@act
def apply_weigh_in(
    *, call: Call, tournament: Tournament, cases: Sequence[Case], reason: str = "", mark: str = ""
) -> Deed:
    """Do what was chosen for all whom the weigh-in leaves without their weight, in one step.

    `mark`: of the preview that was seen; refused where something else would follow now.
    Licensed medical staff and the local code decide whether anyone may wrestle.
    """
    require(call, tournament.pk, Right.DIRECT)
    if any(one.entry.tournament_id != tournament.pk for one in cases):
        raise NotFound(what="entry", name=tournament.slug)
    _take_out(call, cases, reason, mark)
    return Deed(tournament.log_id, "weigh-in.applied", _subject(cases))


@act
def take_out(*, call: Call, case: Case, reason: str = "", mark: str = "") -> Deed:
    """Do what was chosen for one entry, before, after the draw or during the event."""
    entry = case.entry
    require(call, entry.tournament_id, Right.DIRECT)
    advance_version(Entry.objects.filter(pk=entry.pk), call, "The entry")
    _take_out(call, [case], reason, mark)
    return Deed(entry.tournament.log_id, "entry.taken-out", _subject([case]))


def look_at_cases(call: Call, cases: Sequence[Case]) -> Follows:
    """What would follow from these choices."""
    for one in cases:
        require(call, one.entry.tournament_id, Right.DIRECT)
    found = _chosen(call, cases)
    anew = [one.label for one in to_redraw(found)]
    return rehearsed(_weights(found), lambda: carry(call, found, "-"), anew)


def _take_out(call: Call, cases: Sequence[Case], reason: str, mark: str) -> None:
    found = _chosen(call, cases)
    anew = to_redraw(found)
    if anew:
        need_reason(reason)
    labels = [one.label for one in anew]
    seen_through(_weights(found), lambda: carry(call, found, reason), mark, labels)
    for weight in anew:
        draw_anew(call, weight, reason)


def _chosen(call: Call, cases: Sequence[Case]) -> list[Chosen]:
    """Refuses where nobody is chosen, or somebody twice.

    Of rows of their own: what is carried out changes them, and may be taken back or refused.
    """
    if not cases or len({one.entry.pk for one in cases}) < len(cases):
        raise Invalid([Problem("", "Choose everybody once, and somebody at least.")])
    found: list[Chosen] = []
    problems: list[Problem] = []
    for one in cases:
        try:
            found.append(chosen(replace(one, entry=copy(one.entry)), call.now))
        except Invalid as refusal:
            problems += refusal.problems
    if problems:
        raise Invalid(problems)
    return found


def _weights(cases: Sequence[Chosen]) -> list[WeightClass]:
    found = {one.entry.weight_class_id: one.entry.weight_class for one in cases}
    found |= {one.weight.pk: one.weight for one in cases if one.weight}
    return sorted(found.values(), key=lambda one: one.position)


def _subject(cases: Sequence[Case]) -> dict[str, object]:
    entries = sorted(one.entry.pk for one in cases)
    weights = sorted({one.entry.weight_class_id for one in cases})
    return {"entries": entries, "weights": weights}


@dataclass(frozen=True, slots=True)
class LateEntry:
    """Who comes late, for which team, and onto what.

    `line`: a free line, from 1. Without one and without `redraw` the lot of `lot_seed` chooses.
    Before the draw none of it is needed.
    """

    team: Team
    person: Newcomer
    line: int | None = None
    lot_seed: str = ""
    redraw: bool = False


@act
def enter_late(
    *, call: Call, weight: WeightClass, late: LateEntry, reason: str = "", mark: str = ""
) -> Deed:
    """Enter somebody without a seed: before the draw plainly, after it onto a free line or with a
    redraw. A change after the draw needs a reason. The lot falls here, no preview tells it.
    """
    require(call, weight.tournament_id, Right.DIRECT)
    _at(call, weight)
    drawn = find_drawn(weight)
    if drawn:
        need_reason(reason)
    came: list[Entry] = []
    labels = [weight.label] if drawn and late.redraw else []
    seen_through([weight], lambda: came.append(_enter(call, weight, late, reason)), mark, labels)
    if drawn and late.redraw:
        draw_anew(call, weight, reason, late.lot_seed)
    elif drawn and late.line is None:
        _by_lot(call, drawn, came[0], late.lot_seed, reason)
    subject = {"entry": came[0].pk, "weight": weight.pk}
    return Deed(weight.tournament.log_id, "entry.came-late", subject)


def look_at_late_entry(call: Call, weight: WeightClass, late: LateEntry) -> Follows:
    """What would follow from a late entry, but for the lot."""
    require(call, weight.tournament_id, Right.DIRECT)
    drawn = find_drawn(weight)
    if drawn and late.line is None and not late.redraw:
        late_line(usable_lines(drawn), weight.key, "")
    anew = [weight.label] if late.redraw and drawn else []
    return rehearsed([weight], lambda: _enter(call, weight, late, "-"), anew)


def _enter(call: Call, weight: WeightClass, late: LateEntry, reason: str) -> Entry:
    """Bring him in as far as no lot is needed."""
    drawn = find_drawn(weight)
    if drawn and late.redraw:
        _clear(call, weight, reason)
    if drawn is None or late.redraw:
        open_weight(weight)
    came = bring_in(weight, late.team, Person(late.person.given, late.person.family))
    if drawn and late.line and not late.redraw:
        change = LineChange(ChangeKind.FILLED, (late.line,), came=came.key)
        lay_lines(call, drawn, change, reason)
    return came


def _by_lot(call: Call, drawn: Drawn, came: Entry, lot_seed: str, reason: str) -> None:
    """Onto one of the free lines that can be had, from a seed that is recorded."""
    seed, among = lot_seed or secrets.token_hex(16), usable_lines(drawn)
    line = late_line(among, drawn.weight_class.key, seed)
    change = LineChange(ChangeKind.FILLED, (line,), came=came.key, among=among, lot_seed=seed)
    lay_lines(call, drawn, change, reason)


@act
def swap_lines(
    *, call: Call, weight: WeightClass, lines: tuple[int, int], reason: str, mark: str = ""
) -> Deed:
    """Let two lines of a weight change places while nobody on them has a result."""
    require(call, weight.tournament_id, Right.DIRECT)
    _at(call, weight)
    need_reason(reason)
    seen_through([weight], lambda: _swap(call, weight, lines, reason), mark)
    subject = {"weight": weight.pk, "lines": list(lines)}
    return Deed(weight.tournament.log_id, "lines.swapped", subject)


def look_at_swap(call: Call, weight: WeightClass, lines: tuple[int, int]) -> Follows:
    """What would follow from a swap."""
    require(call, weight.tournament_id, Right.DIRECT)
    return rehearsed([weight], lambda: _swap(call, weight, lines, "-"))


def _swap(call: Call, weight: WeightClass, lines: tuple[int, int], reason: str) -> None:
    lay_lines(call, drawn_of(weight), LineChange(ChangeKind.SWAPPED, lines), reason)


@act
def redraw(
    *, call: Call, weight: WeightClass, reason: str, lot_seed: str = "", mark: str = ""
) -> Deed:
    """Take a draw back of which nothing is wrestled, and draw again, in one step.

    Who is out stays out. A committed draw gives the next seed of the weight.
    """
    require(call, weight.tournament_id, Right.DIRECT)
    _at(call, weight)
    need_reason(reason)
    seen_through([weight], lambda: _clear(call, weight, reason), mark, [weight.label])
    draw_anew(call, weight, reason, lot_seed)
    return Deed(weight.tournament.log_id, "weight.redrawn", {"weight": weight.pk})


def look_at_redraw(call: Call, weight: WeightClass) -> Follows:
    """What would follow from a redraw, but for the lot."""
    require(call, weight.tournament_id, Right.DIRECT)
    return rehearsed([weight], lambda: _clear(call, weight, "-"), [weight.label])


def _clear(call: Call, weight: WeightClass, reason: str) -> None:
    clear(Call(call.actor, call.now), weight, reason)


def _at(call: Call, weight: WeightClass) -> None:
    advance_version(WeightClass.objects.filter(pk=weight.pk), call, f"Weight {weight.label}")


@act
def set_cut_off(
    *, call: Call, tournament: Tournament, division: Division | None, at: datetime | None
) -> Deed:
    """State from when on an empty place is a forfeit, for all divisions or one; None: nothing."""
    require(call, tournament.pk, Right.DIRECT)
    rows = CutOff.objects.filter(tournament=tournament, division=division)
    if at is None:
        rows.delete()
    else:
        rows.update_or_create(tournament=tournament, division=division, defaults={"at": at})
    subject = {"division": division.pk} if division else {"tournament": tournament.pk}
    return Deed(tournament.log_id, "cut-off.set", subject)
