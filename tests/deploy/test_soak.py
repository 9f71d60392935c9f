"""Long runs: what there is, what is refused, and a short one from end to end."""

from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from deploy.management.commands.soak import soaks
from tests.audit.coverage import FULL
from tests.soaks import brackets, cores, mutants


def test_the_modules_of_the_folder_are_known() -> None:
    assert dict(soaks()) == {"brackets": brackets, "cores": cores, "mutants": mutants}
    assert brackets.COUNT == FULL == 10_000


def test_an_unknown_name_is_refused_with_those_known() -> None:
    with pytest.raises(CommandError, match=r"no soak 'speed'. There are: brackets, cores, mutants"):
        call_command("soak", "speed")


def test_a_count_below_0_is_refused() -> None:
    with pytest.raises(CommandError, match=r"--count must be 0 or more, not -1"):
        call_command("soak", "brackets", "--count", "-1")


def test_a_tree_without_tests_says_so() -> None:
    with pytest.raises(CommandError, match="in the folder tests"):
        soaks("no_such_folder.soaks")


def test_a_short_run_prints_its_seed_and_its_table() -> None:
    out = StringIO()
    call_command("soak", "brackets", "--count", "1", "--seed", "20", "--jobs", "2", stdout=out)
    lines = out.getvalue().splitlines()
    assert lines[0] == "soak brackets: 1 from number 0, seed 20"
    assert any(line.startswith("one bout, 2 ") for line in lines)
    assert lines[-1] == "All is well: 1, seed 20."


def test_a_short_run_of_the_cores_counts_weights_by_format() -> None:
    out = StringIO()
    call_command("soak", "cores", "--count", "20", "--seed", "20", "--jobs", "2", stdout=out)
    lines = out.getvalue().splitlines()
    assert lines[0] == "soak cores: 20 from number 0, seed 20"
    assert sum(int(one.split(": ")[1].split(" ")[0]) for one in lines[1:-1]) == 20
    assert lines[-1] == "All is well: 20, seed 20."
