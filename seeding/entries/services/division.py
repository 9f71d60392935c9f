"""A division's settings and its set of weights; the order of weights over the tournament."""

from collections.abc import Iterable, Mapping

from django.db.models import F
from django.utils.text import slugify

from seeding.entries.core.errors import SettingsStand, StillUsed
from seeding.entries.models import Division, Tournament, WeightClass
from seeding.entries.permissions import Right, require
from seeding.entries.rulebooks import with_settings
from seeding.journal.core.errors import Invalid, NotFound, Problem
from seeding.journal.services import Call, Deed, act

ASIDE = 1_000_000  # positions are unique: those that change wait here


@act
def edit_division(
    *, call: Call, division: Division, name: str, settings: Mapping[str, object]
) -> Deed:
    """Rename a division, and before its first draw change the overridden settings."""
    require(call, division.tournament_id, Right.DIRECT)
    set_settings(division, settings)
    Division.objects.filter(pk=division.pk).update(name=name)
    return Deed(division.tournament.log_id, "division.edited", {"division": division.pk})


def set_settings(division: Division, settings: Mapping[str, object]) -> None:
    """Give the division these settings; refused once a weight of it is drawn."""
    if dict(settings) == division.settings:
        return
    drawn = division.weights.filter(locked=True).first()
    if drawn:
        raise SettingsStand(weight=drawn.label)
    snapshot = with_settings(division.rulebook, settings)
    rows = Division.objects.filter(pk=division.pk)
    rows.update(settings=dict(settings), snapshot=snapshot)


@act
def remove_division(*, call: Call, division: Division) -> Deed:
    """Remove a division without weights."""
    require(call, division.tournament_id, Right.DIRECT)
    count = division.weights.count()
    if count:
        raise StillUsed(what="Division", name=division.name, count=count, users="weights")
    gone = division.pk
    division.delete()
    return Deed(division.tournament.log_id, "division.removed", {"division": gone})


def weight_sets(division: Division) -> Mapping[str, list[str]]:
    """The rule book's sets of weights by name, light to heavy."""
    sets = division.snapshot["weights"].get("sets", {})
    return {name: [str(label) for label in labels] for name, labels in sets.items()}


@act
def add_weight_set(*, call: Call, division: Division, name: str) -> Deed:
    """Add every weight of one of the rule book's sets that the division does not have yet."""
    require(call, division.tournament_id, Right.DIRECT)
    sets = weight_sets(division)
    if name not in sets:
        raise NotFound(what="set of weights", name=name)
    made = [new_weight(division, label).pk for label in missing(division, sets[name])]
    light_to_heavy(division.tournament)
    return Deed(division.tournament.log_id, "weights.added", {"weights": made})


def missing(division: Division, labels: Iterable[str]) -> list[str]:
    """The labels that no weight of the division has."""
    known = set(division.weights.values_list("label", flat=True))
    return [label for label in labels if label not in known]


def places_with_points(division: Division) -> list[int]:
    """The numbers of places that the rule book has team points for, the fewest first."""
    return sorted(map(int, division.snapshot["team_points"]["placement"]))


def scored_places(division: Division, places: int | None, where: str) -> int:
    """How many places a weight gives, the rule book's number where none is said.

    Refuses a number that the rule book has no points for.
    """
    known = places_with_points(division)
    found = places or int(division.snapshot["bracket"]["places"])
    if found not in known:
        hint = (
            f"The rule book has no team points for {found} places, "
            f"only for {', '.join(map(str, known))}. "
            "Choose one of these, or first set "
            f"team_points.placement.{found} = [points of 1st, 2nd, ...]."
        )
        raise Invalid([Problem(where, hint)])
    return found


def new_weight(
    division: Division, label: str, places: int | None = None, key: str = ""
) -> WeightClass:
    """The row of a new weight, last in the list; its key names the division where need be."""
    weights = WeightClass.objects.filter(tournament=division.tournament_id)
    last = weights.order_by("-position").values_list("position", flat=True).first() or 0
    key = key or slugify(label) or f"w{last + 1}"
    if weights.filter(key=key).exists():
        key = f"{division.key}-{key}"[:40]
    return WeightClass.objects.create(
        tournament_id=division.tournament_id,
        division=division,
        key=key,
        label=label,
        position=last + 1,
        places=scored_places(division, places, "places"),
    )


def light_to_heavy(tournament: Tournament) -> None:
    """Put the weights in order: division by division, numbered labels light to heavy."""
    rows = list(WeightClass.objects.filter(tournament=tournament).order_by("position"))
    wanted = sorted(rows, key=lambda row: (row.division_id, _pounds(row.label)))
    places = sorted(row.position for row in rows)
    moved = {
        row.pk: place for row, place in zip(wanted, places, strict=True) if row.position != place
    }
    WeightClass.objects.filter(pk__in=moved).update(position=F("position") + ASIDE)
    for pk, place in moved.items():
        WeightClass.objects.filter(pk=pk).update(position=place)


def _pounds(label: str) -> float:
    """A weight that is no number stands at the heavy end."""
    return float(label) if label.replace(".", "", 1).isdecimal() else float("inf")
