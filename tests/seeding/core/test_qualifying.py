"""Lines by region and place, scratches, wild cards, and what the regions' places would bring."""

import json
from collections.abc import Mapping
from dataclasses import replace
from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seeding.core.errors import NoLineFor, SpotTwice
from seeding.core.qualifiers import Here, How, Intake, Placed, Wanted, intake
from seeding.core.qualifying import Held, LinesByRegion, LinesBySeed, Spot, read_fill, seat
from seeding.core.scratches import Scratched, after_scratch
from seeding.core.wild_cards import choose
from seeding.entries.core.errors import BadSetting, MissingSetting, UnknownSetting
from seeding.entries.core.rulebook import Section
from tests.seeding.core.seasons import ROOT

CASES = json.loads((ROOT / "fixtures" / "qualifying.json").read_text("utf-8"))
PATTERNS = [case for case in CASES if "pattern" in case["given"]]
SCRATCHES = [case for case in CASES if "policy" in case["given"]]
EIGHT = ("A1", "B4", "B2", "A3", "B1", "A4", "A2", "B3")


def spot(text: str) -> Spot:
    return Spot(text.rstrip("0123456789").replace("*", ""), int(text.lstrip("ABCDEFGH*")))


def sections(pattern: list[Spot], count: int) -> list[list[Spot]]:
    size = len(pattern) // count
    return [pattern[at : at + size] for at in range(0, len(pattern), size)]


@pytest.mark.parametrize("case", PATTERNS, ids=[case["id"] for case in PATTERNS])
def test_a_pattern_keeps_the_laws_that_its_source_names(case: Mapping[str, Any]) -> None:
    told = case["given"]
    pattern = [spot(text) for text in told["pattern"]]
    regions = "ABCDEFGH"[: told["regions"]]
    every = {Spot(region, place) for region in regions for place in range(1, told["places"] + 1)}
    assert len(pattern) == told["lines"] == len(every)
    assert set(pattern) == every
    for one, other in zip(pattern[::2], pattern[1::2], strict=True):
        assert one.region != other.region
        assert one.place + other.place == told["places"] + 1
    for parts, best in ((2, 2), (4, 4)):
        for section in sections(pattern, parts):
            for region in regions:
                inside = [one for one in section if one.region == region and one.place <= best]
                assert len(inside) == 1
    for section in sections(pattern, told["regions"]):
        assert sum(one.place == 1 for one in section) == 1


@pytest.mark.parametrize("case", SCRATCHES, ids=[case["id"] for case in SCRATCHES])
def test_what_a_scratch_does_to_the_seeds(case: Mapping[str, Any]) -> None:
    told = case["given"]
    found = after_scratch(told["seeds"], told["gone"], Scratched(told["policy"]))
    assert found == case["expect"]


def test_the_first_four_of_two_regions_stand_on_their_lines_and_a_gap_is_a_bye() -> None:
    field = [Held(f"entry {text}", spot(text)) for text in EIGHT if text != "B4"]
    lines = seat(EIGHT, field)
    assert lines[:3] == ("entry A1", None, "entry B2")
    assert sum(line is None for line in lines) == 1


@given(st.randoms(use_true_random=False))
def test_the_line_up_does_not_depend_on_the_order_of_the_field(chance: Random) -> None:
    field = [Held(f"entry {text}", spot(text)) for text in EIGHT]
    mixed = list(field)
    chance.shuffle(mixed)
    assert seat(EIGHT, mixed) == seat(EIGHT, field)


def test_two_with_one_spot_are_refused_by_name() -> None:
    field = [Held("x", Spot("A", 1)), Held("y", Spot("A", 1))]
    with pytest.raises(SpotTwice, match="A1 is held by two entries, x and y"):
        seat(EIGHT, field)


def test_an_unknown_region_is_refused_by_name() -> None:
    with pytest.raises(NoLineFor, match="8 lines have none for C1"):
        seat(EIGHT, [Held("x", Spot("C", 1))])
    with pytest.raises(NoLineFor, match="plans of 2, 8 lines have none for C1, C2"):
        LinesByRegion({2: ("A1", "B1"), 8: EIGHT}).pattern(["A1", "C2", "C1"])


def test_the_smallest_pattern_that_holds_the_field_is_taken() -> None:
    fill = LinesByRegion({2: ("A1", "B1"), 8: EIGHT})
    assert fill.pattern(["B1", "A1"]) == ("A1", "B1")
    assert fill.pattern(["B1", "A2"]) == EIGHT


def read(**values: object) -> LinesBySeed | LinesByRegion:
    with Section("seeding", values) as section:
        return read_fill(section)


def test_a_rule_book_says_how_lines_are_filled() -> None:
    assert read(fill="seeds") == LinesBySeed()
    assert read(fill="regions", region_lines={"2": ["A1", "*1"]}) == LinesByRegion(
        {2: ("A1", "*1")}
    )
    assert read(fill="seeds", region_lines={"2": ["A1", "B1"]}) == LinesBySeed()


@pytest.mark.parametrize(
    ("values", "error", "text"),
    [
        ({}, MissingSetting, "seeding.fill"),
        ({"fill": "lot"}, BadSetting, "seeding.fill must be one of seeds, regions"),
        ({"fill": "regions"}, MissingSetting, "seeding.region_lines"),
        ({"fill": "regions", "region_lines": {}}, BadSetting, "one number of lines"),
        ({"fill": "regions", "region_lines": {"x": []}}, BadSetting, "whole numbers"),
        ({"fill": "regions", "region_lines": {"2": ["A1"]}}, BadSetting, "a list of 2 spots"),
        ({"fill": "regions", "region_lines": {"2": ["A1", "A1"]}}, BadSetting, "A1 stands once"),
        ({"fill": "regions", "region_lines": {"2": ["A1", "b"]}}, BadSetting, "“b” is not"),
        ({"fill": "seeds", "region_lines": {"2": ["A1", "b"]}}, BadSetting, "“b” is not"),
        ({"fill": "seeds", "lines": {}}, UnknownSetting, "seeding.lines"),
    ],
)
def test_what_a_rule_book_cannot_say_is_refused_by_name(
    values: dict[str, object], error: type[Exception], text: str
) -> None:
    with pytest.raises(error, match=text):
        read(**values)


def test_fewer_candidates_than_wild_cards() -> None:
    assert choose("ab", 3, 2).wild_cards == ("a", "b")
    assert choose("ab", 3, 2).alternates == ()


WANTED = Wanted(places=2, regions=("A", "B"), weights=("125",))


def won(text: str, who: str, weight: str = "125") -> Placed:
    at = spot(text)
    return Placed(at.region, weight, at.place, hash(who) % 1000, who, f"Given {who}", f"Team {who}")


def after(found: Intake) -> list[Here]:
    """The entries as they stand once the intake is carried out."""
    return [
        Here(
            at, one.placed.weight, one.placed.wrestler, one.placed.name, one.placed.team,
            True, one.how, one.placed.region, one.placed.place,
        )
        for at, one in enumerate(found.coming)
    ]  # fmt: skip


EVENT = [won("A1", "Ash"), won("A2", "Birch"), won("A3", "Cedar"), won("B1", "Dogwood")]


def test_who_placed_comes_in_and_who_did_not_advance_is_a_candidate() -> None:
    found = intake(WANTED, EVENT, [], [])
    assert [(one.placed.spot, str(one.how)) for one in found.coming] == [
        ("A1", "place"), ("A2", "place"), ("A3", "candidate"), ("B1", "place"),
    ]  # fmt: skip
    assert [str(one) for one in found.missing] == ["125: nobody has placed as B2 yet"]
    assert found.teams == ("Team Ash", "Team Birch", "Team Cedar", "Team Dogwood")
    assert not found.doubts


def test_done_twice_it_adds_nothing() -> None:
    first = intake(WANTED, EVENT, [], [])
    again = intake(WANTED, EVENT, after(first), first.teams)
    assert again.coming == ()
    assert again.teams == ()
    assert again.known == len(EVENT)


@given(st.randoms(use_true_random=False))
def test_the_intake_does_not_depend_on_the_order_of_the_places(chance: Random) -> None:
    mixed = list(EVENT)
    chance.shuffle(mixed)
    assert intake(WANTED, mixed, [], []) == intake(WANTED, EVENT, [], [])


def test_a_corrected_place_moves_who_is_here() -> None:
    here = after(intake(WANTED, EVENT, [], []))
    turned = [won("A1", "Birch"), won("A2", "Ash"), *EVENT[2:]]
    found = intake(WANTED, turned, here, [])
    assert [(one.placed.name, one.placed.spot) for one in found.coming] == [
        ("Given Birch", "A1"), ("Given Ash", "A2"),
    ]  # fmt: skip
    assert not found.doubts


def test_who_falls_out_of_the_places_is_a_candidate_and_a_wild_card_stays_one() -> None:
    here = after(intake(WANTED, EVENT, [], []))
    here[2] = replace(here[2], how=How.WILD_CARD)
    found = intake(WANTED, [EVENT[0], won("A2", "Cedar"), won("A3", "Birch"), EVENT[3]], here, [])
    assert [(one.placed.name, str(one.how)) for one in found.coming] == [
        ("Given Cedar", "place"), ("Given Birch", "candidate"),
    ]  # fmt: skip
    assert intake(WANTED, EVENT, here, []).coming == ()


def test_a_shared_place_is_nobodys() -> None:
    found = intake(WANTED, [*EVENT, won("A2", "Elm")], [], [])
    assert "Given Elm" not in [one.placed.name for one in found.coming]
    assert "125 A2: shared by Given Birch and Given Elm: enter one of them by hand" in [
        str(one) for one in found.missing
    ]


def test_nothing_of_a_drawn_weight_is_touched() -> None:
    found = intake(replace(WANTED, closed=frozenset({"125"})), EVENT, [], [])
    assert found.coming == ()
    assert "125 A1: Given Ash is not taken in: the weight is drawn" in map(str, found.missing)


def test_doubtful_names_are_told() -> None:
    here = [
        Here(1, "125", "u1", "Givenn Ash", "Team Ash", True),
        Here(2, "133", "Birch", "Given Birch", "Team Birch", True),
        Here(3, "125", "u3", "Given Fir", "Team Fir", True, How.PLACE, "B", 1),
        Here(4, "125", "Cedar", "Given Cedar", "Team Cedar", True),
    ]
    found = intake(WANTED, EVENT, here, ["Team Ash", "Teem Dogwood"])
    assert sorted(map(str, found.doubts)) == [
        "125 A1: Given Ash looks like Givenn Ash of the same team, entered already",
        "125 A2: Given Birch is entered at 133 too",
        "125 A3: Given Cedar did not advance and is entered by hand; he stays entered",
        "125 B1: Given Dogwood comes in, and Given Fir holds it already",
        "125 B1: Given Fir holds it, and has no such place at the event",
        "Team Dogwood: this new team is spelled almost like “Teem Dogwood”",
    ]
