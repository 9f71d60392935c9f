"""Plans of eliminations: the championship side and the bouts for places."""

from __future__ import annotations

from dataclasses import dataclass

from tests.audit.judge.model import Exit, Key, Line, Plan, Source, pairs


@dataclass(frozen=True)
class Task:
    """What an elimination is to be: `doubles` are the lines with a pigtail, from 0."""

    lines: int
    doubles: tuple[int, ...]
    masks: tuple[int, ...]  # of rounds 2 to the semifinals
    partner: int  # first-round bout whose loser meets the loser of the first bout's pigtail
    depth: int
    wrestleback: str
    thirds: str

    @property
    def rounds(self) -> int:
        """How many championship rounds there are."""
        return self.lines.bit_length() - 1

    def code(self, number: int) -> str:
        """The name of a championship round."""
        named = {self.rounds: "1st", self.rounds - 1: "SF", self.rounds - 2: "QF"}
        return named.get(number, f"R{number}")

    def mask(self, number: int) -> int:
        """The crossing of the losers of a championship round."""
        return self.masks[number - 2]

    def feeder(self, pigtail: int) -> int:
        """The first-round bout (from 1) that a pigtail (from 0) leads to."""
        return self.doubles[pigtail] // 2 + 1


def championship(plan: Plan, task: Task) -> None:
    """Pigtails, the rounds before the final, and the final but of a double elimination."""
    k = task.rounds
    plan.add("P", (1 - k, -1), [(Line(i, 0), Line(i, 1)) for i in task.doubles], "championship")
    starts: list[Source] = [Line(i) for i in range(task.lines)]
    for position, line in enumerate(task.doubles, 1):
        starts[line] = Exit(("P", position), True)
    for number in range(1, k):
        plan.add(task.code(number), (number - k, 0), pairs(starts), "championship")
        starts = plan.exits(task.code(number), True)
    if task.lines < 8 or task.wrestleback != "double-elimination":
        plan.add("1st", (0, 11), pairs(starts), "final", 1, 2)


def consolation_pigtails(plan: Plan, task: Task) -> list[Source]:
    """The losers of the first round, winners of consolation pigtails in their place."""
    first = task.code(1)
    losers = plan.exits(first, False)
    half = len(losers)
    bouts: list[tuple[Source, Source]] = []
    replaced: list[int] = []
    for number in range(len(task.doubles)):
        index = (task.feeder(number) - 1 + task.partner - 1) % half
        bouts.append((Exit(("P", number + 1), False), losers[index]))
        replaced.append(index)
    plan.add("CP", (2 - task.rounds, 1), bouts, "consolation")
    for number, index in enumerate(replaced, 1):
        losers[index] = Exit(("CP", number), True)
    return losers


def consolation_time(task: Task, number: int) -> tuple[int, int]:
    """The time of consolation round d: (n - k, 2) for d = 2n - 4, (n - k, 3) for d = 2n - 3."""
    if number % 2 == 0:
        return ((number + 4) // 2 - task.rounds, 2)
    return ((number + 3) // 2 - task.rounds, 3)


def drop(plan: Plan, task: Task, winners: list[Source], number: int) -> list[tuple[Source, Source]]:
    """Winners of the consolation side against the losers of a championship round, crossed."""
    code, mask = task.code(number), task.mask(number)
    return [(who, Exit((code, (i ^ mask) + 1), False)) for i, who in enumerate(winners)]


def everyone(plan: Plan, task: Task) -> None:
    """The consolation side on which everyone wrestles back."""
    losers = consolation_pigtails(plan, task)
    plan.add("C1", consolation_time(task, 1), pairs(losers), "consolation")
    last = task.rounds - (2 if task.wrestleback == "to-fifth" else 1)
    on(plan, task, range(2, last + 1), plan.exits("C1", True))


def on(plan: Plan, task: Task, dropping: range, winners: list[Source]) -> None:
    """Drop rounds, and the pairings between them."""
    for number in dropping:
        code = f"C{2 * number - 2}"
        bouts = drop(plan, task, winners, number)
        plan.add(code, consolation_time(task, 2 * number - 2), bouts, "consolation")
        if number < task.rounds - 1:
            paired = f"C{2 * number - 1}"
            time = consolation_time(task, 2 * number - 1)
            plan.add(paired, time, pairs(plan.exits(code, True)), "consolation")
            winners = plan.exits(paired, True)


def double_title(plan: Plan, task: Task) -> None:
    """The last rounds of a double elimination."""
    k = task.rounds
    last, semi, title = f"C{2 * k - 4}", f"C{2 * k - 3}", f"C{2 * k - 2}"
    plan.add("UF", (0, 0), pairs(plan.exits("SF", True)), "championship")
    plan.add(semi, (0, 3), pairs(plan.exits(last, True)), "consolation", None, 4)
    bout: list[tuple[Source, Source]] = [(Exit((semi, 1), True), Exit(("UF", 1), False))]
    plan.add(title, (0, 10), bout, "consolation", None, 3)
    plan.add("1st", (0, 11), [(Exit(("UF", 1), True), Exit((title, 1), True))], "final", 1, 2)
    again: list[tuple[Source, Source]] = [(Exit(("1st", 1), True), Exit(("1st", 1), False))]
    plan.add("1st2", (1, 3), again, "final", 1, 2, need="unbeaten lost")


def places(plan: Plan, task: Task, names: tuple[str, str, str, str, str]) -> None:
    """The bouts for 3rd and below: whose winners or losers wrestle for 3rd, 5th, 7th, 9th, 13th.

    A name is a round with + for its winners or - for its losers; "" where there are none.
    """
    for first, name in zip((3, 5, 7, 9, 13), names, strict=True):
        code, won = name[:-1], name.endswith("+")
        if first > task.depth or not name or not plan.count(code):
            continue
        who = plan.exits(code, won)
        if first >= 9:
            four(plan, task, first, who)
        else:
            time = (0, {3: 10, 5: 9, 7: 8}[first])
            plan.add(ordinal(first), time, pairs(who), "placing", first, first + 1)


def four(plan: Plan, task: Task, first: int, who: list[Source]) -> None:
    """Four losers wrestle out a place and those of the three below it that are given."""
    code = f"{first}SF"
    plan.add(code, (-1, 5 if first == 9 else 4), pairs(who), "consolation")
    top, low = pairs(plan.exits(code, True)), pairs(plan.exits(code, False))
    times = {9: (7, 6), 13: (5, 4)}[first]
    plan.add(ordinal(first), (0, times[0]), top, "placing", first, first + 1)
    if task.depth >= first + 2:  # no bout is wrestled for a place that is not given
        plan.add(ordinal(first + 2), (0, times[1]), low, "placing", first + 2, first + 3)


def true_places(plan: Plan, wanted: list[int]) -> None:
    """Challenges of the holders of places, the best one last."""
    for place in sorted(wanted, reverse=True):
        holder: Key = (ordinal(place - 1), 1)
        challenger: Key = (ordinal(place + 1), 1)
        alone = (ordinal(place + 1), 2) not in plan.nodes
        if holder in plan.nodes and challenger in plan.nodes and alone:
            bout: list[tuple[Source, Source]] = [(Exit(holder, False), Exit(challenger, True))]
            time = (1, 3 - place // 2)
            plan.add(ordinal(place), time, bout, "placing", place, place + 1, need="challenge")
    plan.ordered()


def ordinal(number: int) -> str:
    """A place as it is written: 1st, 2nd, 3rd, 4th, ..."""
    ending = {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{'th' if 10 < number % 100 < 14 else ending}"
