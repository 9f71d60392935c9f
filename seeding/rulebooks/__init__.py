"""Lists of criteria that come with the program, one TOML file each, and those that people bring.

A file of criteria has the one section `[seeding]`; its keys are explained in `seeding.core.rules`.
"""

import tomllib
from collections.abc import Mapping
from decimal import Decimal
from functools import lru_cache
from pathlib import Path
from typing import Any

import tomli_w

from seeding.core.errors import BadList, UnknownList
from seeding.core.rules import SeedingRules
from seeding.entries.core.errors import RuleBookRefusal
from seeding.entries.core.rulebook import plain

FOLDER = Path(__file__).parent
MOST = 200_000
"""A file of criteria has at most so many characters; the longest in the tree has some 6,000."""


def lists() -> tuple[str, ...]:
    """The names of all lists, in alphabetical order."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.toml")))


def text_of(name: str) -> str:
    """A list as its file says it, with the sources beside the numbers."""
    if name not in lists():
        raise UnknownList(name=name, allowed=", ".join(lists()))
    return (FOLDER / f"{name}.toml").read_text(encoding="utf-8")


@lru_cache(maxsize=32)
def rules_of_list(name: str) -> SeedingRules:
    """A list of the tree, read."""
    return SeedingRules.from_section(section_of(f"{name}.toml", text_of(name)))


def section_of(file: str, text: str) -> Mapping[str, Any]:
    """The section `[seeding]` in the text of a file, as a snapshot holds it.

    Raises BadList, which names the file, the key, and what is allowed there.
    """
    section: Mapping[str, Any] = {}
    try:
        if len(text) > MOST:
            raise BadList(file=file, what=f"it is longer than {MOST:,} characters")
        parsed = tomllib.loads(text, parse_float=Decimal)
        _one_section(file, parsed)
        section = plain(parsed["seeding"], "seeding")
        SeedingRules.from_section(section)
    except tomllib.TOMLDecodeError as error:
        raise BadList(file=file, what=f"it is no TOML: {error}") from error
    except RecursionError as error:
        raise BadList(file=file, what="its tables are nested too deeply") from error
    except RuleBookRefusal as refusal:
        what = f"{refusal}{_named(section, refusal.where)}"
        raise BadList(file=file, what=what, where=f"{file}: {refusal.where}") from refusal
    return section


def _named(section: Mapping[str, Any], where: str) -> str:
    """Which table of a list is meant, by its name and as people count."""
    at: Any = {"seeding": section}
    said = ""
    for key in where.split("."):
        if isinstance(at, list) and key.isdigit() and int(key) < len(at):
            at = at[int(key)]
            name = at.get("name", "") if isinstance(at, Mapping) else ""
            said = f" (number {int(key) + 1} there{f', “{name}”' if name else ''})"
        else:
            at = at.get(key) if isinstance(at, Mapping) else None
    return said


def written(section: Mapping[str, Any]) -> str:
    """The section as the text of a file, which `section_of` reads."""
    return tomli_w.dumps({"seeding": section})


def _one_section(file: str, parsed: Mapping[str, object]) -> None:
    for name in parsed:
        if name != "seeding":
            raise BadList(file=file, what=f"[{name}] is not read; its one section is [seeding]")
    if "seeding" not in parsed:
        raise BadList(file=file, what="it has no section [seeding]; all its keys stand there")
