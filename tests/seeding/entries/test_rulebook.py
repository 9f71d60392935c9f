"""The reader of rule books: refusals by name, overrides, upgrades."""

from decimal import Decimal
from re import escape
from typing import Any

import pytest

from seeding.entries.core.errors import (
    BadSetting,
    MissingSection,
    MissingSetting,
    NewerSnapshot,
    UnknownSection,
    UnknownSetting,
)
from seeding.entries.core.rulebook import (
    SCHEMA,
    SECTIONS,
    Section,
    export,
    names,
    override,
    restore,
    snapshot,
    upgrade,
)
from seeding.entries.core.upgrades import Snapshot


def small(**sections: object) -> Snapshot:
    return snapshot({name: {} for name in SECTIONS} | sections)


BOOK = small(
    floor={"rest_minutes": 30},
    team_points={
        "byes": "wins-next",
        "consolation_win": Decimal("0.5"),
        "placement": {"4": [10, 7, 4, 2]},
    },
    seeding={"criteria": [{"name": "quality wins", "weight": 20}, {"name": "RPI", "weight": 10}]},
)


def test_a_snapshot_is_plain_json_with_decimals_as_text() -> None:
    assert BOOK["schema"] == SCHEMA
    assert BOOK["team_points"]["consolation_win"] == "0.5"
    assert restore(export(BOOK)) == BOOK


def test_a_missing_or_unknown_section_is_refused_by_name() -> None:
    with pytest.raises(MissingSection, match=r"no section \[weights\]"):
        snapshot({name: {} for name in SECTIONS if name != "weights"})
    with pytest.raises(UnknownSection, match=r"section \[mascots\] that nobody reads"):
        small(mascots={})


def test_what_json_cannot_hold_is_refused_with_its_path() -> None:
    with pytest.raises(BadSetting, match=r"book\.day must be text, a number"):
        small(book={"day": object()})


@pytest.mark.parametrize(
    ("name", "value", "read"),
    [
        ("team_points.byes", "none", lambda book: book["team_points"]["byes"]),
        (
            "team_points.consolation_win",
            Decimal("0.75"),
            lambda book: Decimal(book["team_points"]["consolation_win"]),
        ),
        (
            "team_points.placement.4",
            [3, 2, 1, 0],
            lambda book: book["team_points"]["placement"]["4"],
        ),
        ("team_points.placement.7", [7] * 7, lambda book: book["team_points"]["placement"]["7"]),
        (
            "seeding.criteria.quality wins.weight",
            30,
            lambda book: book["seeding"]["criteria"][0]["weight"],
        ),
    ],
)
def test_an_override_replaces_one_value_and_leaves_the_rest(
    name: str, value: object, read: Any
) -> None:
    before = export(BOOK)
    changed = override(BOOK, {name: value})
    assert read(changed) == value
    assert export(BOOK) == before
    back = override(changed, {known: _value(BOOK, known) for known in names(BOOK)})
    if name in names(BOOK):
        assert export(back) == before


def _value(book: Any, name: str) -> Any:
    for key in name.split("."):
        if isinstance(book, list):
            book = {item["name"]: item for item in book}
        book = book[key]
    return book


@pytest.mark.parametrize(
    ("name", "message"),
    [
        (
            "team_points.bye",
            (
                "There is no setting team_points.bye. There are: team_points.byes, "
                "team_points.consolation_win, team_points.placement.4."
            ),
        ),
        (
            "team_points",
            (
                "There is no setting team_points. There are: team_points.byes, "
                "team_points.consolation_win, team_points.placement.4."
            ),
        ),
        (
            "floor.rest_minutes.least",
            "There is no setting floor.rest_minutes.least. There are: floor.rest_minutes.",
        ),
        (
            "team_points.placement.all",
            (
                "There is no setting team_points.placement.all. There are: team_points.byes, "
                "team_points.consolation_win, team_points.placement.4."
            ),
        ),
    ],
)
def test_an_unknown_name_is_refused_with_those_that_exist(name: str, message: str) -> None:
    with pytest.raises(UnknownSetting) as refused:
        override(BOOK, {name: 1})
    assert str(refused.value) == message
    assert refused.value.where == name


@pytest.mark.parametrize("name", ["", ".", "7", "book.name", "schema", "nothing.at.all"])
def test_names_outside_the_sections_are_refused(name: str) -> None:
    with pytest.raises(UnknownSetting, match=escape("floor.rest_minutes")):
        override(BOOK, {name: 1})


def test_upgrading_supplies_what_a_later_schema_added() -> None:
    steps = {
        SCHEMA: lambda old: old | {"floor": old["floor"] | {"warm_up": 10}},
        SCHEMA + 1: lambda old: old | {"floor": old["floor"] | {"colour": "red"}},
    }
    new = upgrade(BOOK, steps, schema=SCHEMA + 2)
    assert new["schema"] == SCHEMA + 2
    assert new["floor"] == {"rest_minutes": 30, "warm_up": 10, "colour": "red"}
    assert upgrade(new, steps, schema=SCHEMA + 2) == new
    assert upgrade(BOOK) == BOOK


def test_a_snapshot_of_a_later_program_is_refused() -> None:
    with pytest.raises(NewerSnapshot, match=f"schema {SCHEMA + 1}, this program knows up to"):
        upgrade(BOOK | {"schema": SCHEMA + 1})


VALUES: dict[str, object] = {
    "text": "mirrored",
    "whole": 8,
    "points": "1.5",
    "flag": True,
    "wholes": [1, 2],
    "decimals": [16, "2.5"],
    "texts": ["a", "b"],
    "table": {"8": [1], "4": [2]},
    "tables": [{"name": "one"}],
}


def test_the_reader_gives_typed_values() -> None:
    with Section("bracket", VALUES) as bracket:
        assert bracket.text("text", ("mirrored", "recurrence")) == "mirrored"
        assert bracket.whole("whole") == 8
        assert bracket.points("points") == Decimal("1.5")
        assert bracket.flag("flag") is True
        assert bracket.wholes("wholes") == (1, 2)
        assert bracket.decimals("decimals") == (Decimal(16), Decimal("2.5"))
        assert bracket.texts("texts") == ("a", "b")
        assert bracket.numbered("table") == ((4, "4"), (8, "8"))
        (only,) = bracket.sections("tables")
        assert only.text("name") == "one"


@pytest.mark.parametrize(
    ("method", "key", "message"),
    [
        ("text", "whole", "The setting bracket.whole must be text; it is 8."),
        ("whole", "flag", "The setting bracket.flag must be a whole number from 0; it is True."),
        ("whole", "points", "bracket.points must be a whole number from 0; it is '1.5'."),
        ("points", "text", "bracket.text must be a number; it is 'mirrored'."),
        ("flag", "whole", "bracket.whole must be true or false; it is 8."),
        ("wholes", "texts", "bracket.texts must be a list of whole numbers"),
        ("decimals", "texts", "bracket.texts must be a list of numbers"),
        ("decimals", "text", "bracket.text must be a list of numbers"),
        ("texts", "wholes", "bracket.wholes must be a list of texts"),
        ("section", "text", "bracket.text must be a table"),
        ("sections", "text", "bracket.text must be a list of tables"),
    ],
)
def test_the_reader_refuses_the_wrong_kind_by_name(method: str, key: str, message: str) -> None:
    with pytest.raises(BadSetting) as refused:
        getattr(Section("bracket", VALUES), method)(key)
    assert message in str(refused.value)
    assert refused.value.where == f"bracket.{key}"


def test_the_reader_refuses_a_choice_that_is_not_offered() -> None:
    section = Section("bracket", VALUES)
    with pytest.raises(BadSetting, match=escape("bracket.text must be one of straight, crossed")):
        section.text("text", ("straight", "crossed"))
    with pytest.raises(BadSetting, match=escape("bracket.texts must be a list of a, c")):
        section.texts("texts", ("a", "c"))
    with pytest.raises(
        BadSetting, match=escape("bracket.odd must be a table whose keys are whole")
    ):
        Section("bracket", {"odd": {"eight": 1}}).numbered("odd")
    for endless in ("NaN", "Infinity"):
        with pytest.raises(BadSetting, match=escape("bracket.win must be a number")):
            Section("bracket", {"win": endless}).points("win")


def test_the_reader_refuses_missing_and_unread_keys_by_name() -> None:
    with pytest.raises(
        MissingSetting, match=escape("The rule book has no bracket.places. Add it.")
    ):
        Section("bracket", {}).whole("places")
    with (
        pytest.raises(
            UnknownSetting, match=escape("no setting bracket.tables. There are: bracket.whole.")
        ),
        Section("bracket", {"whole": 1, "tables": 2}) as bracket,
    ):
        bracket.whole("whole")
