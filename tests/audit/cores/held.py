"""How a weight stands by the cores, and where the judge does not agree."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from functools import partial
from typing import Any

from brackets.core.progress import play
from brackets.core.standing import BoutState, Occupant, Standing, Vacancy
from results.core.outcomes import Outcome, write_time
from results.core.placings import rank_pool
from results.core.points import Item, Part, bonus, ledger
from results.core.rulings import write_ruling
from results.queries.facts import Facts
from tests.audit.cores.made import Made
from tests.audit.judge.compare import Weight
from tests.audit.judge.read import weights
from tests.audit.judge.standing import State

COLUMN = {
    Item.PLACEMENT: "placement",
    Item.ADVANCEMENT: "advancement",
    Item.BYE: "advancement",
    Item.BONUS: "bonus",
    Item.MISCONDUCT: "adjustments",
}
Document = dict[str, Any]


def standing(made: Made, known: Facts) -> Standing:
    """The weight as these facts make it."""
    return play(
        made.bracket,
        known.verdicts,
        made.rules,
        out=known.out,
        vacating=known.vacating,
        pool_order=_pool_order(made, known),
        rulings=known.rulings,
    )


def _pool_order(made: Made, known: Facts) -> tuple[tuple[str, ...], ...] | None:
    pools = made.bracket.pools
    if not pools:
        return None
    bouts = {key for pool in pools for key in pool.bouts}
    found = play(
        made.bracket,
        {key: one for key, one in known.verdicts.items() if key in bouts},
        made.rules,
        out=known.out,
        vacating=known.vacating,
        rulings=known.rulings,
    )
    return tuple(
        group
        for pool in pools
        for group in rank_pool(
            replace(found, bouts={key: found.bouts[key] for key in pool.bouts}),
            known.outcomes,
            made.results,
            bonus=partial(bonus, rules=made.points),
        )
    )


def differences(made: Made, known: Facts) -> list[str]:
    """Where the cores and the judge do not agree about these facts."""
    found = standing(made, known)
    (facts,) = weights(document(made, known, found))
    judged = Weight(facts)
    return [
        *_bouts(found, judged),
        *_places(found, judged),
        *_points(_sums(made, known, found), judged),
    ]


def _bouts(found: Standing, judged: Weight) -> Iterator[str]:
    mine = {(key.round, key.position): _mine(state) for key, state in found.bouts.items()}
    theirs = {key: _theirs(state) for key, state in judged.at.states.items()}
    for key in {**mine, **theirs}:
        if mine.get(key) != theirs.get(key):
            yield f"{key}: {mine.get(key)}, by the judge {theirs.get(key)}"


def _mine(state: BoutState) -> tuple[object, ...]:
    """`drawn`: of a bye, for whether it scores may hang on it later."""
    sides = tuple(_seat(one) for one in state.sides)
    return str(state.status), sides, state.winner, state.implied, state.ruled, state.drawn


def _theirs(state: State) -> tuple[object, ...]:
    winner = (state.winner or None) if state.status in ("decided", "bye") else None
    drawn = state.drawn and state.status == "bye"
    return state.status, state.sides, winner, state.implied, state.ruled, drawn


def _seat(one: Occupant) -> str | None:
    """As the judge writes it."""
    return one if isinstance(one, str) else "" if one is Vacancy.OPEN else None


def _places(found: Standing, judged: Weight) -> Iterator[str]:
    final = {entry: place for place, group in found.places.items() for entry in group}
    told = judged.placed
    if final != told.final:
        yield f"places {final}, by the judge {told.final}"
    if found.guaranteed != told.running:
        yield f"certain {dict(found.guaranteed)}, by the judge {told.running}"
    if final.keys() & found.in_full != final.keys() & told.alone:
        yield f"in full {sorted(found.in_full)}, by the judge {sorted(told.alone)}"


def _sums(made: Made, known: Facts, found: Standing) -> dict[str, dict[str, Decimal]]:
    parts: tuple[Part, ...] = ledger(
        made.bracket,
        found,
        known.outcomes,
        made.scorers,
        made.points,
        places=made.places,
        deductions=made.deductions,
        removed=known.removed,
    )
    sums: dict[str, dict[str, Decimal]] = defaultdict(lambda: defaultdict(Decimal))
    for part in parts:
        sums[part.entry][COLUMN[part.item]] += part.points
    return sums


def _points(sums: dict[str, dict[str, Decimal]], judged: Weight) -> Iterator[str]:
    """Each entry's, by column; shares to a thousandth."""
    for entry, score in judged.scores.items():
        for column, points in score.parts.items():
            if abs(sums[entry][column] - points) > Decimal("0.002"):
                yield f"{entry}: {column} {sums[entry][column]}, by the judge {points}"


def document(made: Made, known: Facts, found: Standing) -> Document:
    """What a tournament file says of the weight, as far as the judge reads it."""
    numbers = {key: number for number, key in enumerate(made.bracket.sources, start=1)}
    in_order = [key for key in numbers if key in known.outcomes]
    return {
        "divisions": [{"id": "open", "snapshot": made.book}],
        "weight_classes": [_weight(made)],
        "entries": [
            {"id": entry, "weight_class": "125", "team": one.team, "scoring": one.scoring}
            for entry, one in made.scorers.items()
        ],
        "brackets": [
            {
                "weight_class": "125",
                "format": str(made.bracket.format),
                "lines": [list(x) if isinstance(x, tuple) else x for x in made.bracket.lines],
                "crossings": made.crossings,
            }
        ],
        "bouts": [
            {"weight_class": "125", "round": key.round, "position": key.position, "number": number}
            for key, number in numbers.items()
        ],
        "results": [
            {"bout": numbers[key], **_result(known.outcomes[key], found.bouts[key].sides)}
            for key in in_order
        ],
        "rulings": [
            {"weight_class": "125", "kind": one.kind.value, **write_ruling(one)}
            for one in known.rulings
        ],
        "withdrawals": [
            {"entry": one.entry, "kind": one.kind, "after": str(one.behind) if one.behind else None}
            for one in known.left
        ],
    }


def _weight(made: Made) -> Document:
    return {"id": "125", "division": "open", "label": "125", "places": made.places}


def _result(outcome: Outcome, sides: tuple[Occupant, Occupant]) -> Document:
    return {
        "weight_class": "125",
        "winner": None if outcome.winner is None else sides[outcome.winner],
        "kind": str(outcome.kind),
        "score": list(outcome.score) if outcome.score else None,
        "time": None if outcome.time is None else write_time(outcome.time),
        "near_fall": outcome.near_fall,
        "misconduct": outcome.misconduct,
    }
