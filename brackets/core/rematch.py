"""When the two of a bout can meet again: what the crossings of the consolation side are for."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from brackets.core.errors import NoSuchBout
from brackets.core.graph import BoutKey, Bracket, Round


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
    will be wrestled if everyone appears, on both sides of the bracket. A round robin has a row a
    round too, all without a rematch.
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
    a bye is never lost. Follows both at once; whoever is in the earlier bout moves on.
    """
    if key not in bracket.sources:
        raise NoSuchBout(bout=key)
    wiring = bracket.wiring
    start = wiring.index[key]
    waiting = [(wiring.onward[2 * start], wiring.onward[2 * start + 1])]
    seen = set(waiting)
    met: list[int] = []
    while waiting:
        first, second = sorted(waiting.pop())
        if first < 0:
            continue
        if first // 2 == second // 2:
            met.append(first // 2)
            continue
        for way in _ways(bracket, first // 2):
            pair = (wiring.onward[way], second)
            if pair not in seen:
                seen.add(pair)
                waiting.append(pair)
    return wiring.keys[min(met)] if met else None


def _ways(bracket: Bracket, bout: int) -> Iterator[int]:
    yield 2 * bout
    if bracket.wiring.keys[bout] not in bracket.byes:
        yield 2 * bout + 1
