"""Reading and writing files of rows and columns."""

from io import BytesIO
from zipfile import ZipFile

import pytest
import xlsxwriter  # type: ignore[import-untyped]
from hypothesis import given
from hypothesis import strategies as st

from seeding.entries.core import table
from seeding.entries.core.errors import (
    EmptyTable,
    TableRefusal,
    TableTooLarge,
    UnreadableTable,
    WrongFileType,
)
from seeding.entries.core.escaped import escaped, unescaped, write_csv, write_xlsx
from seeding.entries.core.table import read_table


def workbook(*sheets: list[list[object]], hidden: int = 0) -> bytes:
    out = BytesIO()
    with xlsxwriter.Workbook(out, {"in_memory": True}) as book:
        for at, rows in enumerate(sheets):
            sheet = book.add_worksheet(f"S{at + 1}")
            for row, cells in enumerate(rows):
                sheet.write_row(row, 0, cells)
            if at < hidden:
                sheet.hide()
        if hidden:
            book.worksheets()[hidden].set_first_sheet()
            book.worksheets()[hidden].activate()
    return out.getvalue()


def read(text: str) -> list[tuple[int, tuple[str, ...]]]:
    found = read_table(text.encode(), "roster.csv")
    return [(found.header_row, found.headers), *((row.number, row.cells) for row in found.rows)]


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_the_delimiter_is_the_one_that_parts_the_headings(delimiter: str) -> None:
    text = 'Name,Weight,Team\n"Holm, Ira",125,"Alder; Valley"\n'
    if delimiter != ",":
        text = f"Name{delimiter}Weight{delimiter}Team\nHolm, Ira{delimiter}125{delimiter}Alder,V\n"
    assert read(text)[0] == (1, ("Name", "Weight", "Team"))
    assert read(text)[1][1][:2] == ("Holm, Ira", "125")


def test_rows_carry_the_numbers_a_spreadsheet_shows() -> None:
    text = '\nname,weight\n\n" Ira\nHolm ",125\n,\nNoa Berg,133,more\nAda\n'
    assert read(text) == [
        (2, ("name", "weight")),
        (4, ("Ira\nHolm", "125")),
        (6, ("Noa Berg", "133", "more")),
        (7, ("Ada", "")),
    ]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_unicode_is_read_without_a_warning(encoding: str) -> None:
    found = read_table("name,weight\nZoë Łuk,125".encode(encoding), "roster.csv")
    assert found.headers == ("name", "weight")
    assert found.rows[0].cells == ("Zoë Łuk", "125")
    assert found.warnings == ()


def test_windows_1252_is_read_with_a_warning() -> None:
    found = read_table("name,weight\nZoë,125".encode("cp1252"), "roster.csv")
    assert found.rows[0].cells == ("Zoë", "125")
    assert "Windows-1252" in found.warnings[0]


def test_a_workbook_gives_the_same_as_the_csv() -> None:
    data = workbook([["name", "weight", "seed"], [], ["Ira Holm", 125, 1.0], ["Noa", "133", 2.5]])
    found = read_table(data, "roster.xlsx")
    assert [(row.number, row.cells) for row in found.rows] == [
        (3, ("Ira Holm", "125", "1")),
        (4, ("Noa", "133", "2.5")),
    ]


def test_of_a_workbook_the_first_visible_filled_sheet_is_read_and_the_others_are_named() -> None:
    rows: list[list[object]] = [["name"], ["Ira"]]
    hidden: list[list[object]] = [["hidden"], ["no"]]
    found = read_table(workbook(hidden, [], rows, rows, hidden=1), "roster.xlsx")
    assert found.headers == ("name",)
    assert found.warnings == ("Only the sheet “S3” was read, not “S4”.",)


REFUSED = [
    (b"", "a.csv", EmptyTable, "The file a.csv has nothing in it."),
    (b"\n , \n", "a.csv", EmptyTable, "The file a.csv has nothing in it."),
    (b"\nname\n", "a.csv", EmptyTable, "has nothing below its headings in row 2."),
    (workbook([]), "a.xlsx", EmptyTable, "The file a.xlsx has nothing in it."),
    (b"%PDF-1.7", "a.csv", WrongFileType, "The file a.csv is a PDF."),
    (b"\xd0\xcf\x11\xe0", "a.xls", WrongFileType, "is an older spreadsheet (XLS)"),
    (b"name\nIra", "a.docx", WrongFileType, "is of the type “docx”."),
    (b"na\0me\nIra", "a.csv", WrongFileType, "The file a.csv is not text."),
    (b'name\n"Ira', "a.csv", UnreadableTable, "line 2: unexpected end of data."),
    (b"PK\3\4rubbish", "a.xlsx", UnreadableTable, "File is not a zip file."),
    (b"x" * (table.MOST_BYTES + 1), "a.csv", TableTooLarge, "has 16,777,217 bytes;"),
    (b"a\n" * (table.MOST_ROWS + 1), "a.csv", TableTooLarge, "has a row 100,001;"),
    (b"a," * 200 + b"a\nb", "a.csv", TableTooLarge, "has 201 columns; at most 200 columns"),
]


@pytest.mark.parametrize(("data", "name", "kind", "text"), REFUSED)
def test_what_cannot_be_used_is_refused(
    data: bytes, name: str, kind: type[TableRefusal], text: str
) -> None:
    with pytest.raises(kind) as refusal:
        read_table(data, name)
    assert text in str(refusal.value)


def test_packed_files_of_other_programs_are_refused() -> None:
    out = BytesIO()
    with ZipFile(out, "w") as packed:
        packed.writestr("word/document.xml", "<w/>")
    with pytest.raises(WrongFileType, match="packed, but not an XLSX workbook"):
        read_table(out.getvalue(), "a.xlsx")


def test_a_damaged_workbook_is_refused() -> None:
    data = workbook([["name"], ["Ira"]])
    for cut in range(0, len(data), 97):
        with pytest.raises(TableRefusal):
            read_table(data[:cut], "a.xlsx")


@pytest.mark.parametrize(("row", "column"), [(1_048_575, 0), (0, 16_383), (1_048_575, 16_383)])
def test_a_small_workbook_that_claims_a_huge_area_is_refused_before_it_is_opened(
    row: int, column: int
) -> None:
    out = BytesIO()
    with xlsxwriter.Workbook(out, {"in_memory": True}) as book:
        book.add_worksheet().write(row, column, "far away")
    with pytest.raises(TableTooLarge, match="has something in"):
        read_table(out.getvalue(), "a.xlsx")


@given(st.text("'=+-@\t\ra", max_size=6))
def test_no_escaped_text_runs_and_each_comes_back(text: str) -> None:
    assert not escaped(text).startswith(("=", "+", "-", "@", "\t", "\r"))
    assert unescaped(escaped(text)) == text


@pytest.mark.parametrize(("write", "name"), [(write_csv, "a.csv"), (write_xlsx, "a.xlsx")])
def test_what_is_written_is_read_again(write: object, name: str) -> None:
    assert callable(write)
    rows = [("=HYPERLINK(1)", 1, None), ("Zoë, “x”", -2, "-3"), ("'@", 0, "a;b")]
    found = read_table(write(["Name", "@n", "Note"], rows), name)
    assert found.headers == ("Name", "@n", "Note")
    assert [row.cells for row in found.rows] == [
        ("=HYPERLINK(1)", "1", ""),
        ("Zoë, “x”", "-2", "-3"),
        ("'@", "0", "a;b"),
    ]
    assert write(["Name"], rows) == write(["Name"], rows)


def test_a_csv_never_holds_a_formula() -> None:
    assert write_csv(["n"], [["=1+1"], ["\tx"], [-1]]).decode("utf-8-sig").split("\r\n")[1:4] == [
        "'=1+1",
        "'\tx",
        "-1",
    ]
