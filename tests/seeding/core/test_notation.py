"""Results and dates as people write them."""

import doctest
import importlib
import pkgutil

import pytest

import seeding.core as package
from seeding.core.notation import NoWinner, Read, Unread, read_date, read_result
from seeding.core.season import ResultKind as Kind


@pytest.mark.parametrize(
    ("text", "kind", "score"),
    [
        # published: the college book's own notation (NCAA Rule 4.2 note 1)
        ("Dec 5-3", Kind.DECISION, "5-3"),
        ("MD 11-1", Kind.MAJOR, "11-1"),
        ("TF 19-4 4:25", Kind.TECHNICAL_FALL, "19-4 4:25"),
        ("Fall 2:28", Kind.FALL, "2:28"),
        ("Def. (inj.) 3:17", Kind.INJURY, "3:17"),
        ("For.", Kind.FORFEIT, ""),
        ("M. For.", Kind.MEDICAL, ""),
        ("DQ", Kind.DISQUALIFICATION, ""),
        ("5-3 (SV-1)", Kind.DECISION, "5-3 (SV-1)"),
        ("7-6 (TB-1)", Kind.DECISION, "7-6 (TB-1)"),
        ("6-6 RT (TB-2)", Kind.DECISION, "6-6 RT (TB-2)"),
        ("Fall 7:26 (SV-1)", Kind.FALL, "7:26 (SV-1)"),
        # common practice, no source
        ("5-3", Kind.DECISION, "5-3"),
        ("decision", Kind.DECISION, ""),
        ("SV-1 3-1", Kind.DECISION, "3-1 (SV-1)"),
        ("Dec SV 3\u20131", Kind.DECISION, "3-1 (SV)"),
        ("Maj. Dec. 10-2", Kind.MAJOR, "10-2"),
        ("major decision 8-0", Kind.MAJOR, "8-0"),
        ("TF-1.5 5:00 (18-2)", Kind.TECHNICAL_FALL, "18-2 5:00"),
        ("Tech Fall 16-0", Kind.TECHNICAL_FALL, "16-0"),
        ("Pin 0:45", Kind.FALL, "0:45"),
        ("F 4:10 (8-2)", Kind.FALL, "8-2 4:10"),
        ("injury default", Kind.INJURY, ""),
        ("FF", Kind.FORFEIT, ""),
        ("MFF", Kind.MEDICAL, ""),
        ("Disq.", Kind.DISQUALIFICATION, ""),
        *((str(kind), kind, "") for kind in Kind),
    ],
)
def test_results(text: str, kind: Kind, score: str) -> None:
    read = read_result(text)
    assert isinstance(read, Read)
    assert (read.kind, read.score) == (kind, score)
    assert read_result(f"{kind} {score}") == read


@pytest.mark.parametrize(
    "text",
    ["DFF", "double forfeit", "Double Disqualification", "DDQ", "NC", "no contest", "Bye"],
)
def test_results_without_a_winner(text: str) -> None:
    assert isinstance(read_result(text), NoWinner)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "“” is not a result; known are such as Dec 5-3, "),
        ("superbly", "“superbly” is not a result; known are such as Dec 5-3, "),
        ("11-1", "“11-1” is not a result; known are such as Dec 5-3, "),
        ("4:25", "“4:25” is not a result; "),
        ("Dec 3-5", "the winner's points come first, not “3-5”"),
        ("Dec 6-6", "6-6 has no winner; was it overtime, or riding time (RT)?"),
        ("Dec 5-3 7-1", "“Dec 5-3 7-1” has more than one score or time"),
        ("Fall 2:28 3:10", "“Fall 2:28 3:10” has more than one score or time"),
        ("Dec 112-3", "“Dec 112-3” is not a result; "),
    ],
)
def test_results_that_cannot_be_read(text: str, message: str) -> None:
    read = read_result(text)
    assert isinstance(read, Unread)
    assert read.message.startswith(message)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2024-11-16", "2024-11-16"),
        ("2024-11-16 00:00:00", "2024-11-16"),
        ("2024-11-16T00:00:00", "2024-11-16"),
        ("11/6/2024", "2024-11-06"),
        ("1/6/25", "2025-01-06"),
        ("6.11.2024", "2024-11-06"),
        ("2024-02-30", None),
        ("16/11/2024", None),
        ("0000-01-01", None),
        ("today", None),
        ("", None),
    ],
)
def test_dates(text: str, day: str | None) -> None:
    found = read_date(text)
    assert (found.isoformat() if found else None) == day


@pytest.mark.parametrize("name", [module.name for module in pkgutil.iter_modules(package.__path__)])
def test_examples_in_docstrings(name: str) -> None:
    module = importlib.import_module(f"seeding.core.{name}")
    assert doctest.testmod(module).failed == 0
