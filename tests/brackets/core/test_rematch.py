import pytest

from brackets.core.errors import NoSuchBout
from brackets.core.graph import BoutKey
from brackets.core.rematch import earliest_rematch
from tests.brackets.core.books import book, bracket


@pytest.mark.parametrize(
    ("bout", "again"),
    [
        ("P-1", "C5-2"),
        ("R1-1", "C5-1"),
        ("R2-1", "C6-2"),
        ("QF-1", "5th-1"),
        ("SF-1", None),
        ("C1-1", None),
        ("C5-1", None),
        ("1st-1", None),
    ],
)
def test_the_published_bracket(bout: str, again: str | None) -> None:
    # calculated on the form read off 20 published brackets
    found = earliest_rematch(bracket(33, 8, book()), BoutKey.parse(bout))
    assert (str(found) if found else None) == again


def test_a_bout_that_is_not_there() -> None:
    with pytest.raises(NoSuchBout):
        earliest_rematch(bracket(8), BoutKey("R1", 1))
