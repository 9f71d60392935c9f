"""Bout numbers and mats."""

from collections.abc import Callable, Mapping, Sequence

from django.db.models import F, Max, QuerySet

from brackets.core.errors import BoutOver, UnknownMat
from brackets.core.graph import BoutKey
from brackets.core.numbering import mats as spread
from brackets.core.numbering import number
from brackets.models import Bout, Drawn
from brackets.queries import bracket
from brackets.services.logged import logged
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right, require
from seeding.journal.services import Call, Deed, act, advance_version

KEPT: list[Callable[[Tournament], bool]] = []
"""Whether a tournament keeps numbers on record that no bout has any more; lent by a later app."""


@act
def number_bouts(*, call: Call, tournament: Tournament) -> Deed:
    """Give every bout its number and a mat.

    While nothing is wrestled the whole tournament is numbered afresh; afterwards only bouts without
    a number get one, after the last: a number is never used again. A bout that comes up later in a
    weight with numbers has one at once (`advance`).
    """
    require(call, tournament.pk, Right.DIRECT)
    first = give_numbers(tournament)
    return Deed(tournament.log_id, "bouts.numbered", {"from": first})


def give_numbers(tournament: Tournament) -> int:
    """Number what has to be numbered; returns the first number given."""
    wrestled = _of(tournament).filter(status=Bout.Status.DECIDED, implied=False).exists()
    fresh = not wrestled and not any(kept(tournament) for kept in KEPT)
    if fresh:
        _of(tournament).update(number=None, mat="")
    last = last_number(tournament, fresh=fresh)
    weights = Drawn.objects.filter(weight_class__tournament=tournament)
    _number(tournament, weights, last)
    return last + 1


def number_on(drawn: Drawn) -> None:
    """Give the bouts of one weight that have no number the next ones of the tournament."""
    tournament = drawn.weight_class.tournament
    weights = Drawn.objects.filter(pk=drawn.pk)
    _number(tournament, weights, last_number(tournament, fresh=False))


def _number(tournament: Tournament, weights: QuerySet[Drawn], last: int) -> None:
    """Number those without one: in the order of all, then those that only a ruling fills."""
    ordered = weights.select_related("weight_class__division").order_by("weight_class__position")
    listed = list(ordered)
    rows = {
        (str(row.drawn_id), row.key): row
        for row in _of(tournament).filter(drawn__in=listed, number=None).select_related("drawn")
    }
    order = number([(str(row.pk), bracket(row)) for row in listed])
    found = sorted(rows.keys() & order.keys(), key=lambda key: order[key])
    ruled = [key for key, row in rows.items() if row.status == Bout.Status.READY]
    found += sorted(set(ruled) - order.keys(), key=lambda key: (rows[key].column, key))
    numbers = {key: last + at for at, key in enumerate(found, start=1)}
    _save_numbers(rows, numbers, tournament)
    Tournament.objects.filter(pk=tournament.pk).update(last_number=last + len(numbers))


def last_number(tournament: Tournament, *, fresh: bool) -> int:
    """The highest number that is or ever was a bout's; while numbering is fresh, that is now."""
    every = Bout.objects.filter(drawn__weight_class__tournament=tournament)
    held = every.aggregate(last=Max("number"))["last"] or 0
    row = Tournament.objects.get(pk=tournament.pk)
    return held if fresh else max(held, row.last_number)


def _save_numbers(
    rows: Mapping[tuple[str, BoutKey], Bout],
    numbers: Mapping[tuple[str, BoutKey], int],
    tournament: Tournament,
) -> None:
    columns = {key: rows[key].column for key in numbers}
    mats = spread(numbers, columns, tournament.mats)
    changed = []
    for key, value in numbers.items():
        row = rows[key]
        row.number, row.mat = value, mats[key]
        changed.append(row)
    Bout.objects.bulk_update(changed, ["number", "mat"], batch_size=200)


def renumber(bouts: Sequence[Bout]) -> None:
    """Give bouts that had a number the next ones, in their order; their old ones are gone."""
    for bout in bouts:
        if bout.number is not None:
            tournament = bout.drawn.weight_class.tournament
            number = last_number(tournament, fresh=False) + 1
            Bout.objects.filter(pk=bout.pk).update(number=number, version=F("version") + 1)
            Tournament.objects.filter(pk=tournament.pk).update(last_number=number)


@act
def send_to_mat(*, call: Call, bout: Bout, mat: str) -> Deed:
    """Send one bout to another mat."""
    tournament = bout.drawn.weight_class.tournament
    require(call, tournament.pk, Right.DIRECT)
    if mat not in tournament.mats:
        raise UnknownMat(mat=mat, known=", ".join(tournament.mats))
    rows = Bout.objects.filter(pk=bout.pk)
    advance_version(rows, call, f"Bout {bout.number}")
    if not rows.exclude(status=Bout.Status.DECIDED).update(mat=mat):
        raise BoutOver(bout=bout.number, mat=bout.mat)
    return Deed(tournament.log_id, "bout.sent", logged(bout=bout) | {"mat": mat})


def follow_mats(tournament: Tournament) -> None:
    """Share the bouts to come of a mat that is gone out over those that are left."""
    to_come = _of(tournament).exclude(number=None).exclude(status=Bout.Status.DECIDED)
    stranded = to_come.exclude(mat__in=tournament.mats).order_by("number")
    for at, pk in enumerate(stranded.values_list("pk", flat=True)):
        mat = tournament.mats[at % len(tournament.mats)]
        Bout.objects.filter(pk=pk).update(mat=mat, version=F("version") + 1)


def _of(tournament: Tournament) -> QuerySet[Bout]:
    return Bout.objects.filter(drawn__weight_class__tournament=tournament)
