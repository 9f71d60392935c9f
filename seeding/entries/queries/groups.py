"""Every read of divisions without fixed weights. What was measured is for those who direct."""

import hashlib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from seeding.entries.core.errors import NotGrouped
from seeding.entries.core.group_rules import GroupRules
from seeding.entries.core.groups import Broken, Left, broken, form
from seeding.entries.core.groups import Measured as Figures
from seeding.entries.models import Division, Entry, Measured, WeightClass
from seeding.journal.core.chain import canonical

WAITING = "To be grouped"
WAYS_ON: list[str] = []
"""Addresses of pages on which groups change; a later app adds its own when it is set up."""


@dataclass(frozen=True, slots=True)
class Member:
    """An entry with what was measured; `version` of it is 0 where nothing was."""

    entry: Entry
    figures: Figures
    version: int


@dataclass(frozen=True, slots=True)
class GroupSeen:
    """A group with its members, light to heavy, and every limit that it breaks."""

    weight: WeightClass
    members: tuple[Member, ...]
    broken: tuple[Broken, ...]


@dataclass(frozen=True, slots=True)
class LeftSeen:
    """Who would be in no group, and why."""

    member: Member
    left: Left


@dataclass(frozen=True, slots=True)
class Proposed:
    """The groups that those who wait would form; `digest` names exactly this outcome."""

    groups: tuple[tuple[Member, ...], ...]
    left: tuple[LeftSeen, ...]
    digest: str


def group_rules(division: Division) -> GroupRules:
    """What the division's rule book says of groups."""
    return GroupRules.from_section(division.snapshot["weights"])


def fixed_weights(division: Division) -> int:
    """How many weights keep a division from forming groups; none of one that forms them."""
    if group_rules(division).grouped:
        return 0
    return division.weights.exclude(key=waiting_key(division)).count()


def waiting_key(division: Division) -> str:
    """The key of the weight where the division's entrants wait; it travels in tournament files."""
    return f"{division.key}-waiting"[-40:]


def find_waiting(division: Division) -> WeightClass | None:
    """The weight where entrants wait to be grouped, if the division forms groups."""
    if not group_rules(division).grouped:
        return None
    rows = WeightClass.objects.select_related("division", "tournament")
    return rows.filter(division=division, key=waiting_key(division)).first()


def waiting_of(division: Division) -> WeightClass:
    """The same; refused where the division has fixed weights."""
    found = find_waiting(division)
    if found is None:
        raise NotGrouped(division=division.name)
    return found


def is_waiting(weight: WeightClass) -> bool:
    """Whether wrestlers wait there to be grouped."""
    return weight.key == waiting_key(weight.division) and group_rules(weight.division).grouped


def is_group(weight: WeightClass) -> bool:
    """Whether the weight is a group that was formed after weigh-in."""
    found = find_waiting(weight.division)
    return found is not None and found.pk != weight.pk


def members(division: Division) -> Mapping[int, tuple[Member, ...]]:
    """Who is entered, by the id of the weight, light to heavy; who has no figures comes last."""
    rows = Entry.objects.filter(
        weight_class__division=division, status=Entry.Status.ENTERED
    ).select_related("wrestler", "team", "weight_class")
    known = {row.entry_id: row for row in Measured.objects.filter(entry__in=rows)}
    found: dict[int, list[Member]] = {}
    for row in rows:
        found.setdefault(row.weight_class_id, []).append(_member(row, known.get(row.pk)))
    return {pk: tuple(sorted(group, key=_light_first)) for pk, group in found.items()}


def _member(row: Entry, known: Measured | None) -> Member:
    if known is None:
        return Member(row, Figures(row.key), 0)
    figures = Figures(row.key, known.weight, known.age, known.experience)
    return Member(row, figures, known.version)


def _light_first(one: Member) -> tuple[bool, object, str, str, str]:
    name = one.entry.wrestler
    unknown = one.figures.weight is None
    return unknown, one.figures.weight or 0, name.family, name.given, one.entry.key


def groups(division: Division) -> tuple[GroupSeen, ...]:
    """The groups of a division as they stand."""
    at, rules = waiting_of(division), group_rules(division)
    known = members(division)
    rows = WeightClass.objects.filter(division=division).exclude(pk=at.pk)
    return tuple(group_seen(row, known.get(row.pk, ()), rules) for row in rows)


def group_seen(row: WeightClass, people: tuple[Member, ...], rules: GroupRules) -> GroupSeen:
    """The weight as a group of these."""
    return GroupSeen(row, people, breaks(people, rules))


def breaks(people: Sequence[Member], rules: GroupRules) -> tuple[Broken, ...]:
    """Every limit that these would break as a group."""
    return broken([one.figures for one in people], rules)


def proposed(division: Division) -> Proposed:
    """The groups that those who wait now would form."""
    waiting = members(division).get(waiting_of(division).pk, ())
    by_key = {one.entry.key: one for one in waiting}
    found = form((one.figures for one in waiting), group_rules(division))
    return Proposed(
        tuple(tuple(by_key[key] for key in group) for group in found.groups),
        tuple(LeftSeen(by_key[one.key], one) for one in found.left),
        _digest(found.groups, (one.key for one in found.left)),
    )


def _digest(formed: Sequence[Sequence[str]], left: Iterable[str]) -> str:
    """Of keys alone: it says nothing of what was measured."""
    text = canonical([[list(group) for group in formed], sorted(left)])
    return hashlib.sha256(text.encode()).hexdigest()[:16]
