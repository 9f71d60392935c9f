"""The API offers every act that a service offers."""

import inspect
import re
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages
from types import ModuleType

import brackets.services
import results.services
import seeding.entries.services
import seeding.services

ROOT = Path(__file__).resolve().parents[2]
ROOMS = (seeding.entries.services, seeding.services, brackets.services, results.services)
INNER = {
    "add_user",  # `add_person` gives a role with it
    "found_organisation",  # of the machine's commands; the API asks `new_organisation`
    "hold_file",  # between two pages; the API sends the file with both requests
}


def modules(room: ModuleType) -> list[ModuleType]:
    found = walk_packages(room.__path__, f"{room.__name__}.")
    return [import_module(one.name) for one in found]


def writers() -> set[str]:
    """What a face may call: acts, and the functions that take a call and do several things."""
    found = set()
    for room in ROOMS:
        for module in modules(room):
            for name, made in inspect.getmembers(module, inspect.isfunction):
                own = inspect.unwrap(made).__module__ == module.__name__ and name[0] != "_"
                asks = inspect.signature(made).parameters.get("call")
                if own and asks and asks.kind is inspect.Parameter.KEYWORD_ONLY:
                    found.add(name)
    return found


def test_every_act_is_offered() -> None:
    text = "".join(path.read_text("utf-8") for path in ROOT.glob("*/**/api/*.py"))
    used = {name for name in writers() if len(re.findall(rf"\b{name}\b", text)) > 1}
    assert not writers() - INNER - used


def test_writers_are_found() -> None:
    assert {"enter_result", "draw_every", "commit_season", "add_team", "number_bouts"} <= writers()
