"""Criteria over bouts that two wrestlers had with each other or with the same opponents."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

import networkx as nx

from seeding.core.criteria import Input, Repeats
from seeding.core.season import Counted, PriorBout, Season, by_date, opponents, wins
from seeding.core.verdict import Number, Sentence, Verdict, whole

Bouts = tuple[PriorBout, ...]


class HeadToHeadRule(StrEnum):
    """Who is better when two have met."""

    MAJORITY = "majority"
    MOST_RECENT = "most-recent"
    MAJORITY_THEN_RECENT = "majority-then-recent"
    SWEEP = "sweep"


@dataclass(frozen=True, slots=True)
class HeadToHead:
    """The bouts of the two with each other. Numbers: bouts won.

    majority: more of them won. most-recent: the last day on which they met (both won one on it:
    nothing). majority-then-recent: the last day where the majority is even. sweep: all of them.
    """

    name: str
    counted: Counted
    rule: HeadToHeadRule

    @property
    def inputs(self) -> tuple[Input, ...]:
        return ()

    def compare(self, a: str, b: str, season: Season) -> Verdict:
        graph = season.graph(self.counted)
        of_a, of_b = wins(graph, a, b), wins(graph, b, a)
        better = {1: a, -1: b, 0: None}[self._lead(of_a, of_b)]
        bouts = tuple(sorted(of_a + of_b, key=by_date))
        numbers = whole(len(of_a)), whole(len(of_b))
        return Verdict(self.name, (a, b), better, numbers, _met(a, b, better, bouts), (bouts,))

    def _lead(self, of_a: Bouts, of_b: Bouts) -> int:
        majority = _sign(len(of_a), len(of_b))
        if self.rule is HeadToHeadRule.MAJORITY:
            return majority
        if self.rule is HeadToHeadRule.SWEEP:
            return 0 if of_a and of_b else majority
        last = max((bout.date for bout in of_a + of_b), default=None)
        latest = _sign(*(sum(bout.date == last for bout in side) for side in (of_a, of_b)))
        return latest if self.rule is HeadToHeadRule.MOST_RECENT else majority or latest


def _sign(x: int, y: int) -> int:
    return (x > y) - (x < y)


def _met(a: str, b: str, better: str | None, bouts: Bouts) -> Sentence:
    if better is None:
        a, b = sorted((a, b))
        if not bouts:
            return Sentence.of("{one} and {other} have not met.", {"one": a, "other": b})
        return Sentence.of(
            "{one} and {other} have met and neither has the better of it ({bouts}).",
            {"one": a, "other": b},
            bouts=_list(bouts, a, ("won by the first", "won by the second")),
        )
    people = {"better": better, "worse": b if better == a else a}
    if len(bouts) == 1:
        return Sentence.of("{better} beat {worse} ({bout}).", people, bout=bouts[0])
    return Sentence.of(
        "{better} has the better of {count} bouts with {worse} ({bouts}).",
        people,
        count=len(bouts),
        bouts=_list(bouts, better, ("won", "lost")),
    )


def _list(bouts: Bouts, wrestler: str, words: tuple[str, str]) -> str:
    return "; ".join(f"{words[bout.winner != wrestler]}: {bout}" for bout in bouts)


class CommonRule(StrEnum):
    """How results against common opponents are weighed."""

    MORE_WINS = "more-wins"
    PERCENTAGE = "percentage"
    BEAT_ONE_WHO_BEAT = "beat-one-who-beat"


class OwnBouts(StrEnum):
    """Whether the bouts of the two with each other count among those with common opponents."""

    LEFT_OUT = "left-out"
    COUNTED = "counted"


# By whether the two met and whether they have common opponents.
AGAINST = {
    (False, True): "against common opponents",
    (True, True): "against common opponents and each other",
    (True, False): "against each other",
}


@dataclass(frozen=True, slots=True)
class CommonOpponents:
    """Results against the same opponents; `own_bouts`: whether those of the two with each other
    count as well (each is the other's opponent then).

    more-wins, percentage: of the bouts with them. beat-one-who-beat: the number of opponents whom
    one beat and who beat the other. With each-opponent-once an opponent is a win, a loss, or (both
    won equally often) nothing.
    """

    name: str
    counted: Counted
    rule: CommonRule
    repeats: Repeats
    minimum_opponents: int
    own_bouts: OwnBouts = OwnBouts.LEFT_OUT

    @property
    def inputs(self) -> tuple[Input, ...]:
        return ()

    def compare(self, a: str, b: str, season: Season) -> Verdict:
        graph = season.graph(self.counted)
        shared = sorted((opponents(graph, a) & opponents(graph, b)) - {a, b})
        met = self.own_bouts is OwnBouts.COUNTED and b in opponents(graph, a)
        if len(shared) + met < max(self.minimum_opponents, 1):
            sentence = _too_few(a, b, len(shared), self.minimum_opponents)
            none = Number(None, "none")
            return Verdict(self.name, (a, b), None, (none, none), sentence)
        own_a, own_b = ([b], [a]) if met else ([], [])
        tallies = _tally(graph, a, shared + own_a), _tally(graph, b, shared + own_b)
        if self.rule is CommonRule.BEAT_ONE_WHO_BEAT:
            return self._chained(a, b, tallies)
        return self._weighed(a, b, tallies, AGAINST[bool(met), bool(shared)])

    def _weighed(self, a: str, b: str, tallies: tuple["Tally", "Tally"], against: str) -> Verdict:
        numbers = self._number(tallies[0]), self._number(tallies[1])
        better = _higher(a, b, numbers)
        bouts = tuple(sorted({*tallies[0].bouts(), *tallies[1].bouts()}, key=by_date))
        sentence = _weighed_sentence(a, b, better, numbers, against)
        return Verdict(self.name, (a, b), better, numbers, sentence, (bouts,))

    def _number(self, tally: "Tally") -> Number:
        won, lost = tally.count(self.repeats)
        text = f"{won}-{lost}"
        if self.rule is CommonRule.MORE_WINS:
            return Number(Fraction(won), text)
        return Number(Fraction(won, won + lost) if won + lost else None, text)

    def _chained(self, a: str, b: str, tallies: tuple["Tally", "Tally"]) -> Verdict:
        of_a, of_b = tallies
        for_a = [at for at in range(len(of_a.won)) if self._links(of_a, of_b, at)]
        for_b = [at for at in range(len(of_a.won)) if self._links(of_b, of_a, at)]
        numbers = whole(len(for_a)), whole(len(for_b))
        better = _higher(a, b, numbers)
        bouts = {bout for at in (*for_a, *for_b) for bout in of_a.at(at) + of_b.at(at)}
        third = of_a.opponents[(for_b if better == b else for_a or [0])[0]]
        sentence = _chain_sentence(a, b, better, third, numbers)
        evidence = tuple(sorted(bouts, key=by_date))
        return Verdict(self.name, (a, b), better, numbers, sentence, (evidence,))

    def _links(self, upper: "Tally", lower: "Tally", at: int) -> bool:
        if self.repeats is Repeats.ONCE:
            return upper.lead(at) > 0 > lower.lead(at)
        return bool(upper.won[at] and lower.lost[at])


@dataclass(frozen=True, slots=True)
class Tally:
    """A wrestler's bouts with each of the shared opponents, in their order."""

    opponents: tuple[str, ...]
    won: tuple[Bouts, ...]
    lost: tuple[Bouts, ...]

    def lead(self, at: int) -> int:
        return _sign(len(self.won[at]), len(self.lost[at]))

    def at(self, at: int) -> Bouts:
        return self.won[at] + self.lost[at]

    def bouts(self) -> Bouts:
        return tuple(bout for at in range(len(self.won)) for bout in self.at(at))

    def count(self, repeats: Repeats) -> tuple[int, int]:
        if repeats is Repeats.EVERY_BOUT:
            return sum(map(len, self.won)), sum(map(len, self.lost))
        leads = [self.lead(at) for at in range(len(self.won))]
        return leads.count(1), leads.count(-1)


def _tally(graph: "nx.MultiDiGraph[str]", wrestler: str, shared: Sequence[str]) -> Tally:
    return Tally(
        tuple(shared),
        tuple(wins(graph, wrestler, other) for other in shared),
        tuple(wins(graph, other, wrestler) for other in shared),
    )


def _higher(a: str, b: str, numbers: tuple[Number, Number]) -> str | None:
    x, y = numbers[0].value, numbers[1].value
    if x is None or y is None or x == y:
        return None
    return a if x > y else b


def _too_few(a: str, b: str, count: int, minimum: int) -> Sentence:
    people = {"one": min(a, b), "other": max(a, b)}
    if not count:
        return Sentence.of("{one} and {other} have no common opponents.", people)
    template = "{one} and {other} share {count} of the {minimum} opponents that are asked."
    return Sentence.of(template, people, count=count, minimum=minimum)


def _weighed_sentence(
    a: str, b: str, better: str | None, numbers: tuple[Number, Number], against: str
) -> Sentence:
    if better is None:
        template = f"{{one}} and {{other}} did equally well {against}: {{first}}, {{second}}."
        one, other = sorted((a, b))
    else:
        template = f"{{one}} did better than {{other}} {against}: {{first}} against {{second}}."
        one, other = better, b if better == a else a
    texts = {a: numbers[0].text, b: numbers[1].text}
    return Sentence.of(
        template, {"one": one, "other": other}, first=texts[one], second=texts[other]
    )


def _chain_sentence(
    a: str, b: str, better: str | None, third: str, numbers: tuple[Number, Number]
) -> Sentence:
    if better is None:
        people = {"one": min(a, b), "other": max(a, b)}
        if not numbers[0].value:
            return Sentence.of("Neither {one} nor {other} beat anyone who beat the other.", people)
        return Sentence.of(
            "{one} and {other} each beat {count} who beat the other.", people, count=numbers[0].text
        )
    people = {"better": better, "third": third, "worse": b if better == a else a}
    high, low = sorted(numbers, key=lambda number: number.value or 0, reverse=True)
    if high.text == "1" and low.text == "0":
        return Sentence.of("{better} beat {third}, who beat {worse}.", people)
    return Sentence.of(
        "{better} beat {third}, who beat {worse}; such wins: {first} against {second}.",
        people,
        first=high.text,
        second=low.text,
    )
