"""Rosters: headings, cells, every problem at once."""

from datetime import date
from decimal import Decimal

import pytest

from seeding.entries.core.measures import Weighing
from seeding.entries.core.names import Publish
from seeding.entries.core.roster import Asked, Regions, Roster, RosterRow, read_roster
from seeding.entries.core.spelling import alike, parted
from seeding.entries.core.table import read_table

# published: NCAA Wrestling Rules Book (college men's weights)
WEIGHTS = ("125", "133", "141", "149", "157", "165", "174", "184", "197", "285")
KNOWN = "125, 133, 141, 149, 157, 165, 174, 184, 197, 285"


def roster(text: str, weights: tuple[str, ...] = WEIGHTS) -> Roster:
    return read_roster(read_table(text.encode(), "roster.csv"), Asked(weights))


def said(text: str) -> list[str]:
    return [str(problem) for problem in roster(text).problems]


REGIONS = Regions(2, {"A": "North", "B": "South Shore"})


def with_regions(text: str, regions: Regions | None = REGIONS) -> Roster:
    table = read_table(text.encode(), "roster.csv")
    return read_roster(table, Asked(WEIGHTS, regions))


def test_a_region_goes_by_its_letter_or_its_name() -> None:
    found = with_regions(
        "Name,Weight,Team,Region,Place\n"
        "Ira Holm,125,Alder,a,1\nNoa Berg,125,Alder,south shore,2\nAda Moss,133,Alder,-,\n"
    )
    assert found.problems == ()
    assert [(row.region, row.qualifying_place) for row in found.rows] == [
        ("A", 1),
        ("B", 2),
        (None, None),
    ]


@pytest.mark.parametrize(
    ("row", "regions", "problem"),
    [
        ("Z,1,", REGIONS, "row 2, column Region: “Z” is not a region of this tournament; known: "),
        ("A,,", REGIONS, "row 2, column Region: the place in the region is missing"),
        ("A,x,", REGIONS, "row 2, column Place: “x” is not a whole number from 1"),
        ("A,3,4", REGIONS, "row 2, column Seed: 2 of each region advance; with place 3 he stands"),
        ("A,1,", None, "row 2, column Region: the tournament takes nobody from regions yet"),
    ],
)
def test_a_region_that_cannot_be_is_refused(
    row: str, regions: Regions | None, problem: str
) -> None:
    text = f"Name,Weight,Team,Region,Place,Seed\nIra Holm,125,Alder,{row}\n"
    assert str(with_regions(text, regions).problems[0]).startswith(problem)


# Ages are those on 19 March 2026.
WEIGHING = Weighing("To be grouped", "lb", date(2026, 3, 19))


def grouped(text: str) -> Roster:
    table = read_table(text.encode(), "roster.csv")
    return read_roster(table, Asked(("To be grouped", "Group 1"), None, WEIGHING))


def test_a_division_that_forms_groups_reads_what_was_measured_and_needs_no_weight() -> None:
    found = grouped(
        "Name;Team;Weighed;Date of birth;Experience\n"
        "Ira Holm;Alder;61,5 lbs;2016-03-20;0\nNoa Berg;Alder;72;10;\nAda Moss;Alder;-;;3\n"
    )
    assert found.problems == found.warnings == ()
    assert [(row.weight, row.weighed, row.age, row.experience) for row in found.rows] == [
        ("", Decimal("61.5"), 9, 0),
        ("", Decimal(72), 10, None),
        ("", None, None, 3),
    ]


def test_a_year_of_birth_is_read_with_a_warning() -> None:
    found = grouped("Name,Team,Birth year\nIra Holm,Alder,2016\n")
    assert found.rows[0].age == 10
    (warning,) = found.warnings
    assert str(warning) == (
        "row 2, column Birth year: “2016” is a year alone, read as the age that he reaches in "
        "2026: 10"
    )


@pytest.mark.parametrize(
    ("row", "problem"),
    [
        (",61 kg,,", "row 2, column Weighed: “61 kg” is not a weight in lb, such as 61.5"),
        (",0,,", "row 2, column Weighed: “0” is not a weight in lb"),
        (",1000,,", "row 2, column Weighed: “1000” is not a weight in lb"),
        (",61.555,,", "row 2, column Weighed: “61.555” is not a weight in lb"),
        (",,20.3.2016,", "row 2, column Age: “20.3.2016” is not an age from 0 to 98, a date"),
        (",,2027-01-01,", "row 2, column Age: “2027-01-01” is not an age"),
        (",,,99", "row 2, column Experience: years of experience go from 0 to 98"),
        (",,,two", "row 2, column Experience: “two” is not a whole number"),
        ("61.5,,,", "row 2, column Weight: 61.5 is not a weight of this division, which forms"),
    ],
)
def test_figures_that_cannot_be_are_refused(row: str, problem: str) -> None:
    found = grouped(f"Name,Team,Weight,Weighed,Age,Experience\nIra Holm,Alder,{row}\n")
    assert [str(one)[: len(problem)] for one in found.problems] == [problem]


def test_fixed_weights_read_no_figures() -> None:
    found = roster("Name,Weight,Team,Age,Weighed\nIra Holm,125,Alder,x,124.8\n")
    assert found.problems == ()
    assert found.rows[0].weighed is None
    assert [str(one) for one in found.warnings] == [
        "row 1: the column “Weighed” is not read: the division forms no groups",
        "row 1: the column “Age” is not read: the division forms no groups",
    ]


def test_without_weights_the_way_to_them_is_told_once() -> None:
    found = roster("Name,Team,Weighed\nIra Holm,Alder,61\nNoa Reed,Cedar,62\n", ())
    (said,) = map(str, found.problems)
    assert said.startswith("the division has no weights yet; under “Weights” add them, or press")
    assert "Groups of" in said
    assert found.rows == ()


HEADINGS = [
    "Given,Family,Weight,Team,Short,Seed",
    "first name,LAST NAME,Weight Class,school,code,Seeding",
    "First_Name,Surname,Wt.,Club,Team Short,seed",
    "FIRST,Last,weightclass,Team Name,Abbreviation,SEED",
]


@pytest.mark.parametrize("headings", HEADINGS)
def test_headings_go_by_many_names(headings: str) -> None:
    found = roster(f"{headings}\nIra,Holm,125 lbs,Alder Valley,ALD,#1\n")
    assert found.problems == found.warnings == ()
    assert found.rows == (RosterRow(2, "125", "Alder Valley", "ALD", "Ira", "Holm", seed=1),)


NAMES = [
    ("Holm, Ira", ("Ira", "Holm")),
    ("Ira Holm", ("Ira", "Holm")),
    ("  Zoë\n Łukasik ", ("Zoë", "Łukasik")),
    ("Holm", ("", "Holm")),
    ("Holm,", ("", "Holm")),
    ("van der Aa, Tom", ("Tom", "van der Aa")),
    ("Tom van der Aa", ("Tom", "van der Aa")),
    ("Ira Holm Jr.", ("Ira", "Holm Jr.")),
    ("Ira Lee Holm III", ("Ira Lee", "Holm III")),
    ("Holm, Ira, Jr.", ("Ira", "Holm Jr.")),
    ("Holm, Jr., Ira", ("Ira", "Holm Jr.")),
    ("Da Silva", ("Da", "Silva")),
    ("", ("", "")),
]


@pytest.mark.parametrize(("name", "parts"), NAMES)
def test_a_name_in_one_column_is_parted(name: str, parts: tuple[str, str]) -> None:
    assert parted(name) == parts


def test_a_first_name_beside_a_name_makes_the_name_a_family_name() -> None:
    (row,) = roster("First Name,Name,Weight,Team\nIra,Holm,125,Alder\n").rows
    assert (row.given, row.family) == ("Ira", "Holm")


def test_a_guess_at_a_name_is_a_warning() -> None:
    found = roster("Wrestler,Wt,Team\nAnna Lena Holm,125,Alder\nTom Holm,133,Alder\n")
    assert [str(warning) for warning in found.warnings] == [
        (
            "row 2, column Wrestler: “Anna Lena Holm” is read as given “Anna Lena”, family “Holm”; "
            "a comma decides it"
        )
    ]


WEIGHED = [
    ("125", "125"),
    ("125.0", "125"),
    ("125 lb", "125"),
    ("125lbs.", "125"),
    ("285", "285"),
    ("HWT", "285"),
    ("Heavyweight", "285"),
]


@pytest.mark.parametrize(("cell", "label"), WEIGHED)
def test_weights_are_read_with_their_unit(cell: str, label: str) -> None:
    assert roster(f"name,weight,team\nIra Holm,{cell},Alder\n").rows[0].weight == label


def test_weights_by_name_know_no_heavyweight() -> None:
    found = roster("name,weight,team\nIra Holm,Boys A,Alder\nNoa,hwt,Alder\n", ("Boys A", "Boys B"))
    assert [row.weight for row in found.rows] == ["Boys A"]
    assert len(found.problems) == 1


FULL = "name,weight,team,seed,scoring,publish,rank,qualifying place,year,wins,losses\n"


def test_every_column_is_read() -> None:
    (row,) = roster(f"{FULL}Ira Holm,125,Alder,3,no,initials,7,2,Jr,12,3\n").rows
    assert row == RosterRow(
        row=2,
        weight="125",
        team="Alder",
        short="",
        given="Ira",
        family="Holm",
        seed=3,
        scoring=False,
        publish=Publish.INITIALS,
        rank=7,
        qualifying_place=2,
        grade="Jr",
        wins=12,
        losses=3,
    )


def test_a_blank_cell_says_nothing() -> None:
    (row,) = roster(f"{FULL}Ira Holm,125,Alder,-,,,n/a,,,,\n").rows
    assert row == RosterRow(2, "125", "Alder", "", "Ira", "Holm")


def test_every_problem_is_named_by_row_and_column_at_once() -> None:
    text = (
        "Name,Weight,School,Seed,Publish,Scoring,W\n"
        "Ira Holm,125,Alder,1,full,yes,3\n"
        ",127,Alder,0,perhaps,maybe,-3\n"
        "Noa Berg,,,x,hidden,no,\n"
        '"Holm, Ida",133,Alder,2,initials,1,4,extra\n'
        f"{'x' * 161},133,{'y' * 121},,,,\n"
    )
    assert said(text) == [
        (
            "row 5: there are more cells than headings (“extra”); a cell with a comma in it must "
            "stand in quotation marks"
        ),
        "row 3, column Name: the family name is missing",
        "row 3, column Publish: “perhaps” is none of: full, initials, hidden",
        "row 3, column Scoring: “maybe” is none of: yes, no",
        f"row 3, column Weight: 127 is not a weight class of this division; known: {KNOWN}",
        "row 3, column Seed: “0” is not a whole number from 1",
        "row 3, column W: “-3” is not a whole number from 0",
        f"row 4, column Weight: the weight is missing; known: {KNOWN}",
        "row 4, column School: the team is missing",
        "row 4, column Seed: “x” is not a whole number from 1",
        "row 6, column Name: “xxxxxxxxxxxxxxxxxxxx…” is longer than 160 characters",
        "row 6, column School: “yyyyyyyyyyyyyyyyyyyy…” is longer than 120 characters",
    ]


def test_missing_and_repeated_headings_are_problems_of_the_heading_row() -> None:
    assert said("\nWt,Weight,Club\n125,125,Alder\n") == [
        "row 2: the columns “Wt” and “Weight” mean the same; keep one of them",
        "row 2: no column for the name; give it the heading “family or name”",
    ]
    assert said("what,ever\n1,2\n") == [
        "row 1: no column for the name; give it the heading “family or name”",
        "row 1: no column for the weight; give it the heading “weight”",
        "row 1: no column for the team; give it the heading “team or short”",
    ]


def test_columns_that_are_not_read_are_named() -> None:
    found = roster("name,weight,team,Phone,,Notes\nIra Holm,125,Alder,1,,2\n")
    assert [str(warning) for warning in found.warnings] == [
        "row 1: the column “Phone” is not read; its heading is not known",
        "row 1: the column “Notes” is not read; its heading is not known",
    ]


ALIKE = [
    ("Jon Holm", "John Holm", True),
    ("Noah Berg", "Noa Berg", True),
    ("José Peña", "Jose Pena", True),
    ("Holm Ira", "Ira Holm", True),
    ("Ira Holm", "Ida Berg", False),
    ("Ira Holm", "IRA HOLM", False),  # the same, not alike
]


@pytest.mark.parametrize(("one", "other", "expected"), ALIKE)
def test_what_looks_like_a_slip_of_the_pen(one: str, other: str, expected: bool) -> None:
    assert bool(alike(one, [other])) is expected
