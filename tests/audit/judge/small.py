"""Plans of small fields: round robins, a best of three, two pools."""

from __future__ import annotations

from tests.audit.judge.model import Line, Plan, Rank, Source, pairs

ORDERS: dict[int, list[list[tuple[int, int]]]] = {
    0: [],
    1: [],
    2: [[(1, 2)]],
    3: [[(2, 3)], [(1, 3)], [(1, 2)]],
    4: [[(1, 4), (2, 3)], [(1, 3), (2, 4)], [(1, 2), (3, 4)]],
    5: [
        [(2, 5), (3, 4)],
        [(1, 5), (2, 4)],
        [(1, 4), (2, 3)],
        [(1, 3), (4, 5)],
        [(1, 2), (3, 5)],
    ],
}
POOLS = ([0, 3, 4], [1, 2, 5, 6])  # lines of two pools


def round_robin(size: int) -> Plan:
    """Everyone against everyone, the best two last."""
    plan = Plan(pools=[[Line(i) for i in range(size)]])
    rounds = ORDERS[size]
    for number, bouts in enumerate(rounds, 1):
        sources: list[tuple[Source, Source]] = [(Line(a - 1), Line(b - 1)) for a, b in bouts]
        plan.add(f"RR{number}", (number - len(rounds), 1), sources, "pool")
    plan.pool_places = {(0, rank): rank for rank in range(1, size + 1)}
    return plan


def best_of_three() -> Plan:
    """Two bouts between two, and a third while neither has won both."""
    plan = Plan(pools=[[Line(0), Line(1)]])
    bout: list[tuple[Source, Source]] = [(Line(0), Line(1))]
    plan.add("RR1", (-2, 1), bout, "pool")
    plan.add("RR2", (-1, 1), bout, "pool")
    plan.add("RR3", (0, 1), bout, "pool", need="third of three")
    plan.pool_places = {(0, 1): 1, (0, 2): 2}
    return plan


def two_pools(size: int, depth: int) -> Plan:
    """Two pools, crossed semifinals, and the thirds of the pools for 5th."""
    dealt = [[line for line in pool if line < size] for pool in POOLS]
    plan = Plan(pools=[[Line(i) for i in pool] for pool in dealt])
    for number in range(3):
        bouts: list[tuple[Source, Source]] = []
        for pool in dealt:
            rounds = ORDERS[len(pool)]
            order = rounds[number] if number < len(rounds) else []
            bouts += [(Line(pool[a - 1]), Line(pool[b - 1])) for a, b in order]
        plan.add(f"RR{number + 1}", (number + 1 - 3 - 2, 1), bouts, "pool")
    semis: list[tuple[Source, Source]] = [(Rank(0, 1), Rank(1, 2)), (Rank(1, 1), Rank(0, 2))]
    plan.add("SF", (-1, 0), semis, "championship")
    plan.add("1st", (0, 11), pairs(plan.exits("SF", True)), "final", 1, 2)
    if depth >= 3:
        plan.add("3rd", (0, 10), pairs(plan.exits("SF", False)), "placing", 3, 4)
    if depth >= 5:
        plan.add("5th", (0, 9), [(Rank(0, 3), Rank(1, 3))], "placing", 5, 6)
    if depth >= 7 and size == 7:
        plan.pool_places = {(1, 4): 7}
    plan.ordered()
    return plan
