"""When the two of a bout can meet again: what the crossings of the consolation side are for.

Two are followed at once through the bracket; whoever is in the earlier bout moves on. Who waits for
the man who beat him to go on stands still until that man is there. Out of a pool everybody may
come to every rank, no two to the same.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby, permutations

from brackets.core.errors import NoSuchBout
from brackets.core.graph import BoutKey, Bracket, Needed, Ranked, Round
from brackets.core.wiring import Victim


@dataclass(frozen=True, slots=True)
class Row:
    """Bouts of one round whose opponents meet again in the same round, or never.

    `round`: where they met. `bouts`: how many of its bouts are of this kind. `example`: the first
    of them. `again`: where the two of the example can meet again at the earliest, None when they
    cannot. `then`: the round of `again`; its `column` is its place in the running order.
    """

    round: Round
    bouts: int
    example: BoutKey
    again: BoutKey | None
    then: Round | None


def rematches(bracket: Bracket) -> tuple[Row, ...]:
    """For every round that is wrestled, when those who met in it can meet again.

    Rounds in running order; of one round the earliest rematch first, "never" last. Only bouts that
    will be wrestled if everyone appears, on both sides of the bracket.
    """
    by_code = {one.code: one for one in bracket.rounds}
    rows: list[Row] = []
    for code, keys in groupby(bracket.bouts, key=lambda key: key.round):
        kinds: dict[Round | None, list[tuple[BoutKey, BoutKey | None]]] = {}
        for key in keys:
            again = earliest_rematch(bracket, key)
            kinds.setdefault(by_code[again.round] if again else None, []).append((key, again))
        rows += sorted(
            (Row(by_code[code], len(found), *found[0], then) for then, found in kinds.items()),
            key=lambda row: row.then.column if row.then else len(by_code) + 1,
        )
    return tuple(rows)


def earliest_rematch(bracket: Bracket, key: BoutKey) -> BoutKey | None:
    """The first bout, in running order, in which the two of bout `key` can meet again.

    None when they cannot. Everything is possible: every bout has a winner, either one may win; only
    a bye is never lost. A bout that is wrestled only by two who have not met is none.
    """
    if key not in bracket.sources:
        raise NoSuchBout(bout=key)
    wiring = bracket.wiring
    start = wiring.index[key]
    met = _same_lines(bracket, start) if wiring.pool[start] else []
    if not met:
        met = _meetings(bracket, _starts(bracket, start))
    return wiring.keys[min(met)] if met else None


def _same_lines(bracket: Bracket, bout: int) -> list[int]:
    """Later bouts of the same two lines, as in a best of three."""
    inputs = bracket.wiring.inputs
    return [i for i in range(bout + 1, len(inputs)) if inputs[i] == inputs[bout]]


def _starts(bracket: Bracket, bout: int) -> list[tuple[int, int]]:
    """The seats that the two of a bout may come to together."""
    wiring = bracket.wiring
    if wiring.pool[bout]:
        at = next(n for n, one in enumerate(bracket.pools) if wiring.keys[bout] in one.bouts)
        seats = [
            wiring.onward[wiring.first_special + n]
            for n, one in enumerate(wiring.specials)
            if isinstance(one, Ranked) and one.pool == at
        ]
        return list(permutations(seats, 2))
    special = wiring.chances.get(2 * bout + 1)
    if special is None:
        return [(wiring.onward[2 * bout], wiring.onward[2 * bout + 1])]
    leaders = (wiring.specials[special - wiring.first_special],)
    return [
        (wiring.onward[one.by], wiring.onward[special])
        for one in leaders
        if isinstance(one, Victim)
    ]


def _meetings(bracket: Bracket, starts: list[tuple[int, int]]) -> list[int]:
    """The bouts in which two meet who stand on such seats together."""
    wiring = bracket.wiring
    waiting = list(starts)
    seen = set(waiting)
    met: list[int] = []
    while waiting:
        first, second = sorted(waiting.pop())
        if first < 0:
            continue
        if first // 2 == second // 2:
            if wiring.needed[first // 2] is not Needed.UNMET:
                met.append(first // 2)
            continue
        for way in _ways(bracket, first // 2):
            pair = (wiring.onward[wiring.chances.get(way, way)], second)
            if pair not in seen:
                seen.add(pair)
                waiting.append(pair)
    return met


def _ways(bracket: Bracket, bout: int) -> Iterator[int]:
    yield 2 * bout
    if bracket.wiring.keys[bout] not in bracket.byes:
        yield 2 * bout + 1
