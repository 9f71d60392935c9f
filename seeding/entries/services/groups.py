"""Divisions without fixed weights: what was weighed, and the groups that are formed of it."""

import re
from collections.abc import Mapping
from dataclasses import astuple, dataclass
from decimal import Decimal

from django.db.models import F
from django.utils.crypto import salted_hmac

from seeding.entries.core.errors import NothingToGroup, StillUsed
from seeding.entries.core.group_rules import Formed
from seeding.entries.models import Division, Entry, Measured, WeightClass
from seeding.entries.permissions import Right, require
from seeding.entries.queries.groups import (
    WAITING,
    Member,
    fixed_weights,
    proposed,
    waiting_key,
    waiting_of,
)
from seeding.entries.services.division import light_to_heavy, new_weight, set_settings
from seeding.entries.services.entry import open_weight
from seeding.journal.core.errors import Invalid, NotFound, Problem, Stale
from seeding.journal.services import Call, Deed, act

FORMED = "weights.groups.formed"
NUMBERED = re.compile(r"Group (\d+)")


@dataclass(frozen=True, slots=True, repr=False)
class Figures:
    """What was measured of one entry; `seen`: the version before the person's eyes, if known."""

    weight: Decimal | None
    age: int | None
    experience: int | None
    seen: int | None = None

    def __repr__(self) -> str:
        """Names the figures under the machine's secret: a log of arguments tells nobody them."""
        return salted_hmac("measured", str(astuple(self)), algorithm="sha256").hexdigest()


@act
def start_groups(*, call: Call, division: Division) -> Deed:
    """Let a division without weights form groups after weigh-in; entrants wait in one weight."""
    require(call, division.tournament_id, Right.DIRECT)
    if fixed := fixed_weights(division):
        users = "fixed weight" if fixed == 1 else "fixed weights"
        raise StillUsed(what="Division", name=division.name, count=fixed, users=users)
    key = waiting_key(division)
    set_settings(division, {**division.settings, FORMED: Formed.AFTER_WEIGH_IN.value})
    if not division.weights.filter(key=key).exists():
        new_weight(Division.objects.get(pk=division.pk), WAITING, key=key)
        light_to_heavy(division.tournament)
    return Deed(division.tournament.log_id, "groups.started", {"division": division.pk})


@act
def measure(*, call: Call, division: Division, figures: Mapping[str, Figures]) -> Deed:
    """Record what was weighed, by the key of the entry; who has a weight has been weighed in.

    Licensed medical staff and the local code decide whether anyone may wrestle.
    """
    require(call, division.tournament_id, Right.DIRECT)
    waiting_of(division)
    if problems := [one for key, said in figures.items() for one in _problems(key, said)]:
        raise Invalid(problems)
    rows = {row.key: row for row in Entry.objects.filter(weight_class__division=division)}
    for key, said in figures.items():
        if key not in rows:
            raise NotFound(what="entry", name=key)
        write_figures(call, rows[key], said)
    written = sorted(rows[key].pk for key in figures)
    subject = {"division": division.pk, "entries": written}
    return Deed(division.tournament.log_id, "entries.measured", subject)


def _problems(key: str, said: Figures) -> list[Problem]:
    found = []
    if said.weight is not None and not 0 < said.weight < 1000:
        found.append(Problem(f"{key}.weight", "A weight is more than 0 and less than 1000."))
    for name, years in (("age", said.age), ("experience", said.experience)):
        if years is not None and not 0 <= years < 99:
            found.append(Problem(f"{key}.{name}", "Whole years from 0 to 98."))
    return found


def write_figures(call: Call, entry: Entry, said: Figures) -> None:
    """What was measured of one entry, inside an act."""
    known = Measured.objects.filter(entry=entry)
    version = known.values_list("version", flat=True).first() or 0
    if said.seen not in (None, version):
        raise Stale(what=f"The weigh-in of {entry.key}")
    values = {name: getattr(said, name) for name in ("weight", "age", "experience")}
    values |= {"at": call.now, "by_id": call.author}
    if not version:
        Measured.objects.create(entry=entry, **values)
    elif not known.filter(version=version).update(version=F("version") + 1, **values):
        raise Stale(what=f"The weigh-in of {entry.key}")
    _weighed(entry, made=said.weight is not None)


def _weighed(entry: Entry, *, made: bool) -> None:
    rows = Entry.objects.filter(pk=entry.pk)
    rows = rows.exclude(weigh_in="made") if made else rows.filter(weigh_in="made")
    state = Entry.WeighIn.MADE if made else Entry.WeighIn.NOT_YET
    rows.update(weigh_in=state, version=F("version") + 1)


@act
def form_groups(*, call: Call, division: Division, shown: str = "") -> Deed:
    """Make groups of those who wait; `shown`: the digest of the preview that was looked at.

    Who fits nowhere goes on waiting.
    """
    require(call, division.tournament_id, Right.DIRECT)
    open_weight(waiting_of(division))
    found = proposed(division)
    if shown and shown != found.digest:
        raise Stale(what="The weigh-in of the division")
    if not found.groups:
        raise NothingToGroup(division=division.name)
    made = [new_group(division, group).pk for group in found.groups]
    light_to_heavy(division.tournament)
    subject = {"division": division.pk, "weights": made}
    return Deed(division.tournament.log_id, "groups.formed", subject)


def new_group(division: Division, people: tuple[Member, ...]) -> WeightClass:
    """A weight named by the next number, with these in it; the name says no figure."""
    labels = division.weights.values_list("label", flat=True)
    numbers = [int(found[1]) for label in labels if (found := NUMBERED.fullmatch(label))]
    made = new_weight(division, f"Group {max(numbers, default=0) + 1}")
    put_into(made, [one.entry.pk for one in people])
    return made


def put_into(group: WeightClass, entries: list[int]) -> None:
    """Move entries to a group; the seeds that they had elsewhere lapse."""
    rows = Entry.objects.filter(pk__in=entries)
    rows.update(weight_class=group, seed=None, version=F("version") + 1)
