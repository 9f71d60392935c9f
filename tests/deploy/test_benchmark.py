"""The table of speed: what it shows and refuses, and that both sides compute the same."""

from io import StringIO
from itertools import permutations

import numpy as np
import pytest
from django.core.management import CommandError, call_command

from deploy.management.commands.benchmark import HEAD, Command, benchmarks, line
from tests.benchmarks import rpi, season
from tests.benchmarks.invented import invented_season
from tests.benchmarks.row import Row

MET = Row("season", 0.05, 1.0, 20.0, ">= 15x", met=True)
MISSED = Row("rpi", 0.004, 0.2, 50.0, ">= 80x", met=False)


def test_the_modules_of_the_folder_are_known() -> None:
    assert {"season", "rpi"} <= set(benchmarks())
    assert not {"row", "invented"} & set(benchmarks())


def test_a_row_stands_under_its_head() -> None:
    assert HEAD.split() == ["name", "ours", "reference", "ratio", "goal", "met"]
    assert line(MISSED).split() == ["rpi", "0.004", "0.2", "50", ">=", "80x", "no"]
    for word, figure in (("ours", "0.05"), ("goal", ">= 15x"), ("met", "yes")):
        column = HEAD.index(word) + (len(word) if word == "ours" else 0)
        assert line(MET)[:column].endswith(figure) or line(MET)[column:].startswith(figure)


def test_measured_rows_are_printed() -> None:
    out = StringIO()
    found = Command(stdout=out).printed([lambda: [MET], lambda: rpi.rows(60, 300, 1)])
    assert [row.name for row in found] == ["season", "rpi"]
    assert len(out.getvalue().splitlines()) == 3


def test_an_unknown_name_is_refused_with_those_known() -> None:
    with pytest.raises(CommandError, match=r"no benchmark 'speed'. There are: .*rpi.*season"):
        call_command("benchmark", "speed")


def test_a_tree_without_tests_says_so() -> None:
    with pytest.raises(CommandError, match="in the folder tests"):
        benchmarks("no_such_folder.benchmarks")


def test_the_season_has_its_size_and_is_the_same_again() -> None:
    one, other = invented_season(200, 1500), invented_season(200, 1500)
    assert one.pairs == other.pairs
    assert len(one.pairs) == 1500
    assert all(winner != loser for winner, loser in one.pairs)


def test_both_sides_of_season_find_the_same() -> None:
    made = invented_season(200, 1500)
    head_to_head, common = (matrix.toarray() for matrix in season.ours(made.arrays))
    ahead, shared = season.reference(made.pairs)
    for one, other in permutations(range(200), 2):
        assert head_to_head[one, other] == ahead.get((one, other), 0)
        assert common[one, other] == (shared[one][other] if one in shared else 0)


def test_both_sides_of_rpi_find_the_same() -> None:
    made = invented_season(200, 1500)
    expected = rpi.reference(made.pairs)
    found = rpi.ours(made.arrays)[list(expected)]
    np.testing.assert_allclose(found, list(expected.values()), rtol=0, atol=rpi.NOISE)
