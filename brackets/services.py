"""Drawing, numbering, and carrying results forward."""

import secrets
from collections.abc import Collection, Mapping, Sequence

from django.db.models import F, Max
from seeding.services import lock_order, unlock_order

from brackets.core.draw import Entrant, draw
from brackets.core.errors import AlreadyDrawn, AlreadyWrestled, TooFew, UnknownMat
from brackets.core.graph import BoutKey, LineUp
from brackets.core.numbering import mats as spread
from brackets.core.numbering import number
from brackets.core.progress import BoutState, Standing, Vacancy, Verdict, play
from brackets.models import Bout, Drawn, Placing
from brackets.queries import bracket, find_drawn, rules_of
from seeding.core.lot import LOT_VERSION, Lot
from seeding.entries.models import Entry, Tournament, WeightClass
from seeding.entries.permissions import Right, require
from seeding.journal.services import Call, Deed, act, advance_version


@act
def draw_weight(*, call: Call, weight: WeightClass, lot_seed: str = "") -> Deed:
    """Draw a weight: seeds by the published order, the rest by lot from a recorded seed."""
    require(call, weight.tournament_id, Right.DIRECT)
    lock_order(call, weight)
    lot_seed = lot_seed or secrets.token_hex(16)
    entrants = [
        Entrant(id=str(row.pk), seed=row.seed, team=str(row.team_id))
        for row in Entry.objects.filter(weight_class=weight, status=Entry.Status.ENTERED)
    ]
    if len(entrants) < 2:
        raise TooFew(weight=weight.label, count=len(entrants))
    lines = draw(entrants, rules_of(weight.division), Lot(lot_seed, f"draw/{weight.key}"))
    made = set_lines(weight, lines, lot_seed)
    return Deed(weight.tournament.log_id, "weight.drawn", {"weight": weight.pk, "drawn": made.pk})


def set_lines(weight: WeightClass, lines: LineUp, lot_seed: str) -> Drawn:
    """Keep a line-up as the weight's bracket and lay out its bouts."""
    if find_drawn(weight):
        raise AlreadyDrawn(weight=weight.label)
    made = Drawn.objects.create(
        weight_class=weight,
        places=weight.places,
        lines=[list(line) if isinstance(line, tuple) else line for line in lines],
        lot_seed=lot_seed,
        lot_version=LOT_VERSION,
    )
    built = bracket(made)
    Drawn.objects.filter(pk=made.pk).update(format=built.format)
    nodes = built.graph.nodes
    Bout.objects.bulk_create(
        Bout(
            drawn=made,
            round=key.round,
            position=key.position,
            column=nodes[key]["round"].column,
            status=Bout.Status.WAITING,
        )
        for key in nodes
    )
    advance(made, {})
    return made


@act
def take_back_draw(*, call: Call, weight: WeightClass) -> Deed:
    """Undo a draw of which nothing has been wrestled."""
    require(call, weight.tournament_id, Right.DIRECT)
    drawn = find_drawn(weight)
    wrestled = Bout.objects.filter(drawn=drawn, status=Bout.Status.DECIDED, implied=False)
    if wrestled.exists():
        raise AlreadyWrestled(weight=weight.label, count=wrestled.count())
    if drawn:
        drawn.delete()
    unlock_order(call, weight)
    return Deed(weight.tournament.log_id, "draw.taken-back", {"weight": weight.pk})


@act
def number_bouts(*, call: Call, tournament: Tournament) -> Deed:
    """Give every bout its number and a mat.

    While nothing is wrestled the whole tournament is numbered afresh; afterwards only bouts without
    a number get one, after the last: a number is never used again.
    """
    require(call, tournament.pk, Right.DIRECT)
    fresh = not _of(tournament).filter(status=Bout.Status.DECIDED).exists()
    if fresh:
        _of(tournament).update(number=None, mat="")
    last = _of(tournament).aggregate(last=Max("number"))["last"] or 0
    rows = {
        (str(row.drawn_id), row.key): row
        for row in _of(tournament).filter(number=None).select_related("drawn")
    }
    drawn = Drawn.objects.filter(weight_class__tournament=tournament)
    ordered = drawn.select_related("weight_class__division").order_by("weight_class__position")
    weights = [(str(row.pk), bracket(row)) for row in ordered]
    numbers = {key: value for key, value in number(weights).items() if key in rows}
    _save_numbers(rows, _closed_up(numbers, last), tournament)
    return Deed(tournament.log_id, "bouts.numbered", {"from": last + 1})


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


@act
def send_to_mat(*, call: Call, bout: Bout, mat: str) -> Deed:
    """Send one bout to another mat."""
    tournament = bout.drawn.weight_class.tournament
    require(call, tournament.pk, Right.DIRECT)
    if mat not in tournament.mats:
        raise UnknownMat(mat=mat, known=", ".join(tournament.mats))
    rows = Bout.objects.filter(pk=bout.pk)
    advance_version(rows, call, f"Bout {bout.number}")
    rows.update(mat=mat)
    return Deed(tournament.log_id, "bout.sent", {"bout": bout.pk, "mat": mat})


def lock_bracket(drawn: Drawn) -> None:
    """Take the one lock of a writing transaction that touches this bracket."""
    Drawn.objects.filter(pk=drawn.pk).update(version=F("version") + 1)


def advance(
    drawn: Drawn,
    verdicts: Mapping[BoutKey, Verdict],
    *,
    out: Collection[str] = (),
    vacating: Collection[str] = (),
    pool_order: Sequence[Sequence[str]] | None = None,
) -> Standing:
    """Play the bracket with these facts and write down what follows: sides, statuses, places."""
    built = bracket(drawn)
    standing = play(
        built,
        verdicts,
        rules_of(drawn.weight_class.division),
        out=frozenset(out),
        vacating=frozenset(vacating),
        pool_order=pool_order,
    )
    _project(drawn, standing)
    _place(drawn, standing)
    return standing


def _project(drawn: Drawn, standing: Standing) -> None:
    changed = []
    for row in Bout.objects.filter(drawn=drawn):
        new = _columns(standing.bouts[row.key])
        if any(getattr(row, name) != value for name, value in new.items()):
            for name, value in new.items():
                setattr(row, name, value)
            row.version += 1
            changed.append(row)
    names = ["status", "top_id", "bottom_id", "winner_id", "implied", "version"]
    Bout.objects.bulk_update(changed, [name.removesuffix("_id") for name in names])


def _columns(state: BoutState) -> dict[str, object]:
    top, bottom = (None if isinstance(side, Vacancy) else int(side) for side in state.sides)
    return {
        "status": str(state.status),
        "top_id": top,
        "bottom_id": bottom,
        "winner_id": int(state.winner) if state.winner else None,
        "implied": state.implied,
    }


def _place(drawn: Drawn, standing: Standing) -> None:
    wanted = {
        int(entry): place for place, entries in standing.places.items() for entry in entries
    }
    known = dict(Placing.objects.filter(drawn=drawn).values_list("entry_id", "place"))
    if wanted == known:
        return
    Placing.objects.filter(drawn=drawn).delete()
    Placing.objects.bulk_create(
        Placing(drawn=drawn, entry_id=entry, place=place)
        for entry, place in sorted(wanted.items(), key=lambda item: (item[1], item[0]))
    )


def _of(tournament: Tournament):  # type: ignore[no-untyped-def]
    return Bout.objects.filter(drawn__weight_class__tournament=tournament).exclude(
        status__in=[Bout.Status.BYE, Bout.Status.VACANT]
    )
