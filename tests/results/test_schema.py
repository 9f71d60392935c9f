"""The JSON Schema of the tournament file."""

import copy
import json
from collections.abc import Iterator
from enum import StrEnum
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from brackets.core.rules import (
    Apart,
    Byes,
    Crossing,
    DoubleLoss,
    LineOrder,
    OfTwo,
    OpenPlace,
    Searched,
    Thirds,
    Wrestleback,
)
from results.core.outcomes import Kind
from results.core.rules import (
    Absent,
    ByesInARow,
    NoContest,
    NonScorers,
    PoolCriterion,
    ScorerOf,
    SharedPlaces,
    Withdrawn,
)
from results.core.rules import Byes as ByePoints
from seeding.core.scratches import Scratched
from seeding.entries.rulebooks import book, books
from tests.results.whole_file import EXAMPLE, FULL

ROOT = Path(__file__).resolve().parents[2]
SCHEMA = json.loads((ROOT / "results/tournament_file.schema.json").read_text("utf-8"))
CHECKER = Draft202012Validator(SCHEMA)


def refusals(document: object) -> list[tuple[str, str]]:
    """Path and message of everything that the schema refuses."""
    return [(error.json_path, error.message) for error in CHECKER.iter_errors(document)]


def test_the_schema_is_one() -> None:
    Draft202012Validator.check_schema(SCHEMA)


def test_the_example_of_the_page_is_valid() -> None:
    assert refusals(EXAMPLE) == []


def test_a_dump_and_every_key_is_valid() -> None:
    assert refusals(FULL) == []


def test_everything_after_entries_may_be_absent() -> None:
    names = list(EXAMPLE)
    least = {name: EXAMPLE[name] for name in names[: names.index("entries") + 1]}
    assert refusals(least) == []
    for name in least:
        without = {key: value for key, value in least.items() if key != name}
        assert refusals(without) == [("$", f"'{name}' is a required property")]


OPEN = ("settings", "book", "bracket")  # settings go by dotted name; a rule book has its own reader


def objects(value: Any, path: str = "$") -> Iterator[tuple[str, dict[str, Any]]]:
    """Every object in the document that the schema closes, with its path."""
    if isinstance(value, dict):
        yield path, value
        for key, inner in value.items():
            if key not in OPEN:
                yield from objects(inner, f"{path}.{key}")
    elif isinstance(value, list):
        for at, inner in enumerate(value):
            yield from objects(inner, f"{path}[{at}]")


PATHS = [path for path, _ in objects(FULL)]


@pytest.mark.parametrize("path", PATHS)
def test_an_unknown_key_is_refused_with_its_path(path: str) -> None:
    document = copy.deepcopy(FULL)
    dict(objects(document))[path]["colour"] = "red"
    (refused,) = refusals(document)
    assert refused[0] == path
    assert "'colour' was unexpected" in refused[1]


def closed(schema: Any, path: str = "#") -> Iterator[str]:
    """The places of the schema whose object is left open."""
    if isinstance(schema, dict):
        if "properties" in schema and schema.get("additionalProperties") is not False:
            yield path
        for key, inner in schema.items():
            yield from closed(inner, f"{path}/{key}")


def test_no_object_with_named_keys_is_open() -> None:
    """But for the sections of a rule book, which are only explained: they have their reader."""
    assert [path for path in closed(SCHEMA) if "/book_" not in path] == []


SECTIONS = {
    name.removeprefix("book_"): part["properties"]
    for name, part in SCHEMA["$defs"].items()
    if name.startswith("book_")
}


@pytest.mark.parametrize("name", books())
@pytest.mark.parametrize("section", ["bracket", "results", "team_points", "deductions"])
def test_every_setting_that_a_result_hangs_on_is_explained(section: str, name: str) -> None:
    assert set(book(name)[section]) <= set(SECTIONS[section])


WORDS: list[tuple[str, str, type[StrEnum]]] = [
    ("seeding", "scratched", Scratched),
    ("bracket", "of_two", OfTwo),
    ("bracket", "line_order", LineOrder),
    ("bracket", "wrestleback", Wrestleback),
    ("bracket", "thirds", Thirds),
    ("bracket", "crossings", Crossing),
    ("bracket", "crossings", Searched),
    ("bracket", "double_loss", DoubleLoss),
    ("bracket", "open_place", OpenPlace),
    ("bracket", "advancing_byes", Byes),
    ("bracket", "keep_apart", Apart),
    ("results", "withdrawal_place", Withdrawn),
    ("results", "no_contest", NoContest),
    ("results", "absent_qualifier", Absent),
    ("results", "pool_order", PoolCriterion),
    ("team_points", "byes", ByePoints),
    ("team_points", "byes_in_a_row", ByesInARow),
    ("team_points", "shared_places", SharedPlaces),
    ("team_points", "non_scorers", NonScorers),
    ("team_points", "scorer", ScorerOf),
]


@pytest.mark.parametrize(("section", "key", "words"), WORDS)
def test_every_word_of_a_setting_is_explained(section: str, key: str, words: type[StrEnum]) -> None:
    text = SECTIONS[section][key]["description"]
    assert [word for word in words if word not in text] == []


def test_every_key_of_the_schema_is_tried() -> None:
    tried = {key for _, value in objects(FULL) for key in value}
    known = {
        key
        for name, part in [("", SCHEMA), *SCHEMA["$defs"].items()]
        if not name.startswith("book_")
        for key in part.get("properties", {})
    }
    assert known <= tried | {"tournament"}


def test_the_kinds_are_those_of_the_results() -> None:
    assert SCHEMA["$defs"]["kind"]["enum"] == [kind.value for kind in Kind]


WRONG = [
    ("results", {"weight_class": "125", "kind": "fall"}, "$.results[0]"),
    ("results", {"weight_class": "125", "bout": 1, "between": ["a", "b"], "kind": "fall"}, ""),
    ("results", {"weight_class": "125", "bout": 1, "kind": "pin"}, "$.results[0].kind"),
    ("results", {"weight_class": "125", "bout": 1, "kind": "fall", "time": "2.28"}, "time"),
    ("results", {"weight_class": "125", "bout": 1, "kind": "fall", "score": [7]}, "score"),
    ("results", {"weight_class": "125", "between": ["a"], "kind": "fall"}, "between"),
    ("results", {"weight_class": 125, "bout": 1, "kind": "fall"}, "$.results[0].weight_class"),
    ("adjustments", {"team": "alder", "points": -1, "reason": "x"}, "$.adjustments[0].points"),
    ("brackets", {"weight_class": "125", "lines": [["a", "b", "c"]]}, "$.brackets[0].lines[0]"),
    ("withdrawals", {"entry": "e1", "kind": "bored"}, "$.withdrawals[0].kind"),
    ("divisions", {"id": "o", "name": "O", "rulebook": "b", "settings": {"byes": 1}}, "settings"),
]


@pytest.mark.parametrize(("section", "item", "path"), WRONG)
def test_a_wrong_value_is_refused_with_its_path(section: str, item: object, path: str) -> None:
    (refused,) = refusals({**EXAMPLE, section: [item]})
    assert path in refused[0]
