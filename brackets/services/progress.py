"""Carrying results forward through a bracket."""

from collections.abc import Collection, Mapping, Sequence

from django.db.models import F

from brackets.core.graph import BoutKey
from brackets.core.progress import play
from brackets.core.standing import BoutState, Standing, Vacancy, Verdict
from brackets.models import Bout, Drawn, Placing
from brackets.queries import bracket, entry_ids, rules_of


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
    ids = entry_ids(drawn)
    _project(drawn, standing, ids)
    _place(drawn, standing, ids)
    return standing


def _project(drawn: Drawn, standing: Standing, ids: Mapping[str, int]) -> None:
    changed = []
    for row in Bout.objects.filter(drawn=drawn):
        new = _columns(standing.bouts[row.key], ids)
        if any(getattr(row, name) != value for name, value in new.items()):
            for name, value in new.items():
                setattr(row, name, value)
            row.version += 1
            changed.append(row)
    names = ["status", "top_id", "bottom_id", "winner_id", "implied", "version"]
    Bout.objects.bulk_update(changed, [name.removesuffix("_id") for name in names])


def _columns(state: BoutState, ids: Mapping[str, int]) -> dict[str, object]:
    top, bottom = (None if isinstance(side, Vacancy) else ids[side] for side in state.sides)
    return {
        "status": str(state.status),
        "top_id": top,
        "bottom_id": bottom,
        "winner_id": ids[state.winner] if state.winner else None,
        "implied": state.implied,
    }


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
