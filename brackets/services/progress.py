"""Carrying results forward through a bracket."""

from collections.abc import Collection, Mapping, Sequence

from django.db.models import F

from brackets.core.graph import BoutKey
from brackets.core.progress import play
from brackets.core.rulings import Rulings
from brackets.core.standing import BoutState, Leavers, Standing, Status, Vacancy, Verdict
from brackets.models import Bout, Drawn, Placing
from brackets.queries import bracket, entry_ids, rules_of
from brackets.services.number import number_on

COLUMNS = ("status", "top_id", "bottom_id", "winner_id", "implied")


def lock_bracket(drawn: Drawn) -> None:
    """Take the one lock of a writing transaction that touches this bracket."""
    Drawn.objects.filter(pk=drawn.pk).update(version=F("version") + 1)


def advance(
    drawn: Drawn,
    verdicts: Mapping[BoutKey, Verdict],
    *,
    out: Leavers = (),
    vacating: Collection[str] = (),
    pool_order: Sequence[Sequence[str]] | None = None,
    rulings: Rulings = (),
) -> Standing:
    """Play the bracket with these facts and write down what follows: sides, statuses, places.

    Where bouts of the weight have numbers, one that can be wrestled only now gets the next.
    """
    built = bracket(drawn)
    standing = play(
        built,
        verdicts,
        rules_of(drawn.weight_class.division),
        out=out,
        vacating=frozenset(vacating),
        pool_order=pool_order,
        rulings=rulings,
    )
    ids = entry_ids(drawn)
    if _project(drawn, standing, ids, frozenset(built.bouts)):
        number_on(drawn)
    _place(drawn, standing, ids)
    return standing


def _project(
    drawn: Drawn, standing: Standing, ids: Mapping[str, int], real: Collection[BoutKey]
) -> bool:
    """Write down sides and statuses; whether a bout lacks a number in a weight that has them."""
    numbered = lacking = False
    rows = Bout.objects.filter(drawn=drawn)
    for pk, code, position, number, *old in rows.values_list(
        "pk", "round", "position", "number", *COLUMNS
    ):
        state = standing.bouts[BoutKey(code, position)]
        new = _columns(state, ids)
        if list(new.values()) != old:
            Bout.objects.filter(pk=pk).update(version=F("version") + 1, **new)
        if number is not None:
            numbered = True
        elif state.status is Status.READY or state.key in real:
            lacking = True
    return numbered and lacking


def _columns(state: BoutState, ids: Mapping[str, int]) -> dict[str, object]:
    top, bottom = (None if isinstance(side, Vacancy) else ids[side] for side in state.sides)
    winner = ids[state.winner] if state.winner else None
    return dict(zip(COLUMNS, (str(state.status), top, bottom, winner, state.implied), strict=True))


def _place(drawn: Drawn, standing: Standing, ids: Mapping[str, int]) -> None:
    wanted = {ids[entry]: place for place, entries in standing.places.items() for entry in entries}
    known = dict(Placing.objects.filter(drawn=drawn).values_list("entry_id", "place"))
    if wanted == known:
        return
    Placing.objects.filter(drawn=drawn).delete()
    Placing.objects.bulk_create(
        Placing(drawn=drawn, entry_id=entry, place=place)
        for entry, place in sorted(wanted.items(), key=lambda item: (item[1], item[0]))
    )
