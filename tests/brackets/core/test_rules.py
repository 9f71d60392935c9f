import pytest

from brackets.core.errors import BracketRulesInvalid
from brackets.core.rules import SIZES, BracketRules, Crossing, Searched
from tests.brackets.core.books import SECTION, book, rules


def test_read() -> None:
    read = rules(lines={"8": [1, 8, 4, 5, 2, 7, 3, 6]}, pigtail={"32": 9})
    assert read.size(8).order == (1, 8, 4, 5, 2, 7, 3, 6)
    assert read.size(16).order == ()
    assert read.size(16).crossings == (Crossing.HALF_SWAP, Crossing.REVERSED)
    assert read.size(32).pigtail == 9
    assert read.size(256).crossings is Searched.LATEST


def test_the_pigtail_partner_is_in_the_other_half_unless_the_book_says_otherwise() -> None:
    assert [rules().size(lines).pigtail for lines in SIZES] == [3, 5, 9, 17, 33, 65]


@pytest.mark.parametrize("name", ["college-2025", "college-2013", "high-school-2025"])
def test_every_folkstyle_book_is_read(name: str) -> None:
    assert book(name).places == 8


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"places": 5}, "bracket.places: must be one of 2, 3, 4, 6, 8, 12, 16, not 5"),
        ({"places": True}, "bracket.places: must be one of 2, 3, 4, 6, 8, 12, 16, not True"),
        (
            {"pigtails_up_to": "1"},
            "bracket.pigtails_up_to: must be a whole number from 0 to 64, not '1'",
        ),
        (
            {"double_loss": "both"},
            "bracket.double_loss: must be one of out, drop, not 'both'",
        ),
        ({"true_places": [3]}, "bracket.true_places: must list some of 2, 4, 6, not [3]"),
        ({"two_pools": 6}, "bracket.two_pools: must list some of 6, 7, not 6"),
        ({"always_lines": 16}, "bracket.always_lines: must be one of 0, 8, not 16"),
        ({"colour": "red"}, "bracket.colour: is not a setting of brackets"),
        ({"crossings": None}, "bracket.crossings: is missing"),
        ({"crossings": "straight"}, "bracket.crossings: must be a table by lines"),
        (
            {"lines": {"8": [1, 2, 3]}},
            "bracket.lines.8: must name each rank from 1 to 8 once",
        ),
        (
            {"lines": {"12": []}},
            "bracket.lines.12: there is no such size: 8, 16, 32, 64, 128, 256",
        ),
        ({"pigtail": {"32": 17}}, "bracket.pigtail.32: must be a bout from 2 to 16, not 17"),
        (
            {"crossings": {**SECTION["crossings"], "16": ["straight"]}},
            (
                "bracket.crossings.16: must be latest or list 2 of straight, reversed, half-swap, "
                "within-half, not ['straight']"
            ),
        ),
        (
            {"crossings": {**SECTION["crossings"], "8": "last"}},
            (
                "bracket.crossings.8: must be latest or list 1 of straight, reversed, half-swap, "
                "within-half, not 'last'"
            ),
        ),
    ],
)
def test_refused_by_name(changes: dict[str, object], message: str) -> None:
    with pytest.raises(BracketRulesInvalid) as caught:
        rules(**changes)
    assert [str(problem) for problem in caught.value.problems][:1] == [message]


def test_everything_missing_is_named_at_once() -> None:
    with pytest.raises(BracketRulesInvalid) as caught:
        BracketRules.from_section({})
    missing = {
        problem.where for problem in caught.value.problems if problem.message == "is missing"
    }
    assert missing >= {f"bracket.{name}" for name in SECTION}
