"""Weights in the cores alone: that acts happen, and that what is wrong is found and told."""

from dataclasses import replace
from typing import Any

import pytest

from brackets.core.formats import build
from brackets.core.graph import BoutKey
from brackets.core.progress import play
from brackets.core.rules import BracketRules
from brackets.core.rulings import Seating, SeatRuling
from brackets.core.sources import Exit, From, Seat
from brackets.core.standing import Standing
from results.core.outcomes import Kind, Outcome
from results.core.points import Scorer
from results.models import Withdrawal
from results.queries.facts import Facts, Left
from seeding.entries.core.rulebook import override
from seeding.entries.rulebooks import book
from tests.audit.cores.acts import Weight
from tests.audit.cores.held import differences, standing
from tests.audit.cores.made import Made
from tests.brackets.core.books import line_up
from tests.soaks.cores import failure, wrestled

SEED = 8


ACTS = ("leaves, ", " is back", "ruled: ", " taken back", " corrected: ", " undone")
CHOICES = (" stands", " void", " again")


def test_every_act_happens_and_nothing_differs() -> None:
    log = []
    for number in range(40):
        weight = Weight.of(SEED, number)
        assert not any(weight.day())
        log += weight.log
    assert not [one for one in (*ACTS, *CHOICES) if one not in " ".join(log)]


def test_a_fault_is_told_with_all_that_led_to_it(monkeypatch: pytest.MonkeyPatch) -> None:
    def without_places(*args: Any, **named: Any) -> Standing:
        return replace(play(*args, **named), places={})

    assert not wrestled(SEED, 1).trouble
    monkeypatch.setattr("tests.audit.cores.held.play", without_places)
    told = wrestled(SEED, 1)
    assert "places {}, by the judge" in told.trouble[-1] + told.trouble[-2]
    assert f"soak cores --count 1 --seed {SEED} --first 1" in failure(told, SEED)


def test_what_breaks_the_cores_is_trouble(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*args: Any, **named: Any) -> Standing:
        raise KeyError("QF-1")

    monkeypatch.setattr("tests.audit.cores.held.play", broken)
    assert "KeyError: 'QF-1'" in wrestled(SEED, 1).trouble


def made(name: str, entrants: int, **settings: Any) -> Made:
    changed = {f"bracket.{setting}": value for setting, value in settings.items()}
    read = override(book("college-2025"), changed)
    rules = BracketRules.from_section(read["bracket"])
    bracket = build(line_up(entrants, rules), rules, 6)
    scorers = {entry: Scorer(entry, scoring=True) for entry in bracket.entries()}
    return Made(name, read, rules, bracket, 6, scorers)


def test_who_left_behind_the_pools_can_still_win_a_bout_of_theirs() -> None:
    """Its result was undone after he had left in a semifinal: it is wrestled, and he may pass."""
    weight = made("two pools", 6, two_pools=[6])
    won, nobody = BoutKey("RR1", 2), BoutKey("RR3", 2)
    known = Facts(
        weight.bracket.wiring.index,
        {won: Outcome(Kind.FALL, 0, time=60), nobody: Outcome(Kind.DOUBLE_FORFEIT, None)},
        {won: ("3", "6"), nobody: ("2", "3")},
        (Left("2", Withdrawal.Kind.INJURY, BoutKey("SF", 1)),),
        keeps=True,
    )
    assert standing(weight, known).guaranteed["3"] == 6
    assert differences(weight, known) == []


def test_nobody_loses_a_second_final_to_which_nobody_comes() -> None:
    """Whether it is needed is open; who has no better place moves up to second all the same."""
    name = "double elimination"
    weight = made(name, 8, wrestleback="double-elimination", open_place="moved-up")
    back = BoutKey("C4", 1)
    known = Facts(
        weight.bracket.wiring.index,
        {back: Outcome(Kind.NO_CONTEST, None)},
        {back: ("2", "6")},
        (),
        keeps=True,
        rulings=(
            SeatRuling(
                back,
                (
                    Seating(Seat(back, 0), "2"),
                    Seating(Seat(back, 1), "6"),
                    Seating(From(BoutKey("1st2", 1), Exit.WINNER), "5"),
                ),
                whole=True,
            ),
        ),
    )
    assert standing(weight, known).places[2] == ("2", "6")
    assert differences(weight, known) == []
