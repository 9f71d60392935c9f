"""Plans in which those come back whom a leader beat, and the plan of every elimination."""

from __future__ import annotations

from dataclasses import replace

from tests.audit.judge import elimination as el
from tests.audit.judge.elimination import Task
from tests.audit.judge.model import Beaten, Exit, Key, Node, Plan, Source, pairs


def chain(plan: Plan, task: Task, leaders: str, before: bool) -> list[list[Source]]:
    """For each leader whom he beat, the earliest first; `before`: not in the round itself.

    Last is the loser of that round itself, also of a bout that nobody won.
    """
    leading = next(n for n in range(1, task.rounds) if task.code(n) == leaders)
    pigtails = ["P"] if task.doubles else []
    codes = pigtails + [task.code(n) for n in range(1, leading)]
    chains: list[list[Source]] = []
    for i in range(1, plan.count(leaders) + 1):
        links: list[Source] = [Beaten((leaders, i), code) for code in codes]
        chains.append(links if before else [*links, Exit((leaders, i), False)])
    return chains


def wrestle(
    plan: Plan, chains: list[list[Source]], rounds: int, column: tuple[int, int]
) -> tuple[list[Source], int]:
    """The chains' bouts: the first two against each other, the winner against the next."""
    heads = [links[0] for links in chains]
    for number in range(1, rounds + 1):
        bouts = [(head, links[number]) for head, links in zip(heads, chains, strict=True)]
        code = f"C{number}"
        plan.add(code, (column[0], column[1] + number), bouts, "consolation")
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
        leader: Source = Beaten(("QF", task.feeder(number - 1)), "P", number)
        plan.nodes[key] = replace(node, sources=(leader, node.sources[1]))
    el.places(plan, task, ("C2+", "C2-", "C1-", "", ""))


def finalists(plan: Plan, task: Task) -> None:
    """Two chains to the losers of the semifinals."""
    chains = chain(plan, task, "SF", before=False)
    bouts = len(chains[0]) - 1
    two = task.thirds == "two"
    heads, _ = wrestle(plan, chains, bouts - 1, (-1, 3))
    last = [(head, links[-1]) for head, links in zip(heads, chains, strict=True)]
    if two:
        plan.add("3rd", (0, 10), last, "placing", 3, 5)
    else:
        plan.add(f"C{bouts}", (0, 2), last, "consolation")
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


def all_back(plan: Plan, task: Task) -> None:
    """Everyone, to fifth, and double elimination."""
    k = task.rounds
    fifth = task.wrestleback == "to-fifth"
    if not fifth or task.depth > 4:
        el.everyone(plan, task)
    last, paired = f"C{2 * k - 4}", f"C{2 * k - 5}"
    lower = (f"C{2 * k - 5}-", f"C{2 * k - 6}-", f"C{2 * k - 7}-")
    if fifth:
        el.places(plan, task, ("SF-", paired + "+", *lower))
    elif task.wrestleback == "everyone":
        el.places(plan, task, (last + "+", last + "-", *lower))
    else:
        el.double_title(plan, task)
        el.places(plan, task, ("", last + "-", *lower))


WAYS_BACK = {
    "everyone": all_back,
    "to-fifth": all_back,
    "double-elimination": all_back,
    "quarterfinal-winners": quarterfinal_winners,
    "follow-the-leader": follow_the_leader,
    "finalists": finalists,
    "nobody": nobody,
}


def eliminate(task: Task) -> Plan:
    """The plan of an elimination with its way back."""
    plan = Plan()
    el.championship(plan, task)
    double = task.wrestleback == "double-elimination"
    if task.lines < 8:  # the text has none: at most the losers of the semifinals wrestle, for 3rd
        if task.lines == 4 and task.depth > 2:
            nobody(plan, task)
    elif double or task.depth > 2:
        WAYS_BACK[task.wrestleback](plan, task)
    plan.ordered()
    return plan
