"""Small fields: round robins, a best of three, two pools with crossed semifinals.

* Round robin of 2 to 5: everyone meets everyone once; the ranking comes from outside.
* Best of three, of 2: a third bout only while neither has won two.
* Two pools, of 6 or 7: the ranks are dealt to pools A and B as 1 | 2 3 | 4 5 | 6 7 (A = 1 4 5,
  B = 2 3 6 7), everyone meets everyone of his pool; then the first of A meets the second of B and
  the first of B the second of A, the winners for 1st, the losers for 3rd, the two thirds of the
  pools for 5th; the fourth of the larger pool is 7th.

Bouts: n(n-1)/2 of a round robin of n; two or three; 11 of 6 and 14 of 7 to all places (calculated).

Sources: order of the rounds of 3 and 4: from memory, unconfirmed; 2 and 5 continue the pattern
(the best two meet last). Dealing of ranks: association page, for a pool of ten (A = 1 4 5 8 10,
B = 2 3 6 7 9). Crossed semifinals: rule books. The bout for 5th: common sense, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from brackets.core.plan import Plan, championship, final, paired, placing
from brackets.core.sources import BoutKey, Line, Needed, Pool, Ranked, Round, Section, Sources

POOL_ORDER = {
    2: (((1, 2),),),
    3: (((2, 3),), ((1, 3),), ((1, 2),)),
    4: (((1, 4), (2, 3)), ((1, 3), (2, 4)), ((1, 2), (3, 4))),
    5: (
        ((2, 5), (3, 4)),
        ((1, 5), (2, 4)),
        ((1, 4), (2, 3)),
        ((1, 3), (4, 5)),
        ((1, 2), (3, 5)),
    ),
}
"""Round robins by number of entrants: who meets whom in each round."""

DEALT = {6: ((1, 4, 5), (2, 3, 6)), 7: ((1, 4, 5), (2, 3, 6, 7))}
"""Two pools by number of entrants: the ranks of each, best first."""


@dataclass(frozen=True, slots=True)
class Grouped:
    """A plan with its pools, and the places that a rank of a pool has without a bout."""

    plan: Plan
    pools: tuple[Pool, ...]
    rank_places: dict[Ranked, int] = field(default_factory=dict)


def plan_round_robin(entrants: int) -> Grouped:
    """Everyone against everyone."""
    return _grouped([tuple(range(1, entrants + 1))], len(POOL_ORDER[entrants]))


def plan_best_of_three() -> Grouped:
    """Two bouts between two, and a third while neither has won both."""
    plan = Plan()
    sides: Sources = (Line(1), Line(2))
    for number in (1, 2, 3):
        needed = Needed.LEVEL if number == 3 else None
        one = Round(f"RR{number}", Section.POOL, when=(number - 3, 1), needed=needed)
        plan.add(one, [sides])
    return Grouped(plan, (Pool((1, 2), tuple(plan.sources)),))


def plan_two_pools(entrants: int, depth: int) -> Grouped:
    """Two pools, then semifinals and bouts for as many places as `depth`."""
    made = _grouped(DEALT[entrants], 5)
    plan = made.plan
    semifinals: list[Sources] = [(Ranked(0, 1), Ranked(1, 2)), (Ranked(1, 1), Ranked(0, 2))]
    plan.add(championship("SF", (-1, 0)), semifinals)
    plan.add(final(), paired(plan.winners("SF")))
    if depth >= 3:
        plan.add(placing(3), paired(plan.losers("SF")))
    if depth >= 5:
        plan.add(placing(5), [(Ranked(0, 3), Ranked(1, 3))])
    if depth >= 7:
        made.rank_places[Ranked(1, 4)] = 7
    return made


def _grouped(dealt: Sequence[tuple[int, ...]], end: int) -> Grouped:
    """The bouts within pools, round after round; `end`: see the times of `plan`."""
    plan = Plan()
    members: list[list[BoutKey]] = [[] for _ in dealt]
    orders = [POOL_ORDER[len(lines)] for lines in dealt]
    for number in range(1, max(map(len, orders)) + 1):
        code = f"RR{number}"
        bouts: list[Sources] = []
        for lines, order, keys in zip(dealt, orders, members, strict=True):
            for top, bottom in order[number - 1] if number <= len(order) else ():
                bouts.append((Line(lines[top - 1]), Line(lines[bottom - 1])))
                keys.append(BoutKey(code, len(bouts)))
        plan.add(Round(code, Section.POOL, when=(number - end, 1)), bouts)
    pools = zip(dealt, members, strict=True)
    return Grouped(plan, tuple(Pool(lines, tuple(keys)) for lines, keys in pools))
