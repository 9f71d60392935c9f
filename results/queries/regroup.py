"""What follows when wrestlers leave a group formed after weigh-in for another."""

from dataclasses import dataclass

from brackets.models import Drawn
from results.models import Result, Ruling, VoidBout
from seeding.entries.core.groups import Broken
from seeding.entries.models import Division, Entry, WeightClass
from seeding.entries.queries.groups import (
    Member,
    breaks,
    group_rules,
    members,
    waiting_of,
)
from seeding.journal.core.errors import Invalid, Problem


@dataclass(frozen=True, slots=True)
class Change:
    """Entries that leave a group for `target`, None being a new group.

    Everybody to another group is a merger, some to a new one a split, the rest a move.
    """

    division: Division
    group: WeightClass
    entries: tuple[str, ...]
    target: WeightClass | None

    @property
    def touched(self) -> tuple[WeightClass, ...]:
        """The groups that there are already."""
        return (self.group, *((self.target,) if self.target else ()))


@dataclass(frozen=True, slots=True)
class After:
    """A group as it would be; `weight` None is the new one, `waits` where nobody is grouped."""

    weight: WeightClass | None
    members: tuple[Member, ...]
    broken: tuple[Broken, ...]
    drawn: bool
    wrestled: int
    waits: bool


@dataclass(frozen=True, slots=True)
class Regrouped:
    """Both groups as they would be."""

    sides: tuple[After, ...]
    moved: tuple[Entry, ...]

    @property
    def needs_reason(self) -> bool:
        """Whether a limit would be broken."""
        return any(side.broken for side in self.sides)

    @property
    def wrestled(self) -> tuple[After, ...]:
        """The groups in the way: something of them has been wrestled."""
        return tuple(side for side in self.sides if side.wrestled)


def regrouped(change: Change) -> Regrouped:
    """What would follow; refuses what cannot be meant."""
    known = members(change.division)
    there = known.get(change.group.pk, ())
    if problems := _problems(change, {one.entry.key for one in there}):
        raise Invalid(problems)
    leaving = tuple(one for one in there if one.entry.key in change.entries)
    staying = tuple(one for one in there if one.entry.key not in change.entries)
    joined = known.get(change.target.pk, ()) if change.target else ()
    return Regrouped(
        (
            _after(change, change.group, staying),
            _after(change, change.target, (*joined, *leaving)),
        ),
        tuple(one.entry for one in leaving),
    )


def _problems(change: Change, there: set[str]) -> list[Problem]:
    found = []
    if not change.entries or not set(change.entries) <= there:
        found.append(Problem("entries", f"Choose wrestlers who are in {change.group.label}."))
    if change.target is None and set(change.entries) == there:
        found.append(Problem("target", "A new group of everybody would be the same group."))
    if change.target and change.target.pk == change.group.pk:
        found.append(Problem("target", "They are in that group already."))
    if change.target and change.target.division_id != change.division.pk:
        found.append(Problem("target", "Choose a group of the same division."))
    return found


def _after(change: Change, weight: WeightClass | None, people: tuple[Member, ...]) -> After:
    waits = weight is not None and weight.pk == waiting_of(change.division).pk
    in_order = tuple(
        sorted(people, key=lambda one: (one.figures.weight or 0, one.entry.wrestler.family))
    )
    return After(
        weight=weight,
        members=in_order,
        broken=() if waits else breaks(in_order, group_rules(change.division)),
        drawn=weight is not None and Drawn.objects.filter(weight_class=weight).exists(),
        wrestled=_wrestled(weight) if weight else 0,
        waits=waits,
    )


def _wrestled(weight: WeightClass) -> int:
    """Results, rulings and void bouts of a drawn group."""
    return (
        Result.objects.filter(bout__drawn__weight_class=weight).count()
        + Ruling.objects.filter(drawn__weight_class=weight).count()
        + VoidBout.objects.filter(bout__drawn__weight_class=weight).count()
    )
