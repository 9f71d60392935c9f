"""The audit on a small scale: tournaments agree with the checker, planted bugs are noticed."""

import sqlite3
from pathlib import Path

import pytest
from django.db import connection

from seeding.entries.models import Tournament
from tests.audit.case import case
from tests.audit.coverage import FULL, LEAST, USUAL, Coverage
from tests.audit.events import Event
from tests.audit.generator import played
from tests.audit.mutants import MODULES, Fate, Mutant, Run, mutants, some, try_out
from tests.audit.operators import Change
from tests.audit.rows import CYCLE, ROWS
from tests.audit.worker import Told

SEED = 20
NUMBERS = range(len(CYCLE))
"""A tournament of every row."""


@pytest.mark.django_db
def test_tournaments_agree_with_the_checker() -> None:
    for number in NUMBERS[::3]:
        found = played(SEED, number)
        assert not found.trouble, f"sh deploy/manage soak brackets --seed {SEED} --first {number}"
        assert found.document["bouts"]
    assert not Tournament.objects.exists()


@pytest.mark.django_db
def test_a_number_is_the_same_tournament_again() -> None:
    first, again = (played(SEED, 12).document for _ in range(2))
    for one in (*first["entries"], *again["entries"]):
        one.pop("wrestler")
    assert first == again
    assert first["results"]


def test_cases_take_turns_and_differ_by_seed() -> None:
    assert [case(1, number).row for number in NUMBERS] == list(CYCLE)
    assert case(1, 5) == case(1, 5)
    assert len({str(case(seed, 5).form) for seed in range(20)}) > 10


def test_in_a_full_run_everything_is_wanted_often_enough() -> None:
    wanted = Coverage()
    for number in range(FULL):
        made = case(SEED, number)
        happened = {str(event): 1 for event in made.events}
        row = ROWS.index(made.row)
        wanted.add(Told(number, row, happened, {}, made.singly, [], 0.0, None))
    assert not wanted.thin()


def test_what_is_rare_is_named() -> None:
    covered = Coverage()
    covered.add(Told(0, 0, {str(Event.SCRATCH): 1}, {"R1": 2, "R3": 0}, True, [], 0.1, None))
    for _ in range(USUAL - 1):
        covered.add(Told(0, 0, {}, {"R1": 0}, False, [], 0.1, None))
    thin = covered.thin()
    assert f"{ROWS[0].name}: scratch 1" in thin
    assert f"{ROWS[0].format}: left before R1 2" in thin
    assert not [one for one in thin if "R3" in one]
    table = list(covered.table())
    assert any(line.startswith(ROWS[0].name) and " 1" in line for line in table)
    assert f"in {1} of them" in table[-1]
    assert FULL // len(CYCLE) >= LEAST


def test_bugs_can_be_planted_in_every_core_and_are_the_same_for_a_seed() -> None:
    assert {one.module for one in mutants()} == set(MODULES)
    names = [one.name for one in mutants()]
    assert len(set(names)) == len(names)
    assert some(5, 3) == some(5, 3) != some(5, 4)
    assert list(some(3, 3, first=2)) == list(some(5, 3))[2:]


@pytest.fixture
def database(tmp_path: Path, transactional_db: None) -> Path:
    """A copy of the empty test database."""
    path = tmp_path / "empty.sqlite3"
    with sqlite3.connect(path) as file:
        connection.ensure_connection()
        connection.connection.backup(file)
    file.close()
    return path


def _planted(start: str) -> Mutant:
    return next(one for one in mutants() if one.name.startswith(start))


@pytest.mark.skipif(connection.vendor != "sqlite", reason="a planted bug runs on a file of its own")
@pytest.mark.parametrize(
    "start",
    [
        "results.core.placings:_falls",
        "brackets.core.repechage:plan_follow_the_leader number: 0 -> 1",
        "brackets.core.walk:_ways_on way: state.winner -> state.loser #2",
    ],
)
def test_a_planted_bug_is_noticed(start: str, database: Path) -> None:
    found = try_out(_planted(start), database, SEED, Run(NUMBERS))
    assert found.fate in (Fate.DIFFERS, Fate.BROKEN), found


class Harmless(Change):
    """A change that leaves the text as it is."""

    __slots__ = ()

    def made(self, source: str) -> str:
        return source


@pytest.mark.skipif(connection.vendor != "sqlite", reason="a planted bug runs on a file of its own")
def test_nothing_is_noticed_where_nothing_is_planted(database: Path) -> None:
    change = Harmless("nothing", 1, "", "", "", at=0, which=0)
    found = try_out(Mutant("brackets.core.walk", change, 1), database, SEED, Run(NUMBERS[:2]))
    assert (found.fate, found.played) == (Fate.SURVIVED, 2), found
