"""Ways back that hang on who goes on: chains of those whom a leader beat.

A chain belongs to a leader, the winner of a quarterfinal or semifinal. It begins with those whom he
beat first: the loser of the earliest round meets that of the next, the winner that of the one after
that, to the last. After a bye of the leader there is nobody, and the next one waits.

* Quarterfinal winners: four chains, each to the loser of the quarterfinal itself. Their winners
  meet as the winners of C(2k-6) do where everyone wrestles back.
* Follow the leader: four chains of those beaten before the quarterfinals. A chain's winner stands
  against a loser of the quarterfinals, crossed as the rule book says; the rest as everyone. On 8
  lines nobody is beaten before but in a pigtail: he comes to his consolation pigtail if the man
  who beat him wins his quarterfinal.
* Finalists: two chains, each to the loser of the semifinal itself. Their last bouts give the two
  thirds and two fifths, or their winners wrestle for 3rd and their losers for 5th.

Bouts on L = 2^k full lines without pigtails, v = k - 3 rounds before the quarterfinals:
quarterfinal winners and follow the leader L + 4v + 4 to 4 places, one more for 5th, one for 7th;
finalists L - 1 + 2(k - 2) to two thirds, one more for 3rd where it is wrestled for, one for 5th
(calculated).

Sources: who comes back: published. Finalists: UWW, published; order of the chains from memory,
unconfirmed. How the chains of the other two go on: common sense, no source.
"""

from collections.abc import Iterator, Sequence

from brackets.core.elimination import Task, drop_in, first_drops, plan_places
from brackets.core.plan import Plan, consolation, paired, placing
from brackets.core.rules import Thirds
from brackets.core.sources import Beaten, From, Round, Section, Source, Sources

QUARTERFINALS = (-2, 4)
"""The time after which chains of the quarterfinals' winners are wrestled, see `plan`."""


def plan_quarterfinal_winners(plan: Plan, task: Task) -> None:
    """Four chains to the losers of the quarterfinals, then as everyone."""
    if task.depth < 3:
        return
    chains = _victims(plan, task, "QF", task.last - 2)
    for chain, loser in zip(chains, plan.losers("QF"), strict=True):
        chain.append(loser)
    fed, rounds = _wrestled(plan, chains, QUARTERFINALS)
    _rest(plan, task, list(zip(fed[::2], fed[1::2], strict=True)), rounds)


def plan_follow_the_leader(plan: Plan, task: Task) -> None:
    """Four chains against the losers of the quarterfinals, then as everyone."""
    if task.depth < 3:
        return
    chains = _victims(plan, task, "QF", task.last - 2)
    if task.last == 3:
        drops = first_drops(plan, task, list(_followers(plan)))
        _rest(plan, task, list(zip(drops[::2], drops[1::2], strict=True)), 0)
        return
    fed, rounds = _wrestled(plan, chains, QUARTERFINALS)
    code = f"C{rounds + 1}"
    crossing = task.crossings[task.last - 4]
    drop_in(plan, consolation(code, (-1, 2)), fed, crossing, "QF")
    _rest(plan, task, paired(plan.winners(code)), rounds + 1)


def plan_finalists(plan: Plan, task: Task) -> None:
    """Two chains to the losers of the semifinals; two thirds, or a bout for 3rd."""
    if task.depth < 3:
        return
    chains = _victims(plan, task, "SF", task.last - 1)
    fed, rounds = _wrestled(plan, chains, (-1, 3))
    last = list(zip(fed, plan.losers("SF"), strict=True))
    if task.thirds is Thirds.TWO:
        plan.add(Round("3rd", Section.CONSOLATION, (3, 5), when=(0, 10)), last)
        return
    code = f"C{rounds + 1}"
    plan.add(consolation(code, (0, 2)), last)
    plan.add(placing(3), paired(plan.winners(code)))
    if task.depth >= 5:
        plan.add(placing(5), paired(plan.losers(code)))


def _victims(plan: Plan, task: Task, leader: str, number: int) -> list[list[Source]]:
    """Per leader whom he beat before, earliest first; leaders win championship round `number`."""
    before = ["P"] if any(key.round == "P" for key in plan.sources) else []
    before += [task.code(one) for one in range(1, number)]
    keys = [key for key in plan.sources if key.round == leader]
    return [[Beaten(key, code) for code in before] for key in keys]


def _followers(plan: Plan) -> Iterator[Beaten]:
    """Of 8 lines: the losers of pigtails, who hang on the quarterfinal behind theirs."""
    for key, sides in plan.sources.items():
        if any(isinstance(side, From) and side.bout.round == "P" for side in sides):
            yield Beaten(key, "P")


def _wrestled(
    plan: Plan, chains: Sequence[Sequence[Source]], when: tuple[int, int]
) -> tuple[list[Source], int]:
    """The rounds C1, C2, ... of chains of one length; who comes out of them, and how many."""
    first, *further = zip(*chains, strict=True)
    fed: list[Source] = [*first]
    for at, following in enumerate(further, start=1):
        bouts = list(zip(fed, following, strict=True))
        plan.add(consolation(f"C{at}", (when[0], when[1] + at)), bouts)
        fed = [*plan.winners(f"C{at}")]
    return fed, len(further)


def _rest(plan: Plan, task: Task, pairs: Sequence[Sources], rounds: int) -> None:
    """From the consolation quarterfinals on as everyone."""
    before, last = f"C{rounds + 1}", f"C{rounds + 2}"
    plan.add(consolation(before, (-1, 3)), pairs)
    drop_in(plan, consolation(last, (0, 2)), plan.winners(before), task.crossings[-1], "SF")
    plan_places(plan, task, last, before)
