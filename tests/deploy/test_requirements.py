"""What is imported is asked for, what is asked for is locked, and no lock names an address."""

import ast
import re
import sys
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest
from django.conf import settings

FOLDER: Path = settings.BASE_DIR / "deploy" / "requirements"
APPS = ("seeding", "brackets", "results", "deploy")
OWN = {*APPS, "tests", "manage"}


def plain(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def asked_for(name: str) -> set[str]:
    lines = (FOLDER / name).read_text("utf-8").splitlines()
    return {plain(found[0]) for line in lines if (found := re.match(r"[A-Za-z][\w.-]*", line))}


def locked(name: str) -> set[str]:
    text = (FOLDER / name).read_text("utf-8")
    return {plain(found) for found in re.findall(r"^([\w.-]+)(?:\[.*\])?==", text, re.MULTILINE)}


def imported(*folders: str) -> set[str]:
    """The distributions whose modules the Python files of the folders import."""
    modules = set()
    for path in (path for folder in folders for path in (settings.BASE_DIR / folder).rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Import):
                modules |= {alias.name.split(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module:
                modules.add(node.module.split(".")[0])
    distributions = packages_distributions()
    foreign = modules - OWN - sys.stdlib_module_names
    return {plain(distributions.get(module, [module])[0]) for module in foreign}


def test_every_import_of_the_program_is_asked_for() -> None:
    # kombu is Celery's own messaging; its errors have no other name.
    assert imported(*APPS) - {"kombu"} <= asked_for("main.in")


def test_every_import_of_the_tests_is_asked_for() -> None:
    assert imported("tests") <= asked_for("main.in") | asked_for("test.in")


@pytest.mark.parametrize("name", ["main", "test"])
def test_locks_hold_what_is_asked_for_by_hash_and_without_addresses(name: str) -> None:
    assert asked_for(f"{name}.in") <= locked(f"{name}.txt")
    text = (FOLDER / f"{name}.txt").read_text("utf-8")
    assert "://" not in text
    assert text.count("==") <= text.count("--hash=sha256:")


def test_program_and_tests_are_locked_to_the_same_versions() -> None:
    pins = re.compile(r"^[\w.-]+(?:\[.*\])?==\S+", re.MULTILINE)
    main, test = (
        set(pins.findall((FOLDER / name).read_text("utf-8"))) for name in ("main.txt", "test.txt")
    )
    assert main <= test
