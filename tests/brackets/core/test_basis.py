"""What a draw is made from: kept, compared, laid over, drawn again."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from brackets.core.apart.basis import Basis, Row, drawn, with_meetings
from brackets.core.commitment import commitment, seed_of
from brackets.core.errors import BracketRulesInvalid
from seeding.core.qualifying import LinesByRegion, LinesBySeed
from tests.brackets.core.books import rules

TEXTS = st.sampled_from(("", "A", "B"))
SPOTS = st.sampled_from(("", "A1", "*2", "B12"))


@st.composite
def bases(draw: st.DrawFn) -> Basis:
    names = draw(st.sets(st.sampled_from("abcdefgh"), max_size=6))
    rows = [
        Row(name, draw(st.none() | st.integers(1, 9)), draw(TEXTS), draw(TEXTS), draw(SPOTS))
        for name in names
    ]
    met = draw(st.sets(st.tuples(st.sampled_from("abcdefgh"), st.sampled_from("abcdefgh"))))
    return Basis.of("125", with_meetings(rows, met), draw(st.sets(st.integers(1, 5))))


@given(bases(), bases())
def test_what_changed_since_can_be_laid_over(then: Basis, now: Basis) -> None:
    changes = json.loads(json.dumps(then.changes_since(now)))
    assert now.overlaid(changes) == then
    assert bool(changes) == (then != now)


@given(bases(), bases())
def test_the_mark_is_of_everything(one: Basis, other: Basis) -> None:
    assert Basis.read("125", json.loads(json.dumps(one.plain()))) == one
    assert (one.mark("x") == other.mark("x")) == (one == other)
    assert one.mark("x") != one.mark("y")


def test_meetings_are_mutual_and_of_the_field() -> None:
    rows = with_meetings([Row("a", 1, ""), Row("b", 2, "")], [("a", "b"), ("b", "z"), ("a", "a")])
    assert [row.met for row in rows] == [("b",), ("a",)]


def test_a_field_is_drawn_as_its_rule_book_says() -> None:
    field = Basis.of(
        "125",
        [Row(f"e{n}", None, f"t{n % 4}", spot=f"{'AB'[n % 2]}{n // 2 + 1}") for n in range(8)],
    )
    used = rules(keep_apart=["team"])
    by_lot = drawn(field, used, LinesBySeed(), "x")
    assert (by_lot.certified, by_lot.kept[0].pairs) == (True, (0, 0, 0))
    spots = ("A1", "B4", "B2", "A3", "B1", "A4", "A2", "B3")
    by_region = drawn(field, used, LinesByRegion({8: spots}), "x")
    assert by_region.lines == ("e0", "e7", "e3", "e4", "e1", "e6", "e2", "e5")


def test_who_holds_no_spot_is_left_out_of_a_draw_by_region() -> None:
    rows = [Row("a", None, "", spot="A1"), Row("b", None, "", spot="B1"), Row("c", None, "")]
    lines = ("A1", "B2", "B1", "A2")
    found = drawn(Basis.of("125", rows), rules(), LinesByRegion({4: lines}), "x")
    assert found.lines == ("a", "b")


def test_what_is_said_of_a_commitment_is_so() -> None:
    """Digested by another program: printf "draw commitment/1|ab" | sha256sum."""
    assert commitment("ab") == "3be07319550256dc126b37cdcdf0d9b96b156fba2466fc31d94fa821bcdde780"
    assert (
        seed_of("ab", "125", 2)
        == "b79c84a1f3dada4ad6a57193ebdc7d929dfac892a6356749c0e03b50e4b3707c"
    )


@pytest.mark.parametrize("wrong", ["team", ["team", "team"], ["school"], [1], [["team"]], None])
def test_whom_to_keep_apart_is_refused_by_name(wrong: object) -> None:
    with pytest.raises(BracketRulesInvalid) as caught:
        rules(keep_apart=wrong)
    (problem,) = caught.value.problems
    assert problem.where == "bracket.keep_apart"
    assert "must list some of team, region, met, each once" in problem.message


def test_the_order_of_criteria_is_kept() -> None:
    assert rules(keep_apart=["met", "team"]).keep_apart == ("met", "team")
    assert rules(keep_apart=[]).keep_apart == ()
