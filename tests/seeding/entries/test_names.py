"""How a person may be published."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seeding.entries.core.names import Publish, Shown, shown

CASES = [
    ("Ira", "Holm", Publish.FULL, ("Ira", "Holm", "Ira Holm")),
    ("", "Holm", Publish.FULL, ("", "Holm", "Holm")),
    (" Zoë ", "Łukasik", Publish.FULL, ("Zoë", "Łukasik", "Zoë Łukasik")),
    ("", " ", Publish.FULL, ("", "", "Wrestler 7 of ALD")),
    ("Ira", "Holm", Publish.INITIALS, ("I.", "H.", "I. H.")),
    ("élodie", "d'Aubrac", Publish.INITIALS, ("É.", "D.", "É. D.")),
    ("E\u0301lodie", "Holm", Publish.INITIALS, ("É.", "H.", "É. H.")),
    ("", "Holm", Publish.INITIALS, ("", "H.", "H.")),
    ("민서", "김", Publish.INITIALS, ("민.", "", "민.")),
    ("J", "X", Publish.INITIALS, ("", "", "Wrestler 7 of ALD")),
    ("Ira", "Holm", Publish.HIDDEN, ("", "", "Wrestler 7 of ALD")),
]


@pytest.mark.parametrize(("first", "last", "publish", "expected"), CASES)
def test_a_name_is_shown_as_its_entry_allows(
    first: str, last: str, publish: Publish, expected: tuple[str, str, str]
) -> None:
    assert shown(first, last, publish, number=7, team="ALD") == Shown(*expected)


@given(st.text(max_size=20), st.text(max_size=20), st.integers(1, 99), st.text(max_size=9))
def test_nothing_of_a_hidden_name_is_shown(first: str, last: str, number: int, team: str) -> None:
    hidden = shown(first, last, Publish.HIDDEN, number=number, team=team)
    assert hidden == shown("Somebody", "Else", Publish.HIDDEN, number=number, team=team)


LONGER = st.text(st.characters(categories=["Lu", "Ll", "Lo"]), min_size=2, max_size=12)


@given(LONGER, LONGER)
def test_initials_give_one_letter_of_each_name(first: str, last: str) -> None:
    text = shown(first, last, Publish.INITIALS, number=1, team="T").text
    assert len(text.split()) <= 2
    for part, name in zip(text.split(), (first, last), strict=False):
        assert part.rstrip(".").casefold() != name.casefold()


def test_the_fallback_can_be_translated() -> None:
    text = shown("", "", Publish.FULL, number=7, team="ALD", fallback="{team}, lutteur {number}")
    assert text.text == "ALD, lutteur 7"
