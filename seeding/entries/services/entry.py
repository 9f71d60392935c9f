"""Entries by hand: add, change, weigh in, scratch before the draw, move to another team."""

import secrets
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from seeding.entries.core.errors import GroupedByPage, Locked, StandsBy, TakenName
from seeding.entries.models import Entry, Team, Tournament, WeightClass, Wrestler
from seeding.entries.permissions import Right, require
from seeding.entries.queries.groups import is_group
from seeding.entries.services.team import open_team
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.services import Call, Deed, act, advance_version


@dataclass(frozen=True, slots=True)
class Person:
    """Who is entered: names, and the team of his season where that differs from the entry's."""

    given: str
    family: str
    home: str = ""


TURN_FOLLOWERS: list[Callable[[Call, Entry], None]] = []
"""What has to follow when an entry is scratched or restored, by its new status; an app adds its
own when it is set up."""


@act
def add_entry(
    *,
    call: Call,
    weight: WeightClass,
    team: Team,
    person: Person,
    details: Mapping[str, object] | None = None,
) -> Deed:
    """Enter a wrestler; `details` may set seed, scoring, publish, rank, qualifying_place."""
    require(call, weight.tournament_id, Right.DIRECT)
    _no_group(weight)
    made = make_entry(weight, team, person, details or {})
    return Deed(weight.tournament.log_id, "entry.added", {"entry": made.pk})


def make_entry(
    weight: WeightClass, team: Team, person: Person, details: Mapping[str, object], key: str = ""
) -> Entry:
    """The row of a new entry, for services that add several things in one act."""
    open_weight(weight)
    open_team(team)
    if not person.family.strip():
        raise Invalid([Problem("family", "A family name is needed.")])
    return admit(weight, team, find_wrestler(weight.tournament, person, team.name), details, key)


def admit(
    weight: WeightClass, team: Team, wrestler: Wrestler, details: Mapping[str, object], key: str
) -> Entry:
    """The row of a new entry of somebody whom the organisation knows; `key` "": a new one."""
    if Entry.objects.filter(weight_class=weight, wrestler=wrestler).exists():
        name = f"{wrestler.given} {wrestler.family}".strip()
        raise TakenName(what=f"wrestler at {weight.label}", name=name)
    free_seed(weight, details.get("seed"))
    return Entry.objects.create(
        tournament_id=weight.tournament_id,
        weight_class=weight,
        team=team,
        wrestler=wrestler,
        key=key or f"e{secrets.token_hex(5)}",
        **details,
    )


def find_wrestler(tournament: Tournament, person: Person, home: str) -> Wrestler:
    """The organisation's wrestler of that name and team, made when there is none."""
    return Wrestler.objects.get_or_create(
        organisation_id=tournament.organisation_id,
        given=person.given.strip(),
        family=person.family.strip(),
        home=(person.home or home).strip(),
    )[0]


PLACED = ("seed", "weight_class", "team")


@act
def edit_entry(*, call: Call, entry: Entry, details: Mapping[str, object]) -> Deed:
    """Change scoring, publish, rank, qualifying place at any time; before the draw also the seed,
    the weight and the team.
    """
    require(call, entry.tournament_id, Right.DIRECT)
    rows = Entry.objects.filter(pk=entry.pk)
    advance_version(rows, call, "The entry")
    if any(name in details and details[name] != getattr(entry, name) for name in PLACED):
        _place(entry, details)
    rows.update(**details)
    return Deed(entry.tournament.log_id, "entry.edited", {"entry": entry.pk})


def _place(entry: Entry, details: Mapping[str, object]) -> None:
    """Refuse where the entry may not have that weight and seed."""
    open_weight(entry.weight_class)
    team = details.get("team", entry.team)
    if isinstance(team, Team):
        open_team(team)
    weight = details.get("weight_class", entry.weight_class)
    if not isinstance(weight, WeightClass):
        raise TypeError(weight)
    if weight.pk != entry.weight_class_id:
        _no_group(weight)
        open_weight(weight)
        if Entry.objects.filter(weight_class=weight, wrestler=entry.wrestler_id).exists():
            raise TakenName(what=f"wrestler at {weight.label}", name=str(entry.key))
    if entry.status == Entry.Status.ENTERED:
        free_seed(weight, details.get("seed", entry.seed), but=entry)


@act
def correct_name(*, call: Call, entry: Entry, given: str, family: str) -> Deed:
    """Spell a wrestler's name otherwise, here and wherever the organisation knows him."""
    require(call, entry.tournament_id, Right.DIRECT)
    advance_version(Entry.objects.filter(pk=entry.pk), call, "The entry")
    person = entry.wrestler
    if not family.strip():
        raise Invalid([Problem("family", "A family name is needed.")])
    others = Wrestler.objects.filter(
        organisation=person.organisation_id, home=person.home, given=given, family=family
    )
    if others.exclude(pk=person.pk).exists():
        raise TakenName(what=f"wrestler of {person.home}", name=f"{given} {family}".strip())
    Wrestler.objects.filter(pk=person.pk).update(given=given, family=family)
    return Deed(entry.tournament.log_id, "entry.renamed", {"entry": entry.pk})


@act
def weigh_in(*, call: Call, entry: Entry, state: str) -> Deed:
    """Record what the weigh-in of one entry came to.

    Licensed medical staff and the local code decide whether anyone may wrestle.
    """
    require(call, entry.tournament_id, Right.DIRECT)
    rows = Entry.objects.filter(pk=entry.pk)
    advance_version(rows, call, "The entry")
    if state not in Entry.WeighIn.values:
        raise Invalid([Problem("weigh_in", f"Choose one of: {', '.join(Entry.WeighIn.values)}.")])
    rows.update(weigh_in=state, weighed_as=None)
    return Deed(entry.tournament.log_id, "entry.weighed", {"entry": entry.pk})


@act
def scratch_entry(*, call: Call, entry: Entry) -> Deed:
    """Take an entry out before the draw; the rule book says what becomes of the seeds below."""
    require(call, entry.tournament_id, Right.DIRECT)
    advance_version(Entry.objects.filter(pk=entry.pk), call, "The entry")
    take_from_field(call, entry)
    return Deed(entry.tournament.log_id, "entry.scratched", {"entry": entry.pk})


def take_from_field(call: Call, entry: Entry) -> None:
    """Scratch an entry of an undrawn weight inside a greater act."""
    open_weight(entry.weight_class)
    Entry.objects.filter(pk=entry.pk).update(status=Entry.Status.SCRATCHED)
    _follow(call, entry)


@act
def restore_entry(*, call: Call, entry: Entry) -> Deed:
    """Bring a scratched entry back before the draw; his seed is gone if another holds it."""
    require(call, entry.tournament_id, Right.DIRECT)
    open_weight(entry.weight_class)
    rows = Entry.objects.filter(pk=entry.pk)
    advance_version(rows, call, "The entry")
    if rows.filter(status=Entry.Status.STANDBY).exists():
        raise StandsBy(entry=entry.wrestler.family)
    taken = entry.seed is not None and _holder(entry.weight_class, entry.seed, entry) is not None
    rows.update(status=Entry.Status.ENTERED, seed=None if taken else entry.seed)
    _follow(call, entry)
    return Deed(entry.tournament.log_id, "entry.restored", {"entry": entry.pk})


def _follow(call: Call, entry: Entry) -> None:
    entry.refresh_from_db()
    for follow in TURN_FOLLOWERS:
        follow(call, entry)


def open_weight(weight: WeightClass) -> None:
    """Refuse with `Locked` when the weight is drawn; holds its row, so that no draw slips in."""
    if not WeightClass.objects.filter(pk=weight.pk, locked=False).update(locked=False):
        raise Locked(weight=weight.label)


def _no_group(weight: WeightClass) -> None:
    """Refuse where the weight is a group: nobody comes into one unseen by its limits."""
    if is_group(weight):
        raise GroupedByPage(weight=weight.label)


def free_seed(weight: WeightClass, seed: object, but: Entry | None = None) -> None:
    """Refuse when another entry of the weight holds the seed."""
    if not isinstance(seed, int):
        return
    holder = _holder(weight, seed, but)
    if holder:
        hint = f"Seed {seed} at {weight.label} belongs to another entry. Change that one first."
        raise Invalid([Problem("seed", hint)])


def _holder(weight: WeightClass, seed: int, but: Entry | None) -> Entry | None:
    rows = Entry.objects.filter(weight_class=weight, seed=seed, status=Entry.Status.ENTERED)
    return (rows.exclude(pk=but.pk) if but else rows).first()
