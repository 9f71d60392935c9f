"""The rule books that come with the program, one TOML file per body and season."""

import tomllib
from collections.abc import Callable, Mapping
from decimal import Decimal
from functools import lru_cache
from pathlib import Path

from seeding.entries.core.errors import UnknownRuleBook
from seeding.entries.core.rulebook import export, override, restore, snapshot, upgrade
from seeding.entries.core.upgrades import Snapshot

FOLDER = Path(__file__).parent
READERS: dict[str, Callable[[Mapping[str, object]], object]] = {}
"""What reads a section into its frozen class, by section; each app adds its own when set up."""


def books() -> tuple[str, ...]:
    """The names of all rule books, in alphabetical order."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.toml")))


def book(name: str) -> Snapshot:
    """A fresh, checked snapshot of a rule book; refuses a name that is not in `books()`."""
    return restore(exported(name))


@lru_cache(maxsize=32)
def exported(name: str) -> str:
    """The snapshot of a rule book as text that is the same on every machine and run."""
    if name not in books():
        raise UnknownRuleBook(name=name, allowed=", ".join(books()))
    text = (FOLDER / f"{name}.toml").read_text(encoding="utf-8")
    return export(snapshot(tomllib.loads(text, parse_float=Decimal)))


def with_settings(name: str, settings: Mapping[str, object]) -> Snapshot:
    """The snapshot of a rule book with single settings replaced, every section readable."""
    return readable(override(book(name), settings))


def readable(found: Snapshot) -> Snapshot:
    """The snapshot at the current schema; refuses, by name, what an app cannot read in it."""
    current = upgrade(found)
    for section, read in READERS.items():
        read(current[section])
    return current
