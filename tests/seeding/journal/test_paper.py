"""The base of all paper: the font that comes along, pages of both sizes, tables that go on."""

import re
from hashlib import sha256

import pytest

from seeding.journal.paper import Column, PageSize, Sheet, heading, pdf, size_of, table, text
from seeding.journal.paper.fonts import BOLD, FOLDER, LACKING, REGULAR, has, printable

# Of DejaVu 2.37 as published: https://dejavu-fonts.github.io/
SUMS = {
    f"{BOLD}.ttf": "6d2f2481e2aae944e8411cc5be515c69503ff7f5db52f2c67bcbe5d4de6bec13",
    f"{REGULAR}.ttf": "2d8aa290adcf1ebcbb35f63e57cf32941b012eaab4b65096b904112cf3bac972",
}
LATIN = "ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÐÑÒÓÔÕÖØÙÚÛÜÝÞßàáâãäåæçèéêëìíîïðñòóôõöøùúûüýþÿĀāĂăĄąĆćĈĉČčĎďĐđĒēĖėĘęĚěĞğĢģĦħĪīĮįİıĶķĹĺĻļĽľŁłŃńŅņŇňŌōŐőŒœŔŕŘřŚśŞşŠšŢţŤťŨũŪūŬŭŮůŰűŲųŴŵŶŷŸŹźŻżŽžƠơƯưǍǎȘșȚțẠạẢảẤấẦầẨẩẪẫẬậẮắẰằẲẳẴẵẶặẸẹẺẻẼẽẾếỀềỂểỄễỆệỈỉỊịỌọỎỏỐốỒồỔổỖỗỘộỚớỜờỞởỠỡỢợỤụỦủỨứỪừỬửỮữỰựỲỳỴỵỶỷỸỹ"  # noqa: E501
CYRILLIC = "".join(chr(at) for at in (*range(0x400, 0x460), *range(0x490, 0x4F0)))


def test_the_fonts_are_those_that_were_published_and_their_licence_lies_beside() -> None:
    found = {path.name: sha256(path.read_bytes()).hexdigest() for path in FOLDER.glob("*.ttf")}
    assert found == SUMS
    assert "Bitstream Vera" in (FOLDER / "LICENSE").read_text()


def test_the_font_has_every_accent_and_cyrillic() -> None:
    assert not [letter for letter in LATIN + CYRILLIC if not has(letter)]


@pytest.mark.parametrize(
    ("name", "printed"),
    [
        ("Łukasz Đorđević", "Łukasz Đorđević"),
        ("Юрий Ћосић", "Юрий Ћосић"),
        ("Jose\u0301", "José"),  # written in two letters, composed
        ("李明 Lee", f"{LACKING}{LACKING} Lee"),
        ("שלום", LACKING * 4),  # would come out backwards
        ("\N{FULLWIDTH LATIN CAPITAL LETTER K}im", "Kim"),
        ("A\u200dB", "AB"),  # a joiner that nobody sees
        ("", ""),
    ],
)
def test_a_letter_that_is_lacking_is_replaced_where_all_can_see_it(name: str, printed: str) -> None:
    assert printable(name) == printed


def pages(made: bytes) -> int:
    return len(re.findall(rb"/Type /Page\b", made))


def sheet(size: PageSize, *, landscape: bool = False) -> Sheet:
    return Sheet("Title", "Spring Open · 125", "foot", size, landscape)


ROWS = [(str(row), f"Name {row}", "why " * 40) for row in range(90)]
COLUMNS = (Column("No", 12, number=True), Column("Name", 40), Column("Why"))


@pytest.mark.parametrize("size", list(PageSize))
def test_a_table_goes_on_over_the_page(size: PageSize) -> None:
    paper = sheet(size)
    made = pdf(paper, [heading("Table"), table(COLUMNS, ROWS, paper.width)])
    assert pages(made) > 3
    box = {PageSize.A4: b"595.2756 841.8898", PageSize.LETTER: b"612 792"}[size]
    assert made.count(b"/MediaBox [ 0 0 " + box + b" ]") == pages(made)


def test_a_sheet_lies_on_its_side() -> None:
    made = pdf(sheet(PageSize.LETTER, landscape=True), [text("x")])
    assert b"/MediaBox [ 0 0 792 612 ]" in made


def test_the_same_blocks_make_the_same_bytes() -> None:
    first, second = (pdf(sheet(PageSize.A4), [text("Zoë & <Юрий>")]) for _ in range(2))
    assert first == second
    assert first != pdf(sheet(PageSize.A4), [text("Zoe")])


def test_the_size_is_that_asked_for_or_that_of_the_site() -> None:
    assert size_of("A4") is PageSize.A4
    assert size_of("") is size_of("folio") is PageSize.LETTER
