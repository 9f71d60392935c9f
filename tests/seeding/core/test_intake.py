"""A season in a file: what is read, and everything that is wrong, by row and column."""

from collections.abc import Sequence
from datetime import date

import pytest

from seeding.core.intake import SeasonSheet, read_season
from seeding.core.repeats import fresh
from seeding.entries.core.table import Row, Table
from tests.seeding.core.seasons import bout

HEADERS = ("Date", "Weight", "Winner", "Winner Team", "Loser", "Loser Team", "Result", "Event")
GOOD = ("2024-11-16", "133", "Ira Holm", "Alder", "Bo Reed", "Birch", "MD 11-1", "Harbour Open")


def read(*rows: Sequence[str], headers: Sequence[str] = HEADERS) -> SeasonSheet:
    body = tuple(Row(at, tuple(row)) for at, row in enumerate(rows, 2))
    return read_season(Table(tuple(headers), 1, body), ("133", "285"))


def changed(**cells: str) -> list[str]:
    """The good row with some cells changed, by heading in small letters."""
    at = {
        heading.casefold().replace(" ", "_"): cell
        for heading, cell in zip(HEADERS, GOOD, strict=True)
    }
    return list((at | cells).values())


def told(sheet: SeasonSheet) -> list[str]:
    return [str(problem) for problem in sheet.problems]


def test_a_good_row() -> None:
    sheet = read(GOOD)
    (row,) = sheet.rows
    assert not sheet.problems
    assert not sheet.warnings
    assert (row.row, row.date, row.weight) == (2, date(2024, 11, 16), "133")
    assert (str(row.winner), row.winner.team) == ("Ira Holm", "Alder")
    assert (row.loser.given, row.loser.family, row.loser.team) == ("Bo", "Reed", "Birch")
    assert (row.kind, row.score, row.points) == ("major decision", "11-1", (11, 1))
    made = row.bout("w1", "w2")
    assert (made.winner, made.loser, made.score, made.event) == ("w1", "w2", "11-1", "Harbour Open")


def test_headings_go_by_other_names_in_any_order() -> None:
    headers = ("Tournament", "won by", "LOSING WRESTLER", "Wt.", "Match Date", "Win Type", "Score")
    sheet = read(
        ("Harbour Open", "Holm, Ira", "Reed, Bo", "133 lbs", "11/16/2024", "Dec", "5-3"),
        headers=headers,
    )
    assert not sheet.problems
    assert (str(sheet.rows[0].winner), sheet.rows[0].weight) == ("Ira Holm", "133")
    assert (sheet.rows[0].kind, sheet.rows[0].score) == ("decision", "5-3")


@pytest.mark.parametrize(
    ("result", "score", "time", "expected"),
    [
        ("TF", "19-4", "4:25", "technical fall 19-4 4:25"),
        ("TF 19-4 4:25", "19-4", "4:25", "technical fall 19-4 4:25"),
        ("Fall", "", "2:28", "fall 2:28"),
        ("", "5-3", "", "decision 5-3"),
    ],
)
def test_score_and_time_may_stand_apart(result: str, score: str, time: str, expected: str) -> None:
    row = ("2024-11-16", "133", "Ira Holm", "Bo Reed", result, score, time)
    sheet = read(row, headers=("Date", "Weight", "Winner", "Loser", "Result", "Score", "Time"))
    assert f"{sheet.rows[0].kind} {sheet.rows[0].score}" == expected


@pytest.mark.parametrize(
    ("cells", "message"),
    [
        (
            {"date": "soon"},
            "row 2, column Date: “soon” is not a date such as 2024-11-16 or 11/16/2024",
        ),
        ({"date": ""}, "row 2, column Date: the date is missing"),
        ({"weight": ""}, "row 2, column Weight: the weight is missing"),
        ({"winner": ""}, "row 2, column Winner: the winner is missing"),
        ({"loser": ""}, "row 2, column Loser: the loser is missing"),
        (
            {"loser": "holm, ira", "loser_team": "ALDER"},
            "row 2, column Loser: winner and loser are the same",
        ),
        ({"result": ""}, "row 2, column Result: the result is missing"),
        (
            {"result": "Dec 3-5"},
            "row 2, column Result: the winner's points come first, not “3-5”",
        ),
    ],
)
def test_a_wrong_cell_is_named(cells: dict[str, str], message: str) -> None:
    sheet = read(changed(**cells))
    assert told(sheet) == [message]
    assert not sheet.rows


def test_all_problems_come_at_once() -> None:
    sheet = read(changed(date="x", winner=""), GOOD, changed(weight="", result="?"))
    assert [text.split(":")[0] for text in told(sheet)] == [
        "row 2, column Date",
        "row 2, column Winner",
        "row 4, column Weight",
        "row 4, column Result",
    ]


def test_a_missing_column_is_named() -> None:
    sheet = read(("2024-11-16", "Ira Holm"), headers=("Date", "Winner"))
    assert told(sheet) == [
        "row 1: no column for the weight; give it the heading “weight”",
        "row 1: no column for the loser; give it the heading “loser”",
        "row 1: no column for the result; give it the heading “result”",
    ]


def test_unknown_headings_and_bouts_without_a_winner_are_only_warnings() -> None:
    sheet = read((*changed(result="DFF"), "7"), headers=(*HEADERS, "Mat"))
    assert not sheet.rows
    assert not sheet.problems
    assert [str(warning) for warning in sheet.warnings] == [
        "row 1: the column “Mat” is not read; its heading is not known",
        "row 2, column Result: “DFF” has no winner and is passed over",
    ]


@pytest.mark.parametrize(
    ("written", "weight"),
    [("133", "133"), ("133.0", "133"), ("133 lbs.", "133"), ("HWT", "285"), ("141#", "141")],
)
def test_weights(written: str, weight: str) -> None:
    assert read(changed(weight=written)).rows[0].weight == weight


def test_a_repeated_row_adds_nothing() -> None:
    again = changed(winner="HOLM, Ira", event="harbour open ", result="Maj Dec 11-1")
    sheet = read(GOOD, again)
    assert (len(sheet.rows), sheet.repeated) == (1, (3,))
    assert not sheet.problems


def test_another_day_weight_or_event_is_another_bout() -> None:
    others = [changed(date="2024-11-17"), changed(weight="141"), changed(event="Hill Duals")]
    assert len(read(GOOD, *others).rows) == 4


@pytest.mark.parametrize("result", ["MD 12-1", "Fall 2:28"])
def test_contradicting_rows_are_a_problem(result: str) -> None:
    (message,) = told(read(GOOD, changed(result=result)))
    assert message == (
        "row 3: it reports the bout of row 2 with another result; correct one of them, or, if the "
        "two met twice that day, give the event of one bout another name"
    )


def test_the_winner_may_be_contradicted() -> None:
    turned = changed(winner="Bo Reed", winner_team="Birch", loser="Ira Holm", loser_team="Alder")
    assert len(read(GOOD, turned).problems) == 1


def test_the_same_file_twice_adds_nothing_twice() -> None:
    season = [bout("A", "B"), bout("B", "C", 1), bout("A", "B", 2)]
    first = fresh([*season, season[0]], [])
    assert (first.new, first.repeated) == (tuple(season), (season[0],))
    again = fresh(season, first.new)
    assert (again.new, again.known, again.contradicted) == ((), tuple(season), ())


def test_a_report_may_contradict_what_is_known() -> None:
    known, turned = bout("A", "B"), bout("B", "A")
    assert fresh([turned], [known]).contradicted == ((turned, known),)
    assert not fresh([turned], [known]).new
