"""Files of criteria: those of the tree are read, and what is wrong in one is named."""

import pytest

from seeding.core.errors import BadList, UnknownList
from seeding.core.rules import SeedingRules
from seeding.rulebooks import FOLDER, MOST, lists, rules_of_list, section_of, text_of

NAMES = lists()
LADDER, OHIO = "idaho-5a-2011", "ohio-sectional-2017"


def refused(text: str) -> BadList:
    with pytest.raises(BadList) as refusal:
        section_of("ours.toml", text)
    return refusal.value


def changed(name: str, old: str, new: str) -> str:
    """The text of a list with its first `old` replaced."""
    text = text_of(name)
    assert old in text
    return text.replace(old, new, 1)


def test_every_file_is_a_list() -> None:
    assert {path.stem for path in FOLDER.glob("*")} - {"__init__", "__pycache__"} == {*NAMES}


@pytest.mark.parametrize("name", NAMES)
def test_every_list_is_read(name: str) -> None:
    rules = rules_of_list(name)
    assert isinstance(rules, SeedingRules)
    assert section_of(f"{name}.toml", text_of(name))["list"] == rules.name
    assert rules.count_at("133") > 0


def test_names_of_lists_differ() -> None:
    names = [rules_of_list(name).name for name in NAMES]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("name", NAMES)
def test_a_source_stands_beside_every_number(name: str) -> None:
    """A factor of 1, nothing dropped, and the numbers of groups speak for themselves."""
    for line in text_of(name).splitlines():
        key, _, value = line.partition(" = ")
        if value[:1].isdigit() and value not in ("0", "1"):
            silent = key == "group"
            assert "  # " in value or silent, line


def test_an_unknown_list() -> None:
    with pytest.raises(UnknownList) as refusal:
        text_of("atlantis")
    assert str(refusal.value) == (
        f"There is no list of criteria 'atlantis'. There are: {', '.join(NAMES)}."
    )


@pytest.mark.parametrize("name", ["../entries/rulebooks/college-2025", "", "iowa-2018.toml"])
def test_a_name_is_no_path(name: str) -> None:
    with pytest.raises(UnknownList):
        rules_of_list(name)


WHERE = "The file ours.toml is not taken: "


def test_a_refusal_says_where() -> None:
    refusal = refused(changed(OHIO, 'rest = "unseeded"', 'rest = "home"'))
    assert refusal.where == "ours.toml: seeding.stages.0.rest"
    assert refusal.code == "bad-list"


def test_no_toml() -> None:
    assert str(refused('[seeding]\nlist = "ours"\nsource = = 3\n')) == (
        f"{WHERE}it is no TOML: Invalid value (at line 3, column 10)"
    )
    assert "(at line 2, column " in str(refused('[seeding]\nlist = "ours\n'))


def test_another_section() -> None:
    assert str(refused(text_of(LADDER) + "\n[bracket]\nplaces = 8\n")) == (
        f"{WHERE}[bracket] is not read; its one section is [seeding]"
    )


@pytest.mark.parametrize("text", ["", "# nothing\n"])
def test_no_section(text: str) -> None:
    assert str(refused(text)) == f"{WHERE}it has no section [seeding]; all its keys stand there"


def test_a_section_that_is_no_table() -> None:
    assert str(refused("seeding = 3\n")) == (
        f"{WHERE}The setting seeding must be a table; it is 3."
    )


def test_a_value_that_no_snapshot_holds() -> None:
    assert str(refused(changed(LADDER, "count = 8", "count = 2026-01-01"))).startswith(
        f"{WHERE}The setting seeding.count must be text, a number, true or false, a list or a table"
    )


def test_nested_too_deeply() -> None:
    deep = "[" * 5000 + "]" * 5000
    assert str(refused(f"[seeding]\nlist = {deep}\n")) == (
        f"{WHERE}its tables are nested too deeply"
    )


def test_too_long() -> None:
    assert str(refused("#" * (MOST + 1))) == f"{WHERE}it is longer than 200,000 characters"
