"""Corrections and rulings of a random tournament: previewed, chosen about, carried out."""

from collections.abc import Callable, Iterator
from functools import partial
from random import Random

from brackets.core.drafting import Wanted, WantedAdvance, WantedPlace, WantedResult, WantedSides
from brackets.core.graph import BoutKey, Section
from brackets.core.replay import Choice
from brackets.core.sources import Exit, Seat
from brackets.models import Bout
from results.core.outcomes import Kind, Outcome, Side
from results.queries.consequences import Preview
from results.queries.preview import preview
from results.queries.rulings import look_at_ruling
from results.services import correct_result, rule
from seeding.journal.core.errors import Refusal
from tests.audit.events import Event
from tests.audit.hall import Hall
from tests.audit.outcomes import unwon, won

Look = Callable[[dict[BoutKey, Choice]], Preview]
CHOICE = {
    Event.STANDS: Choice.STANDS,
    Event.VOID: Choice.VOID,
    Event.AGAIN: Choice.AGAIN,
    Event.CORRECTED: None,
}
CANNOT = frozenset({"ruling-unfit"})
"""What is refused because chance wanted what cannot be ruled; any other refusal is a failure."""

BACK, TRIES, ODD = 3, 4, 0.6


def correct(hall: Hall, chance: Random, event: Event) -> bool:
    """Correct a result three rounds back (or the first, where there are fewer)."""
    for bout, old in _old(hall, chance):
        new = _other(hall, chance, old)
        seen, choices = _chosen(partial(preview, bout, new), chance, CHOICE[event])
        told = {one.choice for one in seen.affected}
        if not seen.possible or (CHOICE[event] is not None and CHOICE[event] not in told):
            continue
        correct_result(
            call=hall.call, bout=bout, outcome=new, choices=choices, mark=seen.mark, reason="wrong"
        )
        return True
    return False


def _old(hall: Hall, chance: Random) -> Iterator[tuple[Bout, Outcome]]:
    rows = {row.bout_id: row.outcome for row in hall.results()}
    bouts = [bout for bout in hall.all() if bout.pk in rows]
    columns = sorted({bout.column for bout in bouts})
    if not columns:
        return
    last = columns[max(0, len(columns) - 1 - BACK)]
    early = [bout for bout in bouts if bout.column <= last and rows[bout.pk].winner is not None]
    for bout in chance.sample(early, min(TRIES, len(early))):
        yield bout, rows[bout.pk]


def _other(hall: Hall, chance: Random, old: Outcome) -> Outcome:
    """Mostly the other one has won; sometimes nobody."""
    if chance.random() < 0.1:
        return unwon(chance, hall.rules)
    flipped: Side = 1 if old.winner == 0 else 0
    return won(chance, hall.rules, flipped)


def _chosen(
    look: Look, chance: Random, wanted: Choice | None
) -> tuple[Preview, dict[BoutKey, Choice]]:
    """Choose about every wrestled bout as it comes up: first what is wanted, then by chance."""
    choices: dict[BoutKey, Choice] = {}
    while True:
        seen = look(choices)
        if not seen.wrestled:
            return seen, choices
        for bout in seen.wrestled:
            first = wanted and (wanted not in choices.values() or chance.random() < 0.6)
            choices[bout.key] = wanted if first and wanted else chance.choice(list(Choice))


def make_ruling(hall: Hall, chance: Random, event: Event) -> bool:
    """Rule something of this kind; whether anything was found that can be ruled."""
    for wanted in _wanted(hall, chance, event):
        try:
            seen, choices = _chosen(partial(_look, hall, wanted), chance, None)
        except Refusal as refusal:
            if refusal.code not in CANNOT:
                raise
            continue
        if seen.possible:
            rule(
                call=hall.call, drawn=hall.drawn, wanted=wanted, reason="ruled",
                choices=choices, mark=seen.mark,
            )  # fmt: skip
            return True
    return False


def _look(hall: Hall, wanted: Wanted, choices: dict[BoutKey, Choice]) -> Preview:
    return look_at_ruling(hall.drawn, wanted, choices)[1]


def _wanted(hall: Hall, chance: Random, event: Event) -> Iterator[Wanted]:
    entries = list(hall.built.entries())
    bouts = hall.all()
    for _ in range(TRIES):
        if event is Event.RULED_PLACE:
            place = chance.choice([None, *range(1, hall.built.places + 1)])
            yield WantedPlace(chance.choice(entries), place, shared=chance.random() < 0.3)
        elif event is Event.RULED_RESULT:
            yield WantedResult(chance.choice(bouts).key, chance.choice((0, 1, 0, 1, None)))
        elif keys := [
            key for key in hall.built.sources if hall.round_of(key).section is not Section.POOL
        ]:
            yield _seats(hall, chance, event, entries, keys)


def _seats(
    hall: Hall, chance: Random, event: Event, entries: list[str], keys: list[BoutKey]
) -> Wanted:
    """Of a bout that is soon to come, or of any."""
    soon = [bout.key for bout in hall.ready() if bout.key in keys]
    key = chance.choice(soon if soon and chance.random() < 0.7 else keys)
    one, other = chance.sample(entries, 2)
    if event is Event.RULED_ADVANCEMENT:
        if (odd := list(dropped(hall, chance))) and chance.random() < ODD:
            return chance.choice(odd)
        nobody = chance.random() < 0.1
        return WantedAdvance(Seat(key, chance.choice((0, 1))), None if nobody else one)
    perhaps = [key for key in keys if hall.round_of(key).needed]
    if perhaps and chance.random() < ODD:
        key = chance.choice(perhaps)
    return WantedSides(key, (one, None if chance.random() < 0.1 else other))


def dropped(hall: Hall, chance: Random) -> Iterator[Wanted]:
    """The seats of those who dropped from a bout that nobody won, and the seat to which it leads,
    for somebody who is out."""
    bouts = hall.all()
    ahead = [bout for bout in bouts if bout.status in ("ready", "waiting")]
    inside = {one for bout in ahead for one in (bout.top_id, bout.bottom_id)}
    unwon = [bout for bout in bouts if bout.status == "decided" and not bout.winner_id]
    lost = {one for bout in unwon for one in (bout.top_id, bout.bottom_id)}
    met = {side.pk: side.key for bout in bouts for side in (bout.top, bout.bottom) if side}
    out = [key for pk, key in met.items() if pk not in inside]
    if not unwon or not out or not hall.drops:
        return
    for bout in ahead:
        for slot, side in enumerate((bout.top_id, bout.bottom_id)):
            if side in lost and hall.round_of(bout.key).section is not Section.POOL:
                yield WantedAdvance(Seat(bout.key, slot), chance.choice(out))
    for bout in unwon:
        if seat := hall.built.onward(bout.key, Exit.WINNER):
            yield WantedAdvance(seat, chance.choice(out))


def double_disqualification() -> Outcome:
    return Outcome(Kind.DOUBLE_DISQUALIFICATION, None)
