"""Late changes: who is concerned, what can be done, and what differs when it is done."""

import hashlib
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from copy import copy
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal

from django.db.models import Q, Sum
from django.utils.translation import gettext as _

from brackets.core.errors import BoutNotReady
from brackets.core.late import ChangeKind, LineChange, changed, free_lines, way_up
from brackets.core.rulings import SeatRuling
from brackets.core.standing import Standing
from brackets.models import Bout, Drawn, Placing
from brackets.queries import bracket, line_up
from results.models import LedgerPart, Result, VoidBout
from results.queries.facts import Facts, facts
from results.queries.figures import plain
from results.queries.leavers import leavers
from results.queries.standing import standing_of
from seeding.entries.models import Entry, Team, WeightClass
from seeding.journal.core.chain import canonical


@dataclass(frozen=True, slots=True)
class Moved:
    """Something that changes, in words; "" is nothing or nobody."""

    weight: str
    what: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Follows:
    """What follows from a change. `anew`: weights that are drawn anew by lot afterwards.

    `mark` stands for all of it: two previews that say the same have the same.
    """

    field: tuple[Moved, ...]
    seeds: tuple[Moved, ...]
    lines: tuple[Moved, ...]
    bouts: tuple[Moved, ...]
    places: tuple[Moved, ...]
    teams: tuple[Moved, ...]
    anew: tuple[str, ...] = ()
    mark: str = ""

    @property
    def nothing(self) -> bool:
        return not any((self.field, self.seeds, self.lines, self.bouts, self.anew))


@dataclass(frozen=True, slots=True)
class Picture:
    """A weight as it stands, in words: persons by name and team.

    `bouts`: by round and position the bout's name, who stands in it, and whether it is settled.
    """

    weight: str
    field: Mapping[str, str]
    seeds: Mapping[str, str]
    lines: Mapping[str, str]
    bouts: Mapping[str, str]
    places: Mapping[str, str]
    teams: Mapping[str, str]


def pictures(weights: Iterable[WeightClass]) -> tuple[Picture, ...]:
    """The weights as they stand in the tables now."""
    return tuple(_picture(weight) for weight in weights)


def _picture(weight: WeightClass) -> Picture:
    rows = Entry.objects.filter(weight_class=weight).select_related("wrestler", "team")
    entries = list(rows.order_by("wrestler__family", "wrestler__given", "pk"))
    left = leavers(row.pk for row in entries)
    names = {row.pk: named(row) for row in entries}
    drawn = Drawn.objects.filter(weight_class=weight).first()
    return Picture(
        weight=weight.label,
        field={names[row.pk]: _standing(row, left) for row in entries},
        seeds={
            names[row.pk]: str(row.seed or "")
            for row in entries
            if row.status == Entry.Status.ENTERED
        },
        lines=dict(_lines(drawn, {row.key: names[row.pk] for row in entries})),
        bouts=dict(_bouts(drawn, names, left)),
        places=dict(_places(drawn, names)),
        teams=dict(_teams(weight)),
    )


def named(row: Entry) -> str:
    """An entry by name and team; two of one name in one team by the team of their season too."""
    home = row.wrestler.home
    of = f"{row.team.short}, {home}" if home not in ("", row.team.name) else row.team.short
    return f"{row.wrestler.name} ({of})"


def _standing(row: Entry, left: Mapping[int, str]) -> str:
    if row.pk in left:
        return _("out: %(why)s") % {"why": left[row.pk]}
    return str(Entry.Status(row.status).label)


def _lines(drawn: Drawn | None, names: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    for at, line in enumerate(line_up(drawn.lines) if drawn else (), start=1):
        keys = line if isinstance(line, tuple) else (line,)
        yield str(at), " / ".join(names[key] for key in keys if key)


def _bouts(
    drawn: Drawn | None, names: Mapping[int, str], left: Collection[int]
) -> Iterator[tuple[str, str]]:
    status = Bout.Status
    for row in Bout.objects.filter(drawn=drawn).order_by("column", "position"):
        called = str(row.key) if row.number is None else f"{row.number} ({row.key})"
        sides = [names[pk] for pk in (row.top_id, row.bottom_id) if pk]
        if row.status in (status.VACANT, status.SPARED) or not sides:
            continue
        told = " - ".join(sides)
        if row.status == status.BYE:
            told = f"{told}: {status(row.status).label}"
        elif row.winner_id:
            told = f"{told}: {names[row.winner_id]}"
        elif row.status == status.WAITING and (row.top_id in left or row.bottom_id in left):
            told = _("%(names)s: will be a forfeit") % {"names": told}
        yield called, told


def _places(drawn: Drawn | None, names: Mapping[int, str]) -> Iterator[tuple[str, str]]:
    for row in Placing.objects.filter(drawn=drawn):
        yield names[row.entry_id], str(row.place)


def _teams(weight: WeightClass) -> Iterator[tuple[str, str]]:
    rows = LedgerPart.objects.filter(weight_class=weight).order_by()
    sums = dict(rows.values_list("entry__team").annotate(sum=Sum("points")))
    for team in Team.objects.filter(pk__in=sums).order_by("name"):
        yield team.name, plain(Decimal(sums[team.pk]))


def follows(
    before: Sequence[Picture], after: Sequence[Picture], anew: Sequence[str] = ()
) -> Follows:
    """What differs between two pictures of the same weights."""
    pairs = list(zip(before, after, strict=True))
    found = Follows(
        field=tuple(_moved(pairs, "field")),
        seeds=tuple(_moved(pairs, "seeds")),
        lines=tuple(_moved(pairs, "lines")),
        bouts=tuple(_moved(pairs, "bouts")),
        places=tuple(_moved(pairs, "places")),
        teams=tuple(_moved(pairs, "teams")),
        anew=tuple(anew),
    )
    return replace(found, mark=_mark(found))


def _moved(pairs: Iterable[tuple[Picture, Picture]], part: str) -> Iterator[Moved]:
    for before, after in pairs:
        old: Mapping[str, str] = getattr(before, part)
        new: Mapping[str, str] = getattr(after, part)
        for what in {**old, **new}:
            if old.get(what, "") != new.get(what, ""):
                yield Moved(before.weight, what, old.get(what, ""), new.get(what, ""))


def _mark(found: Follows) -> str:
    parts = (
        *(found.field, found.seeds, found.lines, found.bouts),
        *(found.places, found.teams),
    )
    rows = [[[one.weight, one.what, one.before, one.after] for one in part] for part in parts]
    return hashlib.sha256(canonical([rows, list(found.anew)]).encode()).hexdigest()[:16]


def wrestled(entries: Iterable[Entry]) -> list[Bout]:
    """The bouts of these entries that have a result or are void, in the order of their numbers."""
    pks = [one.pk for one in entries]
    own = Q(bout__top__in=pks) | Q(bout__bottom__in=pks)
    void = Q(top__in=pks) | Q(bottom__in=pks)
    bouts = {
        *Result.objects.filter(own).values_list("bout", flat=True),
        *VoidBout.objects.filter(void).values_list("bout", flat=True),
    }
    return list(Bout.objects.filter(pk__in=bouts).order_by("number", "column", "position"))


def usable_lines(drawn: Drawn) -> tuple[int, ...]:
    """The free lines that somebody could still come onto without touching what was wrestled."""
    known = facts(drawn)
    before = standing_of(drawn, known)
    return tuple(
        at
        for at in free_lines(line_up(drawn.lines))
        if not led_elsewhere(drawn, known, at) and _holds(drawn, known, before, at)
    )


def led_elsewhere(drawn: Drawn, known: Facts, line: int) -> bool:
    """Whether a ruling has given away a seat to which wins from a line lead."""
    ruled = {
        seating.way for one in known.rulings if isinstance(one, SeatRuling) for seating in one.ways
    }
    return any(seat in ruled for seat in way_up(bracket(drawn), line))


def _holds(drawn: Drawn, known: Facts, before: Standing, line: int) -> bool:
    other = copy(drawn)
    change = LineChange(ChangeKind.FILLED, (line,), came="late")
    other.lines = list(changed(line_up(drawn.lines), change))
    try:
        after = standing_of(other, known)
    except BoutNotReady:
        return False
    return all(after.bouts[key].sides == before.bouts[key].sides for key in known.outcomes)


def is_past(cut_off: datetime | None, now: datetime) -> bool:
    """Whether the stated cut-off is over; exactly at the stated time it is not."""
    return cut_off is not None and now > cut_off
