"""Weights in the cores alone: that acts happen, and that what is wrong is found and told."""

from dataclasses import replace
from typing import Any

import pytest

from brackets.core.progress import play
from brackets.core.standing import Standing
from tests.audit.cores.acts import Weight
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
