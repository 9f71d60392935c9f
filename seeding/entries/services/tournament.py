"""The tournament's frame: dates, mats, divisions, weights, gates."""

import re
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from django.db.models import ProtectedError

from seeding.entries.core.errors import Locked, StillUsed, TakenName
from seeding.entries.models import Division, Organisation, Role, Tournament, WeightClass
from seeding.entries.permissions import Right, may_found, require
from seeding.entries.rulebooks import with_settings
from seeding.entries.services.division import light_to_heavy, missing, new_weight, scored_places
from seeding.journal.core.errors import Invalid, Problem
from seeding.journal.models import Log
from seeding.journal.services import OPERATOR, Call, Deed, act, advance_version

MAT = re.compile(r"[\w][\w -]{0,19}")  # it stands in an address
GATES = ("entries", "seeds", "draw", "results", "team_points")

MAT_FOLLOWERS: list[Callable[[Tournament], None]] = []
"""What has to follow when mats are taken away; an app adds its own when it is set up."""


@act
def create_tournament(
    *,
    call: Call,
    organisation: Organisation,
    slug: str,
    name: str,
    starts_on: date,
    time_zone: str,
    mats: Sequence[str],
) -> Deed:
    """A new tournament; whoever makes it owns it."""
    may_found(call, organisation.pk)
    made = frame(
        organisation=organisation,
        slug=slug,
        name=name,
        starts_on=starts_on,
        time_zone=time_zone,
        mats=mats,
    )
    if call.actor != OPERATOR:
        Role.objects.create(tournament=made, user_id=call.actor, name=Role.Name.OWNER)
    return Deed(made.log_id, "tournament.created", {"tournament": made.pk})


def frame(
    *,
    organisation: Organisation,
    slug: str,
    name: str,
    starts_on: date,
    time_zone: str,
    mats: Sequence[str],
) -> Tournament:
    """The row of a new tournament and its log."""
    if Tournament.objects.filter(slug=slug).exists():
        raise TakenName(what="tournament at the address", name=slug)
    return Tournament.objects.create(
        organisation=organisation,
        log=Log.objects.create(),
        slug=slug,
        name=name,
        starts_on=starts_on,
        time_zone=_zone(time_zone),
        mats=_mats(mats),
    )


@act
def edit_tournament(
    *,
    call: Call,
    tournament: Tournament,
    name: str,
    starts_on: date,
    time_zone: str,
    mats: Sequence[str],
) -> Deed:
    """Change the frame; the address stays."""
    require(call, tournament.pk, Right.DIRECT)
    rows = Tournament.objects.filter(pk=tournament.pk)
    advance_version(rows, call, "The tournament")
    rows.update(name=name, starts_on=starts_on, time_zone=_zone(time_zone), mats=_mats(mats))
    for follow in MAT_FOLLOWERS:
        follow(rows.get())
    return Deed(tournament.log_id, "tournament.edited", {"tournament": tournament.pk})


@act
def set_gates(*, call: Call, tournament: Tournament, gates: Mapping[str, bool]) -> Deed:
    """Open or close what the public sees; a kind that is not named stays as it is."""
    require(call, tournament.pk, Right.DIRECT)
    rows = Tournament.objects.filter(pk=tournament.pk)
    advance_version(rows, call, "The tournament")
    rows.update(**{f"shows_{kind}": is_open for kind, is_open in gates.items() if kind in GATES})
    return Deed(tournament.log_id, "gates.set", {"gates": dict(gates)})


@act
def add_division(
    *,
    call: Call,
    tournament: Tournament,
    key: str,
    name: str,
    rulebook: str,
    settings: Mapping[str, object],
) -> Deed:
    """A division with a snapshot of its rule book, single values overridden by dotted name."""
    require(call, tournament.pk, Right.DIRECT)
    if Division.objects.filter(tournament=tournament, key=key).exists():
        raise TakenName(what="division", name=key)
    made = Division.objects.create(
        tournament=tournament,
        key=key,
        name=name,
        rulebook=rulebook,
        settings=dict(settings),
        snapshot=with_settings(rulebook, settings),
    )
    return Deed(tournament.log_id, "division.added", {"division": made.pk})


@act
def add_weight(
    *, call: Call, division: Division, label: str, places: int | None = None, key: str = ""
) -> Deed:
    """A weight, in its place from light to heavy."""
    tournament = division.tournament
    require(call, tournament.pk, Right.DIRECT)
    if not missing(division, [label]):
        raise TakenName(what=f"weight in {division.name}", name=label)
    if key and WeightClass.objects.filter(tournament=tournament, key=key).exists():
        raise TakenName(what="weight", name=key)
    made = new_weight(division, label, places, key)
    light_to_heavy(tournament)
    return Deed(tournament.log_id, "weight.added", {"weight": made.pk})


@act
def edit_weight(*, call: Call, weight: WeightClass, label: str, places: int) -> Deed:
    """Change the label, and before the draw the number of places."""
    require(call, weight.tournament_id, Right.DIRECT)
    rows = WeightClass.objects.filter(pk=weight.pk)
    advance_version(rows, call, f"Weight {weight.label}")
    if places != weight.places and rows.get().locked:
        raise Locked(weight=weight.label)
    scored_places(weight.division, places, "places")
    rows.update(label=label, places=places)
    return Deed(weight.tournament.log_id, "weight.edited", {"weight": weight.pk})


@act
def remove_weight(*, call: Call, weight: WeightClass) -> Deed:
    """Remove a weight that nobody is entered in."""
    require(call, weight.tournament_id, Right.DIRECT)
    count = weight.entries.count()
    if count:
        raise StillUsed(what="Weight", name=weight.label, count=count, users="entries")
    gone = weight.pk
    try:
        weight.delete()
    except ProtectedError as error:
        held = len(error.protected_objects)
        users = "records of its seeding or draw"
        raise StillUsed(what="Weight", name=weight.label, count=held, users=users) from error
    return Deed(weight.tournament.log_id, "weight.removed", {"weight": gone})


def _zone(name: str) -> str:
    try:
        return ZoneInfo(name).key
    except (ZoneInfoNotFoundError, ValueError) as error:
        hint = f"“{name}” is no time zone; write it as Region/City, such as America/Chicago."
        raise Invalid([Problem("time_zone", hint)]) from error


def _mats(names: Sequence[str]) -> list[str]:
    mats = [name.strip() for name in names if name.strip()]
    if not mats or len(set(mats)) < len(mats):
        hint = "Name at least one mat, and no name twice, such as: 1, 2, 3."
        raise Invalid([Problem("mats", hint)])
    strange = [name for name in mats if not MAT.fullmatch(name)]
    if strange:
        hint = f"“{strange[0]}”: a mat is named by up to 20 letters, digits, blanks or hyphens."
        raise Invalid([Problem("mats", hint)])
    return mats
