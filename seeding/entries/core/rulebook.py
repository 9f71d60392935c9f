"""Rule books as values: a checked snapshot, single settings by dotted name, and a typed reader.

A snapshot is a plain JSON dict `{"schema": 1, "book": {...}, "bracket": {...}, ...}` in which
decimals are strings. It is kept per division, so that an old tournament stays as it was.
"""

import json
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from decimal import Decimal, InvalidOperation
from types import TracebackType
from typing import Any, Self, TypeGuard

from seeding.entries.core.errors import (
    BadSetting,
    MissingSection,
    MissingSetting,
    NewerSnapshot,
    UnknownSection,
    UnknownSetting,
)
from seeding.entries.core.spelling import listed
from seeding.entries.core.upgrades import STEPS, Snapshot

SCHEMA = 2
SECTIONS = (
    "book",
    "weights",
    "seeding",
    "bracket",
    "results",
    "bout",
    "floor",
    "team_points",
    "deductions",
)

Step = Callable[[Snapshot], Snapshot]


def snapshot(parsed: Mapping[str, object]) -> Snapshot:
    """The snapshot of a parsed rule book; refuses missing, unknown and unreadable parts by name."""
    for name in SECTIONS:
        if name not in parsed:
            raise MissingSection(name=name, where=name)
    for name in parsed:
        if name not in SECTIONS:
            raise UnknownSection(name=name, allowed=", ".join(SECTIONS), where=name)
    return {"schema": SCHEMA} | {name: plain(parsed[name], name) for name in SECTIONS}


def plain(value: object, where: str) -> Any:
    """The value as JSON can hold it, with every decimal as a string."""
    if isinstance(value, bool | int | str):
        return value
    if isinstance(value, Decimal):
        return str(value)
    if isinstance(value, float):
        return repr(value)
    if isinstance(value, Mapping):
        return {str(key): plain(item, f"{where}.{key}") for key, item in value.items()}
    if isinstance(value, Sequence):
        return [plain(item, f"{where}.{at}") for at, item in enumerate(value)]
    wanted = "text, a number, true or false, a list or a table"
    raise BadSetting(name=where, wanted=wanted, value=value, where=where)


def export(value: Snapshot) -> str:
    """The snapshot as text: JSON with sorted keys, the same on every machine and run."""
    return json.dumps(value, sort_keys=True, indent=1, ensure_ascii=False) + "\n"


def restore(text: str) -> Snapshot:
    """The snapshot that `export` wrote."""
    value: Snapshot = json.loads(text)
    return value


def upgrade(old: Snapshot, steps: Mapping[int, Step] = STEPS, schema: int = SCHEMA) -> Snapshot:
    """The snapshot at the current schema.

    `steps[n]` takes a snapshot of schema n and supplies what schema n + 1 added, with the value
    that leaves an old tournament as it was.
    """
    found = int(old.get("schema", 0))
    if found > schema:
        raise NewerSnapshot(found=found, known=schema)
    new = dict(old)
    for number in range(found, schema):
        new = steps[number](new) | {"schema": number + 1}
    return new


def override(base: Snapshot, settings: Mapping[str, object]) -> Snapshot:
    """A copy of the snapshot with settings replaced, `{"team_points.byes": "none"}`.

    The name of a section takes a whole one, before single settings of it are. A name runs through
    tables by key and through lists of named tables by their `name`. In a table whose keys are
    numbers (points by number of places) a new number may be added.
    """
    new: Snapshot = plain(base, "")
    for name, value in sorted(settings.items(), key=lambda item: item[0] not in SECTIONS):
        if name in whole(settings):
            new[name] = plain(value, name)
        else:
            _replace(new, name, plain(value, name))
    return new


def whole(settings: Mapping[str, object]) -> dict[str, object]:
    """Of the settings those that are whole sections, such as a list of criteria."""
    return {
        name: value
        for name, value in settings.items()
        if name in SECTIONS[1:] and isinstance(value, Mapping)
    }


def names(base: Mapping[str, object]) -> tuple[str, ...]:
    """Every dotted name that `override` may replace, in the order of the book."""
    sections = (name for name in SECTIONS if name != "book")
    return tuple(leaf for name in sections for leaf in _leaves(base[name], name))


def _leaves(value: object, path: str) -> Iterator[str]:
    table = _named(value)
    if not table:
        yield path
    for key, item in table.items():
        yield from _leaves(item, f"{path}.{key}")


def _named(value: object) -> Mapping[str, Any]:
    """The table that a name may go on into: of a table itself, of a list its named tables."""
    if isinstance(value, Mapping):
        return value
    if isinstance(value, list) and value and all(isinstance(item, Mapping) for item in value):
        return {str(item.get("name", at)): item for at, item in enumerate(value)}
    return {}


def _replace(new: Snapshot, name: str, value: object) -> None:
    *path, last = name.split(".")
    at: object = new
    for key in path:
        at = _named(at).get(key)
    if not isinstance(at, dict) or not (name in names(new) or _may_add(at, path, last)):
        raise UnknownSetting(name=name, allowed=_allowed(new, name), where=name)
    at[last] = value


def _may_add(table: Mapping[str, Any], path: Sequence[str], key: str) -> bool:
    """Whether the table is one by numbers, such as points by number of places."""
    return len(path) > 1 and path[0] in SECTIONS and all(one.isdigit() for one in (key, *table))


def _allowed(base: Snapshot, name: str) -> str:
    section, known = name.partition(".")[0], names(base)
    return listed(name, [leaf for leaf in known if leaf.startswith(f"{section}.")] or known)


class Section:
    """A reader of one table of a snapshot that knows which keys were asked for.

    Used as a context: leaving it refuses the keys that nobody read.

    >>> with Section("floor", {"rest_minutes": 30}) as floor:
    ...     floor.whole("rest_minutes")
    30
    """

    def __init__(self, name: str, values: object) -> None:
        self.name = name
        self._read: set[str] = set()
        if not isinstance(values, Mapping):
            raise BadSetting(name=name, wanted="a table", value=values, where=name)
        self._values: Mapping[str, object] = values

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: object, trace: TracebackType | None
    ) -> None:
        if kind is None:
            self.close()

    def close(self) -> None:
        """Refuse the first key that was never read."""
        for key in self._values:
            if key not in self._read:
                allowed = ", ".join(f"{self.name}.{known}" for known in sorted(self._read))
                where = self.path(key)
                raise UnknownSetting(name=where, allowed=allowed or "none", where=where)

    def path(self, key: str) -> str:
        """The dotted name of the key."""
        return f"{self.name}.{key}"

    def keys(self) -> tuple[str, ...]:
        """Every key of the table."""
        return tuple(self._values)

    def has(self, key: str) -> bool:
        """Whether the table has the key."""
        return key in self._values

    def raw(self, key: str) -> object:
        """The value as it stands; marks the key as read."""
        self._read.add(key)
        if key not in self._values:
            raise MissingSetting(name=self.path(key), where=self.path(key))
        return self._values[key]

    def text(self, key: str, among: Collection[str] = ()) -> str:
        value = self.raw(key)
        if not isinstance(value, str) or (among and value not in among):
            raise self._bad(key, f"one of {', '.join(among)}" if among else "text")
        return value

    def flag(self, key: str) -> bool:
        value = self.raw(key)
        if not isinstance(value, bool):
            raise self._bad(key, "true or false")
        return value

    def whole(self, key: str, least: int = 0) -> int:
        value = self.raw(key)
        if not _is_whole(value) or value < least:
            raise self._bad(key, f"a whole number from {least}")
        return value

    def points(self, key: str) -> Decimal:
        value = _decimal(self.raw(key))
        if value is None:
            raise self._bad(key, "a number")
        return value

    def wholes(self, key: str) -> tuple[int, ...]:
        values = self.raw(key)
        if not isinstance(values, list | tuple) or not all(_is_whole(value) for value in values):
            raise self._bad(key, "a list of whole numbers")
        return tuple(values)

    def decimals(self, key: str) -> tuple[Decimal, ...]:
        values = self.raw(key)
        found = (
            [_decimal(value) for value in values] if isinstance(values, list | tuple) else [None]
        )
        if any(value is None for value in found):
            raise self._bad(key, "a list of numbers")
        return tuple(value for value in found if value is not None)

    def texts(self, key: str, among: Collection[str] = ()) -> tuple[str, ...]:
        values = self.raw(key)
        known = isinstance(values, list | tuple) and all(isinstance(item, str) for item in values)
        if not isinstance(values, list | tuple) or not known:
            raise self._bad(key, "a list of texts")
        if among and not set(values) <= set(among):
            raise self._bad(key, f"a list of {', '.join(among)}")
        return tuple(values)

    def section(self, key: str) -> "Section":
        """The table under the key; the caller closes it."""
        return Section(self.path(key), self.raw(key))

    def sections(self, key: str) -> tuple["Section", ...]:
        """The list of tables under the key; the caller closes each."""
        values = self.raw(key)
        if not isinstance(values, list | tuple):
            raise self._bad(key, "a list of tables")
        return tuple(Section(f"{self.path(key)}.{at}", item) for at, item in enumerate(values))

    def numbered(self, key: str) -> tuple[tuple[int, str], ...]:
        """The keys of a table whose keys are whole numbers, as (number, key), in rising order."""
        table = self.section(key)
        found = table.keys()
        if not all(name.isdigit() for name in found):
            raise self._bad(key, "a table whose keys are whole numbers")
        return tuple(sorted((int(name), name) for name in found))

    def _bad(self, key: str, wanted: str) -> BadSetting:
        value = self._values.get(key)
        return BadSetting(name=self.path(key), wanted=wanted, value=value, where=self.path(key))


def _is_whole(value: object) -> TypeGuard[int]:
    return isinstance(value, int) and not isinstance(value, bool)


def _decimal(value: object) -> Decimal | None:
    if isinstance(value, bool) or not isinstance(value, int | str | Decimal):
        return None
    try:
        found = Decimal(value)
    except InvalidOperation:
        return None
    return found if found.is_finite() else None
