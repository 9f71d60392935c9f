"""The API offers every act that a service offers."""

import inspect
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules
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
    return [import_module(f"{room.__name__}.{one.name}") for one in iter_modules(room.__path__)]


def writers() -> set[str]:
    """What a face may call: acts, and the functions that take a call and do several things."""
    found = set()
    for room in ROOMS:
        for module in modules(room):
            for name, made in inspect.getmembers(module, inspect.isfunction):
                own = inspect.unwrap(made).__module__ == module.__name__
                asks = inspect.signature(made).parameters.get("call")
                if own and asks and asks.kind is inspect.Parameter.KEYWORD_ONLY:
                    found.add(name)
    return found


def test_every_act_is_offered() -> None:
    text = "".join(path.read_text("utf-8") for path in ROOT.glob("*/**/api/*.py"))
    lacking = {name for name in writers() - INNER if f"{name}(" not in text}
    assert not lacking


def test_writers_are_found() -> None:
    assert {"enter_result", "draw_every", "commit_season", "add_team", "number_bouts"} <= writers()
