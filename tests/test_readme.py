"""Every command, path, address, setting and label that the README names exists."""

import csv
import re
import shlex
from functools import cache
from pathlib import Path

import pytest
from django.core.management import get_commands, load_command_class
from django.core.management.base import BaseCommand
from django.urls import resolve

from brackets.core.rules import PLACES
from results.core.outcomes import Kind
from seeding.entries.forms.weights import titles
from seeding.entries.rulebooks import book, books
from seeding.rulebooks import lists
from tests.conftest import ROOT

README = (ROOT / "README.md").read_text("utf-8")
APPS = ("deploy", "seeding", "brackets", "results")
CODE = re.findall(r"`([^`\n]+)`", README)
BLOCKS = re.findall(r"^```\n(.*?)^```", README, re.DOTALL | re.MULTILINE)
STEPS = "".join(
    README.partition(title)[2].partition("\n## ")[0]
    for title in ("## A tournament, step by step", "## The seeding room")
)

# A command as the README writes it, and words in the place of its capitals.
FILLED = {"FILE": "x.json", "SLUG": "x", "ORG": "x", "NAME": "x", "...": "check"}
LINES = [line.partition("#")[0].strip() for block in BLOCKS for line in block.splitlines()]
COMMANDS = sorted({text for text in (*LINES, *CODE) if re.match(r"(\S+=\S+ )?sh ", text)})


@pytest.mark.parametrize("command", COMMANDS)
def test_a_command_exists_and_takes_these_arguments(command: str) -> None:
    words = [word for word in shlex.split(command) if "=" not in word]
    assert words[0] == "sh"
    assert (ROOT / words[1]).is_file()
    name = {"deploy/demo": ["demo"], "deploy/manage": []}.get(words[1])
    if name is not None:
        called, *rest = [*name, *(FILLED.get(word, word) for word in words[2:])]
        assert called in get_commands()
        _command(called).create_parser("manage.py", called).parse_args(rest)


def _command(name: str) -> BaseCommand:
    app = get_commands()[name]
    return app if isinstance(app, BaseCommand) else load_command_class(app, name)


def test_there_are_commands() -> None:
    assert {"sh deploy/demo", "sh deploy/demo --empty", "sh deploy/test"} < set(COMMANDS)


PATHS = {
    *re.findall(r"\]\(([^)]+)\)", README),
    *(text for text in CODE if re.fullmatch(r"[a-z_]+/[\w./-]*", text)),
}


@pytest.mark.parametrize("path", sorted(PATHS))
def test_a_path_exists(path: str) -> None:
    assert (ROOT / path).exists()


def test_the_two_files_hold_what_is_said() -> None:
    with (ROOT / "fixtures/demo/roster.csv").open(encoding="utf-8-sig") as file:
        roster = list(csv.DictReader(file))
    with (ROOT / "fixtures/demo/season.csv").open(encoding="utf-8-sig") as file:
        season = list(csv.DictReader(file))
    assert "`roster.csv` (twelve wrestlers, two weights)" in README
    assert (len(roster), {row["Weight class"] for row in roster}) == (12, {"133", "149"})
    assert "`season.csv` (thirty earlier bouts)" in README
    assert len(season) == 30


ADDRESSES = sorted({text for text in CODE if text.startswith("/api/")})


@pytest.mark.parametrize("address", ADDRESSES)
def test_an_address_is_answered(address: str) -> None:
    path = address.partition("?")[0].replace("<slug>", "river-cup")
    if path == "/api/v1/":  # the common beginning
        assert all(one.startswith(path) for one in ADDRESSES)
    else:
        resolve(path)


SETTINGS = sorted({text.partition("=")[0] for text in CODE if re.match(r"[A-Z_]+(=\S*)?$", text)})


@pytest.mark.parametrize("setting", SETTINGS)
def test_a_setting_is_read(setting: str) -> None:
    readers = [*(ROOT / "deploy").glob("*.py"), ROOT / "deploy/management/commands/demo.py"]
    assert any(f'"{setting}"' in path.read_text("utf-8") for path in readers)


def test_headers_of_the_interface_are_those() -> None:
    calls = (ROOT / "seeding/journal/api/endpoint.py").read_text("utf-8")
    for header in ("Idempotency-Key", "If-Match"):
        assert f"`{header}`" in README
        assert f'"{header}"' in calls


# What a page says: literals for translation in templates and code; variables stand for anything.
WORDS = re.compile(
    r"""\{%\s*translate\s+"([^"]+)" | \b(?:_|gettext|gettext_lazy)\(\s*"((?:[^"\\]|\\.)+)"\s*\)
    | \{%\s*blocktranslate[^%]*%\}(.*?)\{%\s*endblocktranslate\s*%\}""",
    re.VERBOSE | re.DOTALL,
)
VARIABLE = re.compile(r"\{\{.*?\}\}|%\(\w+\)s")


def _files() -> list[Path]:
    found = [path for app in APPS for path in (ROOT / app).rglob("*")]
    return [path for path in found if path.suffix in (".py", ".html")]


@cache
def _said() -> tuple[re.Pattern[str], ...]:
    texts: set[str] = set()
    for path in _files():
        for found in WORDS.findall(path.read_text("utf-8")):
            texts.update(re.split(r"\{%\s*plural\s*%\}", next(filter(None, found))))
    patterns = (".+".join(map(re.escape, VARIABLE.split(text.strip()))) for text in texts)
    return tuple(re.compile(pattern) for pattern in patterns)


LABELS = sorted(
    {*re.findall(r"(?<!\*)\*([^*]+)\*(?!\*)", STEPS), *re.findall(r"(?<!of )“([^”]+)”", STEPS)}
)


@pytest.mark.parametrize("label", LABELS)
def test_a_label_is_on_a_page(label: str) -> None:
    books = {title for _name, title in titles()}
    assert label in books or any(pattern.fullmatch(label) for pattern in _said())


def test_there_are_labels() -> None:
    assert {"Make the tournament", "New organisation", "Show what follows"} < set(LABELS)
    assert not any(pattern.fullmatch("Make the circus") for pattern in _said())


def test_the_number_of_published_lists() -> None:
    assert len(lists()) == 14
    assert "Fourteen published lists" in README


def test_rule_books_kinds_and_places_are_those() -> None:
    known = README.partition("## What it knows")[2].partition("\n## ")[0]
    assert [title for _name, title in titles() if title not in known] == []
    assert [kind for kind in Kind if kind not in known] == []
    scored = {int(places) for name in books() for places in book(name)["team_points"]["placement"]}
    assert scored == set(PLACES)
    *some, last = map(str, PLACES)
    assert f"{', '.join(some)} or {last} places" in known
