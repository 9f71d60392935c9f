"""Eliminations: the championship side, and each way back for its losers.

On L = 2^k lines, championship rounds 1..k:

* Everyone: C1 pairs the losers of the first round. For j = 1..k-2, C(2j)-i is the winner of
  C(2j-1)-i against a loser of championship round j+1, crossed as the rule book says; C(2j+1) pairs
  the winners of C(2j). The winners of C(2k-4) wrestle for 3rd, its losers for 5th, the losers of
  C(2k-5) for 7th, those of C(2k-6) for 9th to 12th (9SF), of C(2k-7) for 13th to 16th (13SF).
* To fifth: the same without C(2k-4); the winners of C(2k-5) wrestle for 5th, its losers for 7th,
  the losers of the semifinals for 3rd.
* Double elimination: as everyone; then C(2k-3) pairs the winners of C(2k-4), its loser is 4th;
  C(2k-2) is its winner against the loser of the final of the unbeaten (UF), its loser is 3rd; its
  winner meets the unbeaten for 1st, and again if he wins (1st2).
* A pigtail is wrestled for a line; its winner takes the line. Its loser goes to the consolation
  pigtail against a loser of the first round, and the winner of that takes this loser's place in
  C1. The rule book names the partner for the pigtail of the first bout (9 of 16 for 32 lines); a
  pigtail of another bout takes the partner at the same distance, counted round and round.

Bouts of n entrants, byes not counted, where n is large enough for all of them: everyone 2n-4 to 4
places, one more for 5th, one for 7th, four for 12, four for 16 (calculated); to fifth n to 4
places, 2n-5 to 6, 2n-4 to 8; double elimination 2n-2 and the one that may be needed.

Sources: 20 published brackets of 33 (32 lines, one pigtail). Other sizes: the same pattern;
several pigtails, 9th to 16th, double elimination: common sense, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from brackets.core.crossings import Exchange
from brackets.core.plan import (
    Plan,
    championship,
    consolation,
    final,
    first_sources,
    paired,
    pigtail_lines,
    placing,
)
from brackets.core.rules import Thirds, Wrestleback
from brackets.core.sources import (
    BoutKey,
    Exit,
    From,
    Line,
    LineUp,
    Needed,
    Round,
    Section,
    Source,
    Sources,
)


def championship_round(number: int, last: int) -> str:
    """The code of championship round `number` of `last`: R1, R2, ..., QF, SF, 1st."""
    return {0: "1st", 1: "SF", 2: "QF"}.get(last - number, f"R{number}")


@dataclass(frozen=True, slots=True)
class Task:
    """An elimination to be planned.

    `crossings`: of championship rounds 2 to k-1. `partner`: the first-round bout whose loser meets
    the loser of the first bout's pigtail. `depth`: how many places have to be wrestled for.
    """

    lines: LineUp
    wrestleback: Wrestleback
    thirds: Thirds
    crossings: tuple[Exchange, ...]
    partner: int
    depth: int

    @property
    def last(self) -> int:
        """The number of championship rounds."""
        return len(self.lines).bit_length() - 1

    @property
    def double(self) -> bool:
        return self.wrestleback is Wrestleback.DOUBLE_ELIMINATION

    def code(self, number: int) -> str:
        """The code of championship round `number`: the last is UF in a double elimination."""
        code = championship_round(number, self.last)
        return "UF" if self.double and code == "1st" else code

    def consolation(self, number: int) -> Round:
        """Consolation round `number` of 2k - 4, or two more, at its time."""
        when = ((number + 4) // 2 - self.last, 2 + number % 2)
        return consolation(f"C{number}", when)


def plan_championship(plan: Plan, task: Task) -> None:
    """Pigtails, then round after round to the last two unbeaten."""
    shared = pigtail_lines(task.lines)
    plan.add(
        championship("P", (1 - task.last, -1)),
        [(Line(number, 0), Line(number, 1)) for number in shared],
    )
    fed = first_sources(task.lines)
    for number in range(1, task.last + 1):
        code = task.code(number)
        one = final() if code == "1st" else championship(code, (number - task.last, 0))
        plan.add(one, list(zip(fed[::2], fed[1::2], strict=True)))
        fed = list(plan.winners(code))


def plan_everyone(plan: Plan, task: Task) -> None:
    """The consolation side of everyone, to fifth and double elimination."""
    if task.depth < 3 or (task.wrestleback is Wrestleback.TO_FIFTH and task.depth < 5):
        return
    fed = first_drops(plan, task, plan.losers("P"))
    plan.add(task.consolation(1), list(zip(fed[::2], fed[1::2], strict=True)))
    for number in range(2, task.last - (task.wrestleback is Wrestleback.TO_FIFTH)):
        before, dropping = f"C{2 * number - 3}", 2 * number - 2
        crossing = task.crossings[number - 2]
        drop_in(plan, task.consolation(dropping), plan.winners(before), crossing, task.code(number))
        if number < task.last - 1:
            one = task.consolation(dropping + 1)
            plan.add(one, paired(plan.winners(f"C{dropping}")))


def first_drops(plan: Plan, task: Task, pigtails: Sequence[Source]) -> list[Source]:
    """The losers of the first round, the winner of a consolation pigtail in one's place.

    `pigtails`: who comes from each pigtail, from the top.
    """
    drops: list[Source] = [*plan.losers(task.code(1))]
    bouts: list[Sources] = []
    for came, number in zip(pigtails, pigtail_lines(task.lines), strict=True):
        meets = ((number - 1) // 2 + task.partner - 1) % len(drops)
        bouts.append((came, drops[meets]))
        drops[meets] = From(BoutKey("CP", len(bouts)), Exit.WINNER)
    plan.add(consolation("CP", (2 - task.last, 1)), bouts)
    return drops


def drop_in(
    plan: Plan, one: Round, winners: Sequence[Source], crossing: Exchange, dropping: str
) -> None:
    """A round in which losers of championship round `dropping` join."""
    losers = plan.losers(dropping)
    plan.add(one, [(fed, losers[crossing.loser(i) - 1]) for i, fed in enumerate(winners, start=1)])


def plan_thirds(plan: Plan, task: Task) -> None:
    """The bout for 3rd between the losers of the semifinals, or two thirds without a bout."""
    if task.depth < 3:
        return
    if task.wrestleback is Wrestleback.NOBODY and task.thirds is Thirds.TWO:
        before = plan.rounds["SF"]
        plan.rounds["SF"] = Round("SF", before.section, loser_place=3, when=before.when)
        return
    plan.add(placing(3), paired(plan.losers("SF")))


def plan_title(plan: Plan, task: Task) -> None:
    """The last rounds of a double elimination."""
    last = task.last
    plan.add(_leaving(task, 2 * last - 3, 4), paired(plan.winners(f"C{2 * last - 4}")))
    (back,), (beaten,) = plan.winners(f"C{2 * last - 3}"), plan.losers("UF")
    plan.add(_leaving(task, 2 * last - 2, 3), [(back, beaten)])
    (unbeaten,), (once,) = plan.winners("UF"), plan.winners(f"C{2 * last - 2}")
    plan.add(final(), [(unbeaten, once)])
    again = Round("1st2", Section.CHAMPIONSHIP, (1, 2), when=(1, 3), needed=Needed.UPSET)
    plan.add(again, list(zip(plan.winners("1st"), plan.losers("1st"), strict=True)))


def _leaving(task: Task, number: int, place: int) -> Round:
    when = (0, 3) if place == 4 else (0, 10)
    return Round(f"C{number}", Section.CONSOLATION, loser_place=place, when=when)


def plan_places(plan: Plan, task: Task, third: str, fifth: str) -> None:
    """The bouts for 3rd and below, as far as `depth` goes.

    `third`: the consolation round whose winners wrestle for 3rd, and its losers for 5th; empty
    where 3rd is settled otherwise. `fifth`: the round whose losers wrestle for 7th; where `third`
    is empty its winners wrestle for 5th.
    """
    if third and task.depth >= 3 and not task.double:
        plan.add(placing(3), paired(plan.winners(third)))
    if task.depth >= 5:
        plan.add(placing(5), paired(plan.losers(third) if third else plan.winners(fifth)))
    if task.depth >= 7:
        plan.add(placing(7), paired(plan.losers(fifth)))
    below = int(fifth.removeprefix("C"))
    for place, number, at in ((9, below - 1, 5), (13, below - 2, 4)):
        if task.depth >= place:
            plan_four(plan, task, place, f"C{number}", (-1, at))


def plan_four(plan: Plan, task: Task, place: int, losers: str, when: tuple[int, int]) -> None:
    """Four losers of one round wrestle out a place and those of the three below it that count."""
    code = f"{place}SF"
    plan.add(consolation(code, when), paired(plan.losers(losers)))
    plan.add(placing(place), paired(plan.winners(code)))
    if task.depth >= place + 2:
        plan.add(placing(place + 2), paired(plan.losers(code)))
