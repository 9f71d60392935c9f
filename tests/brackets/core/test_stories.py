"""Stories of one weight: whatever happens in whatever order, the laws hold; found and shrunk by
hypothesis.

`STORIES_COUNT` says how many, `STORIES_STEPS` of how many steps at most.
"""

import os
from dataclasses import replace
from random import Random

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from brackets.core.drafting import (
    Wanted,
    WantedAdvance,
    WantedPlace,
    WantedResult,
    WantedSides,
)
from brackets.core.graph import BoutKey
from brackets.core.late import ChangeKind, LineChange
from brackets.core.progress import Status, Verdict
from brackets.core.replay import Choice
from brackets.core.rules import PLACES, BracketRules
from brackets.core.sources import Seat
from tests.brackets.core.weight import Choose, Facts, Weight
from tests.brackets.core.weight_laws import LAWS, check_end, check_retold
from tests.strategies import bracket_rules, drawn

COUNT = int(os.environ.get("STORIES_COUNT", "100"))
STEPS = int(os.environ.get("STORIES_STEPS", "20"))
BOOKS = st.builds(
    lambda used, lines: replace(used, always_lines=lines), bracket_rules(), st.sampled_from([0, 8])
)
ENTRANTS = st.one_of(st.integers(2, 9), st.integers(2, 17), st.integers(2, 33))
VERDICTS = st.sampled_from([Verdict(0), Verdict(1), Verdict(0), Verdict(1), Verdict(None)])
WAVES = st.lists(st.tuples(st.integers(0, 31), VERDICTS), min_size=1, max_size=8)


class Stories(RuleBasedStateMachine):
    """One weight, to which one thing after the other happens."""

    @initialize(used=BOOKS, entrants=ENTRANTS, places=st.sampled_from(PLACES), keeps=st.booleans())
    def draw(self, used: BracketRules, entrants: int, places: int, *, keeps: bool) -> None:
        self.weight = Weight(Facts(drawn(entrants, places, used), used, keeps=keeps))

    def entries(self) -> list[str]:
        return list(self.weight.bracket.entries())

    @rule(wave=WAVES)
    def wrestle(self, wave: list[tuple[int, Verdict]]) -> None:
        for at, verdict in wave:
            if ready := self.weight.having(Status.READY):
                self.weight.enter(ready[at % len(ready)], verdict)

    @rule(verdicts=st.lists(VERDICTS, min_size=1, max_size=5))
    def wrestle_all(self, verdicts: list[Verdict]) -> None:
        """Every bout that is ready now, with these results over and over."""
        for at, key in enumerate(self.weight.having(Status.READY)):
            if self.weight.standing.bouts[key].status is Status.READY:
                self.weight.enter(key, verdicts[at % len(verdicts)])

    @precondition(lambda self: self.weight.facts.verdicts)
    @rule(data=st.data(), verdict=st.one_of(VERDICTS, st.none()))
    def correct(self, data: st.DataObject, verdict: Verdict | None) -> None:
        key = data.draw(st.sampled_from(list(self.weight.facts.verdicts)), "bout")
        self.weight.correct(key, verdict, self.chooser(data))

    @precondition(lambda self: len(self.weight.facts.gone) < len(self.entries()))
    @rule(data=st.data(), absent=st.booleans())
    def leave(self, data: st.DataObject, *, absent: bool) -> None:
        there = [one for one in self.entries() if one not in self.weight.facts.gone]
        self.weight.leave(data.draw(st.sampled_from(there), "entry"), absent=absent)

    @precondition(lambda self: self.weight.facts.gone)
    @rule(data=st.data())
    def come_back(self, data: st.DataObject) -> None:
        entry = data.draw(st.sampled_from(list(self.weight.facts.gone)), "entry")
        self.weight.come_back(entry, self.chooser(data))

    @rule(data=st.data())
    def rule_on_sides(self, data: st.DataObject) -> None:
        nobody_too = st.sampled_from([*self.entries(), None])
        key, pair = self.bout(data), data.draw(st.tuples(nobody_too, nobody_too), "sides")
        self.decide(data, WantedSides(key, pair))

    @rule(data=st.data(), slot=st.sampled_from([0, 1]))
    def rule_who_goes_on(self, data: st.DataObject, slot: int) -> None:
        entry = data.draw(st.sampled_from([*self.entries(), None]), "entry")
        self.decide(data, WantedAdvance(Seat(self.bout(data), slot), entry))

    @rule(data=st.data(), verdict=VERDICTS)
    def rule_on_result(self, data: st.DataObject, verdict: Verdict) -> None:
        self.decide(data, WantedResult(self.bout(data), verdict.winner))

    @rule(data=st.data(), place=st.sampled_from([1, 2, 3, 5, None]), shared=st.booleans())
    def rule_on_place(self, data: st.DataObject, place: int | None, *, shared: bool) -> None:
        entry = data.draw(st.sampled_from(self.entries()), "entry")
        self.decide(data, WantedPlace(entry, place, shared))

    @precondition(lambda self: self.weight.facts.rulings)
    @rule(data=st.data())
    def take_back(self, data: st.DataObject) -> None:
        ruling = data.draw(st.sampled_from(self.weight.facts.rulings), "ruling")
        self.weight.take_back(ruling, self.chooser(data))

    @rule(data=st.data())
    def swap_lines(self, data: st.DataObject) -> None:
        line = st.integers(1, len(self.weight.bracket.lines))
        pair = data.draw(st.tuples(line, line), "lines")
        self.weight.lay(LineChange(ChangeKind.SWAPPED, pair))

    @rule(data=st.data())
    def empty_line(self, data: st.DataObject) -> None:
        there = [one for one in self.entries() if one not in self.weight.facts.gone]
        if there:
            gone = data.draw(st.sampled_from(there), "entry")
            self.weight.lay(LineChange(ChangeKind.EMPTIED, gone=gone))

    def bout(self, data: st.DataObject) -> BoutKey:
        return data.draw(st.sampled_from(list(self.weight.standing.bouts)), "bout")

    def decide(self, data: st.DataObject, wanted: Wanted) -> None:
        self.weight.rule(wanted, self.chooser(data))

    def chooser(self, data: st.DataObject) -> Choose:
        return lambda key: data.draw(st.sampled_from(list(Choice)), f"{key}")

    @invariant()
    def laws(self) -> None:
        for law in LAWS:
            law(self.weight)

    def teardown(self) -> None:
        """The story is wrestled to its end."""
        if not hasattr(self, "weight"):
            return
        self.laws()
        chance = Random(len(self.weight.facts.verdicts))
        check_retold(self.weight, chance.choice)
        while ready := self.weight.having(Status.READY):
            self.weight.enter(chance.choice(ready), Verdict(chance.choice((0, 1))))
        self.laws()
        check_end(self.weight)


TestStories = Stories.TestCase
TestStories.settings = settings(
    max_examples=COUNT,
    stateful_step_count=STEPS,
    deadline=None,
    suppress_health_check=list(HealthCheck),
)
