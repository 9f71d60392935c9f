"""Plans in which those come back whom a leader beat, and the plan for every format."""

from __future__ import annotations

from dataclasses import replace

from . import elimination as el
from .elimination import Task
from .model import Beaten, Exit, Key, Line, Node, Plan, Source, pairs


def chain(plan: Plan, task: Task, leaders: str, before: bool) -> list[list[Source]]:
    """For each leader whom he beat, the earliest first; `before`: not in the round itself."""
    leading = next(n for n in range(1, task.rounds) if task.code(n) == leaders)
    last = leading - 1 if before else leading
    pigtails = ["P"] if task.doubles else []
    codes = pigtails + [task.code(n) for n in range(1, last + 1)]
    return [
        [Beaten((leaders, i), code) for code in codes]
        for i in range(1, plan.count(leaders) + 1)
    ]


def wrestle(
    plan: Plan, chains: list[list[Source]], rounds: int, column: tuple[int, int]
) -> tuple[list[Source], int]:
    """The chains' bouts: the first two against each other, the winner against the next."""
    heads = [links[0] for links in chains]
    for number in range(1, rounds + 1):
        bouts = [(head, links[number]) for head, links in zip(heads, chains, strict=True)]
        code = f"C{number}"
        plan.add(code, (column[0], column[1] + number - 1), bouts, "consolation")
        heads = plan.exits(code, True)
    return heads, rounds


def after(plan: Plan, task: Task, heads: list[Source], done: int) -> None:
    """Four winners of chains go on as the winners of C(2k-6) do where everyone wrestles back."""
    k = task.rounds
    pairing, dropping = f"C{done + 1}", f"C{done + 2}"
    plan.add(pairing, (-1, 3), pairs(heads), "consolation")
    bouts = el.drop(plan, task, plan.exits(pairing, True), k - 1)
    plan.add(dropping, (0, 2), bouts, "consolation")
    el.places(plan, task, (dropping + "+", dropping + "-", pairing + "-", "", ""))


def quarterfinal_winners(plan: Plan, task: Task) -> None:
    """Four chains to the losers of the quarterfinals."""
    chains = chain(plan, task, "QF", before=False)
    heads, done = wrestle(plan, chains, len(chains[0]) - 1, (-2, 4))
    after(plan, task, heads, done)


def follow_the_leader(plan: Plan, task: Task) -> None:
    """Four chains of those beaten before, each against a loser of the quarterfinals."""
    if task.lines == 8:
        follow_on_eight(plan, task)
        return
    chains = chain(plan, task, "QF", before=True)
    heads, done = wrestle(plan, chains, len(chains[0]) - 1, (-2, 4))
    code = f"C{done + 1}"
    bouts = el.drop(plan, task, heads, task.rounds - 2)
    plan.add(code, (-1, 2), bouts, "consolation")
    after(plan, task, plan.exits(code, True), done + 1)


def follow_on_eight(plan: Plan, task: Task) -> None:
    """On 8 lines only the loser of a pigtail hangs on his leader, in the consolation pigtail."""
    el.everyone(plan, task)
    for number in range(1, len(task.doubles) + 1):
        key: Key = ("CP", number)
        node = plan.nodes[key]
        leader: Source = Beaten(("QF", task.feeder(number - 1)), "P")
        plan.nodes[key] = replace(node, sources=(leader, node.sources[1]))
    el.places(plan, task, ("C2+", "C2-", "C1-", "", ""))


def finalists(plan: Plan, task: Task) -> None:
    """Two chains to the losers of the semifinals."""
    chains = chain(plan, task, "SF", before=False)
    bouts = len(chains[0]) - 1
    two = task.thirds == "two"
    heads, _ = wrestle(plan, chains, bouts - 1 if two else bouts, (-1, 3))
    if two:
        last = [(head, links[-1]) for head, links in zip(heads, chains, strict=True)]
        plan.add("3rd", (0, 10), last, "placing", 3, 5 if task.depth > 4 else None)
    else:
        el.places(plan, task, (f"C{bouts}+", f"C{bouts}-", "", "", ""))


def nobody(plan: Plan, task: Task) -> None:
    """Only the losers of the semifinals wrestle on, for 3rd, or both are third."""
    if task.thirds == "two":
        for position in (1, 2):
            key: Key = ("SF", position)
            node: Node = plan.nodes[key]
            plan.nodes[key] = replace(node, lose_place=3)
    else:
        el.places(plan, task, ("SF-", "", "", "", ""))


def eliminate(task: Task, challenged: list[int]) -> Plan:
    """The plan of an elimination with its way back."""
    plan = Plan()
    k = task.rounds
    el.championship(plan, task)
    back = task.wrestleback
    if back != "double-elimination":
        el.final(plan)
    last = f"C{2 * k - 4}"
    lower = (f"C{2 * k - 5}-", f"C{2 * k - 6}-", f"C{2 * k - 7}-")
    if back in ("everyone", "to-fifth", "double-elimination"):
        el.everyone(plan, task)
    if back == "everyone":
        el.places(plan, task, (last + "+", last + "-", *lower))
    elif back == "to-fifth":
        el.places(plan, task, ("SF-", f"C{2 * k - 5}+", *lower))
    elif back == "double-elimination":
        el.double_title(plan, task)
        el.places(plan, task, ("", last + "-", *lower))
    elif back == "quarterfinal-winners":
        quarterfinal_winners(plan, task)
    elif back == "follow-the-leader":
        follow_the_leader(plan, task)
    elif back == "finalists":
        finalists(plan, task)
    else:
        nobody(plan, task)
    el.true_places(plan, challenged)
    plan.ordered()
    return plan


ORDERS = {
    2: [[(1, 2)]],
    3: [[(2, 3)], [(1, 3)], [(1, 2)]],
    4: [[(1, 4), (2, 3)], [(1, 3), (2, 4)], [(1, 2), (3, 4)]],
    # five rounds, one rests; the text leaves the pairings open but for the best two last
    5: [
        [(2, 5), (3, 4)],
        [(1, 5), (2, 4)],
        [(1, 4), (2, 3)],
        [(1, 3), (4, 5)],
        [(1, 2), (3, 5)],
    ],
}


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
    plan.add("RR1", (-1, 1), bout, "pool")
    plan.add("RR2", (0, 1), bout, "pool")
    plan.add("RR3", (1, 0), bout, "pool", need="third of three")
    plan.pool_places = {(0, 1): 1, (0, 2): 2}
    return plan


def two_pools(size: int, depth: int) -> Plan:
    """Two pools, crossed semifinals, and the thirds of the pools for 5th."""
    from .model import Rank

    dealt = [[0, 3, 4], [1, 2, 5, 6][: size - 3]]
    plan = Plan(pools=[[Line(i) for i in pool] for pool in dealt])
    for number in range(3):
        bouts: list[tuple[Source, Source]] = []
        for pool in dealt:
            order = ORDERS[len(pool)][number]
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


__all__ = ["Exit", "best_of_three", "eliminate", "round_robin", "two_pools"]
