"""When the two of a bout can meet again: what the crossings of the consolation side are for."""

from brackets.core.errors import NoSuchBout
from brackets.core.graph import BoutKey, Bracket


def earliest_rematch(bracket: Bracket, key: BoutKey) -> BoutKey | None:
    """The first bout, in running order, in which the two of bout `key` can meet again.

    None when they cannot. Everything is possible: every bout has a winner, either one may win.
    Follows both at once; whoever is in the earlier bout moves on, by either way out of it.
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
            met += [first // 2] if first != second else []
            continue
        for way in (2 * (first // 2), 2 * (first // 2) + 1):
            pair = (wiring.onward[way], second)
            if pair not in seen:
                seen.add(pair)
                waiting.append(pair)
    return wiring.keys[min(met)] if met else None
