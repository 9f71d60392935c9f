"""Bout numbers and mats."""

from collections.abc import Callable, Mapping, Sequence

from django.db.models import F, Max, QuerySet

from brackets.core.errors import BoutOver, UnknownMat
from brackets.core.graph import BoutKey
from brackets.core.numbering import mats as spread
from brackets.core.numbering import number
from brackets.models import Bout, Drawn
from brackets.queries import bracket
from seeding.entries.models import Tournament
from seeding.entries.permissions import Right, require
from seeding.journal.services import Call, Deed, act, advance_version

KEPT: list[Callable[[Tournament], bool]] = []
"""Whether a tournament keeps numbers on record that no bout has any more; lent by a later app."""


@act
def number_bouts(*, call: Call, tournament: Tournament) -> Deed:
    """Give every bout its number and a mat.

    While nothing is wrestled the whole tournament is numbered afresh; afterwards only bouts without
    a number get one, after the last: a number is never used again.
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
    rows = {
        (str(row.drawn_id), row.key): row
        for row in _of(tournament).filter(number=None).select_related("drawn")
    }
    drawn = Drawn.objects.filter(weight_class__tournament=tournament)
    ordered = drawn.select_related("weight_class__division").order_by("weight_class__position")
    weights = [(str(row.pk), bracket(row)) for row in ordered]
    numbers = {key: value for key, value in number(weights).items() if key in rows}
    _save_numbers(rows, _closed_up(numbers, last), tournament)
    Tournament.objects.filter(pk=tournament.pk).update(last_number=last + len(numbers))
    return last + 1


def last_number(tournament: Tournament, *, fresh: bool) -> int:
    """The highest number that is or ever was a bout's; while numbering is fresh, that is now."""
    every = Bout.objects.filter(drawn__weight_class__tournament=tournament)
    held = every.aggregate(last=Max("number"))["last"] or 0
    row = Tournament.objects.get(pk=tournament.pk)
    return held if fresh else max(held, row.last_number)


def _closed_up(
    numbers: Mapping[tuple[str, BoutKey], int], last: int
) -> dict[tuple[str, BoutKey], int]:
    ordered = sorted(numbers, key=lambda key: numbers[key])
    return {key: last + at for at, key in enumerate(ordered, start=1)}


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
    return Deed(tournament.log_id, "bout.sent", {"bout": bout.pk, "mat": mat})


def follow_mats(tournament: Tournament) -> None:
    """Share the bouts to come of a mat that is gone out over those that are left."""
    to_come = _of(tournament).exclude(number=None).exclude(status=Bout.Status.DECIDED)
    stranded = to_come.exclude(mat__in=tournament.mats).order_by("number")
    for at, pk in enumerate(stranded.values_list("pk", flat=True)):
        mat = tournament.mats[at % len(tournament.mats)]
        Bout.objects.filter(pk=pk).update(mat=mat, version=F("version") + 1)


def _of(tournament: Tournament) -> QuerySet[Bout]:
    return Bout.objects.filter(drawn__weight_class__tournament=tournament).exclude(
        status__in=[Bout.Status.BYE, Bout.Status.VACANT]
    )
