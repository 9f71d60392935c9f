"""The examples in the docstrings of the readers are true."""

import doctest
from types import ModuleType

import pytest

from seeding.entries.core import escaped, names, spelling, teams, weights


@pytest.mark.parametrize("module", [escaped, names, spelling, teams, weights])
def test_examples(module: ModuleType) -> None:
    found = doctest.testmod(module)
    assert found.failed == 0
    assert found.attempted > 0
